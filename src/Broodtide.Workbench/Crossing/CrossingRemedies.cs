using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>
/// Finds the nearest orders for which there is a plan. Every remedy is planned before it is offered: what it leaves
/// in the way is mended too, in the order in which the planner meets it.
/// </summary>
internal static class CrossingRemedies
{
    // Each mending removes one obstacle for good; there are fewer obstacles than this.
    private const int MostMendings = 40;
    private const double HighestSalinity = 42;
    private const double Hair = 1e-9;

    public static IReadOnlyList<CrossingRemedy> For(CrossingOrder order, Obstacle obstacle) =>
        [
            .. Candidates(order, obstacle)
                .Select(c => Settled(c.Order) is { } settled ? c with { Order = settled } : null)
                .OfType<CrossingRemedy>(),
        ];

    private static IEnumerable<CrossingRemedy> Candidates(CrossingOrder order, Obstacle obstacle)
    {
        yield return Mended(order, obstacle);
        switch (obstacle.Code)
        {
            case CrossingRefusalCode.CupTooSmall:
                yield return new(
                    CrossingRemedyCode.SmallerBatch,
                    order.CupCapacity.Litres,
                    order with
                    {
                        Cup = order.Cup with { Volume = order.CupCapacity },
                    }
                );
                break;
            case CrossingRefusalCode.SourceCannotReach:
                if (SourceSalinityNeeded(order) is { } salinity)
                {
                    yield return new(
                        CrossingRemedyCode.SourceSalinity,
                        salinity.Practical,
                        order with
                        {
                            Source = order.Source with { Salinity = salinity },
                        }
                    );
                }

                break;
            case CrossingRefusalCode.NotEnoughSource:
                var litres = Volume.FromLitres(obstacle.Needed * (1 + Hair));
                yield return new(
                    CrossingRemedyCode.SourceVolume,
                    litres.Litres,
                    order with
                    {
                        Source = order.Source with { Volume = litres },
                    }
                );
                break;
            case CrossingRefusalCode.BrackishTooLong when order.CupTarget is not null:
                var further = order with { CupTarget = null };
                yield return new(CrossingRemedyCode.CupTarget, CrossingPlanner.TargetOf(further), further);
                break;
            case CrossingRefusalCode.PourTooGreat:
                yield return new(
                    CrossingRemedyCode.ReceivingVolume,
                    obstacle.Needed,
                    order with
                    {
                        Receiving = order.Receiving with { Volume = Volume.FromLitres(obstacle.Needed) },
                        ReceivingCapacity = null,
                    }
                );
                break;
        }
    }

    // The remedy that takes one obstacle away, with what is at hand.
    private static CrossingRemedy Mended(CrossingOrder order, Obstacle obstacle)
    {
        switch (obstacle.Code)
        {
            case CrossingRefusalCode.OutsideRange:
                var moved = (OrderRanges.First(order) ?? OrderRanges.Dependent(order))!;
                return new(CrossingRemedyCode.MovedIntoRange, moved.Edge, moved.Moved);
            case CrossingRefusalCode.CupTooSmall:
                return new(
                    CrossingRemedyCode.CupCapacity,
                    order.Cup.Volume.Litres,
                    order with
                    {
                        CupCapacity = order.Cup.Volume,
                    }
                );
            case CrossingRefusalCode.SourceCannotReach or CrossingRefusalCode.NotEnoughSource:
                var reachable = ReachableTarget(order);
                return new(
                    CrossingRemedyCode.CupTarget,
                    reachable.Practical,
                    order with
                    {
                        CupTarget = reachable,
                    }
                );
            case CrossingRefusalCode.BrackishTooLong when order.WantedMinutes > order.Brackish.LimitMinutes:
                return new(
                    CrossingRemedyCode.WantedMinutes,
                    order.Brackish.LimitMinutes,
                    order with
                    {
                        WantedMinutes = order.Brackish.LimitMinutes,
                    }
                );
            // A limit that no hand can keep.
            case CrossingRefusalCode.BrackishTooLong
                when order.Brackish.LimitMinutes < BrackishRule.Practice.LimitMinutes:
                var practice = BrackishRule.Practice.LimitMinutes;
                return new(
                    CrossingRemedyCode.BrackishLimit,
                    practice,
                    order with
                    {
                        Brackish = BrackishRule.From(order.Brackish.Lower, order.Brackish.Upper, practice),
                    }
                );
            case CrossingRefusalCode.ReceivingTooSmall:
                return new(
                    CrossingRemedyCode.ReceivingCapacity,
                    obstacle.Needed,
                    order with
                    {
                        ReceivingCapacity = Volume.FromLitres(obstacle.Needed),
                    }
                );
            default:
                return new(
                    CrossingRemedyCode.AllowJump,
                    GentleChange.Apart(WaterMass.From(order.Cup), WaterMass.From(order.Receiving)),
                    order with
                    {
                        AllowJump = true,
                    }
                );
        }
    }

    private static CrossingOrder? Settled(CrossingOrder order)
    {
        for (var i = 0; i < MostMendings; i++)
        {
            var (plan, obstacle) = CrossingPlanner.TryPlan(order);
            if (plan is not null)
            {
                return order;
            }

            order = Mended(order, obstacle!).Order;
        }

        return null;
    }

    // The salinity nearest to the target that this source, as much as there is of it, brings the cup to.
    private static Salinity ReachableTarget(CrossingOrder order)
    {
        var (good, bad) = (order.Cup.Salinity.Practical, CrossingPlanner.TargetOf(order));
        for (var i = 0; i < 50; i++)
        {
            var middle = (good + bad) / 2;
            if (CupSchedule.Find(order, middle, out _) is not null)
            {
                good = middle;
            }
            else
            {
                bad = middle;
            }
        }

        return Salinity.FromPractical(good);
    }

    private static Salinity? SourceSalinityNeeded(CrossingOrder order)
    {
        var target = CrossingPlanner.TargetOf(order);
        var up = target > order.Cup.Salinity.Practical;
        var (bad, good) = (target, up ? HighestSalinity : 0);
        if (!Works(good))
        {
            return null;
        }

        for (var i = 0; i < 50; i++)
        {
            var middle = (good + bad) / 2;
            (good, bad) = Works(middle) ? (middle, bad) : (good, middle);
        }

        return Salinity.FromPractical(good);

        bool Works(double salinity) =>
            CupSchedule.Find(
                order with
                {
                    Source = order.Source with { Salinity = Salinity.FromPractical(salinity) },
                },
                target,
                out _
            )
                is not null;
    }
}
