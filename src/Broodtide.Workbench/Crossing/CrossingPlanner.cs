using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>
/// The pour schedule of a crossing: steps in the cup, when to pour it out, what that does to the receiving vessel
/// and how to put it right. A balance of salt, water and heat by mass, with densities by EOS-80; each pour counts
/// as mixed at once.
/// </summary>
public static class CrossingPlanner
{
    /// <summary>How far beyond the brackish edge the cup is brought where no target is given, practical salinity.</summary>
    public const double BeyondBrackish = 0.1;

    /// <summary>
    /// Works out a crossing. It is refused only where it cannot be; the refusal then holds the nearest orders for
    /// which there is a plan.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The minutes of the order are not finite.</exception>
    public static CrossingAnswer Plan(CrossingOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        var (plan, obstacle) = TryPlan(order);
        return plan is not null
            ? new CrossingAnswer.Planned(plan)
            : new CrossingAnswer.Refused(
                new(
                    obstacle!.Code,
                    obstacle.Field,
                    obstacle.Given,
                    obstacle.Needed,
                    CrossingRemedies.For(order, obstacle)
                )
            );
    }

    /// <summary>Which way an order goes.</summary>
    internal static CrossingDirection DirectionOf(CrossingOrder order) =>
        Destination(order) >= order.Cup.Salinity.Practical
            ? CrossingDirection.ToSalt
            : CrossingDirection.ToFresh;

    /// <summary>The salinity the cup is to reach: as ordered, else just out of brackish water.</summary>
    internal static double TargetOf(CrossingOrder order)
    {
        if (order.CupTarget is { } wished)
        {
            return wished.Practical;
        }

        var start = order.Cup.Salinity.Practical;
        var destination = Destination(order);
        if (order.Receiving.Volume == default)
        {
            // Nothing to be poured into: the cup's water becomes the vessel's.
            return destination;
        }

        return DirectionOf(order) == CrossingDirection.ToSalt
            ? Math.Clamp(order.Brackish.Upper.Practical + BeyondBrackish, start, destination)
            : Math.Clamp(order.Brackish.Lower.Practical - BeyondBrackish, destination, start);
    }

    /// <summary>The plan, or what stands in its way.</summary>
    internal static (CrossingPlan? Plan, Obstacle? Obstacle) TryPlan(CrossingOrder order)
    {
        if ((OrderRanges.First(order) ?? OrderRanges.Dependent(order)) is { } outside)
        {
            return (null, new(CrossingRefusalCode.OutsideRange, outside.Field, outside.Given, outside.Edge));
        }

        var (start, capacity) = (order.Cup.Volume.Litres, order.CupCapacity.Litres);
        if (start > capacity)
        {
            return (null, new(CrossingRefusalCode.CupTooSmall, CrossingField.CupCapacity, capacity, start));
        }

        var target = TargetOf(order);
        var schedule = CupSchedule.Find(order, target, out var neededLitres);
        if (schedule is null)
        {
            return (null, SourceObstacle(order, target, neededLitres));
        }

        var brackish = schedule
            .Moves.Select(m => order.Brackish.IsBrackish(m.After.ToBody().Salinity))
            .ToArray();
        var limit = order.Brackish.LimitMinutes;
        var stands = StandingTimes.Share(brackish, order.WantedMinutes, limit);
        if (stands is null)
        {
            return (null, TooLong(order.WantedMinutes, limit));
        }

        var steps = Steps(schedule, brackish, stands);
        var pourAt = stands.Sum();
        var cup = schedule.Moves.Count > 0 ? schedule.Moves[^1].After : WaterMass.From(order.Cup);
        var (pouring, code, litres) = PouringOut.Plan(order, cup, pourAt);
        if (pouring is null)
        {
            return (null, ReceivingObstacle(order, code, litres));
        }

        var minutes = steps.Where(s => s.IsBrackish).Sum(s => s.StandMinutes);
        if (order.Brackish.IsBrackish(cup.ToBody().Salinity))
        {
            minutes += pouring.Portions[^1].OffsetMinutes - pourAt;
            if (pouring.Portions.Count > 1 && minutes > limit)
            {
                return (null, TooLong(minutes, limit));
            }
        }

        return (Composed(order, schedule, steps, pouring, minutes), null);
    }

    private static double Destination(CrossingOrder order) =>
        order.Receiving.Volume == default
            ? order.ReceivingBand.Target.Practical
            : order.Receiving.Salinity.Practical;

    private static Obstacle TooLong(double minutes, double limit) =>
        new(CrossingRefusalCode.BrackishTooLong, CrossingField.WantedMinutes, minutes, limit);

    private static Obstacle SourceObstacle(CrossingOrder order, double target, double neededLitres) =>
        neededLitres > 0
            ? new(
                CrossingRefusalCode.NotEnoughSource,
                CrossingField.SourceVolume,
                order.Source.Volume.Litres,
                neededLitres
            )
            : new(
                CrossingRefusalCode.SourceCannotReach,
                CrossingField.SourceSalinity,
                order.Source.Salinity.Practical,
                target
            );

    private static Obstacle ReceivingObstacle(CrossingOrder order, CrossingRefusalCode code, double litres) =>
        code == CrossingRefusalCode.ReceivingTooSmall
            ? new(code, CrossingField.ReceivingCapacity, order.ReceivingCapacity?.Litres ?? 0, litres)
            : new(code, CrossingField.ReceivingVolume, order.Receiving.Volume.Litres, litres);

    private static List<CrossingStep> Steps(CupSchedule schedule, bool[] brackish, double[] stands)
    {
        var steps = new List<CrossingStep>(stands.Length);
        var offset = 0.0;
        for (var i = 0; i < stands.Length; i++)
        {
            var move = schedule.Moves[i];
            steps.Add(
                new(
                    i + 1,
                    offset,
                    Volume.FromLitres(move.DrawnLitres),
                    Volume.FromLitres(move.AddedLitres),
                    stands[i],
                    move.After.ToBody(),
                    brackish[i]
                )
            );
            offset += stands[i];
        }

        return steps;
    }

    private static CrossingPlan Composed(
        CrossingOrder order,
        CupSchedule schedule,
        List<CrossingStep> steps,
        Pouring pouring,
        double minutesBrackish
    )
    {
        var last = pouring.Portions[^1];
        var (correction, aim) = ReceivingCorrecting.Plan(
            order,
            WaterMass.From(last.ReceivingAfter),
            last.OffsetMinutes
        );
        var plan = new CrossingPlan(
            order,
            DirectionOf(order),
            steps,
            pouring.Portions[0].OffsetMinutes,
            pouring,
            minutesBrackish,
            Volume.FromLitres(schedule.SourceLitres),
            last.ReceivingAfter,
            correction,
            []
        );
        return plan with { Notes = CrossingNotes.For(plan, aim) };
    }
}

/// <summary>What stands in the way of an order.</summary>
internal sealed record Obstacle(CrossingRefusalCode Code, CrossingField Field, double Given, double Needed);
