using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>What else a keeper should know of a plan.</summary>
internal static class CrossingNotes
{
    private const double Hair = 1e-9;

    public static IReadOnlyList<CrossingNote> For(CrossingPlan plan, double aim) =>
        [.. OfTheCup(plan), .. OfThePouring(plan), .. OfTheReceiving(plan, aim)];

    private static IEnumerable<CrossingNote> OfTheCup(CrossingPlan plan)
    {
        var order = plan.Order;
        var meshed =
            plan.Steps.Count(s => s.DrawOff.Litres > 0) + (plan.Pouring.CupDrawOff.Litres > 0 ? 1 : 0);
        if (meshed > 0)
        {
            yield return new(CrossingNoteCode.DrawnOffThroughMesh, meshed);
        }

        if (plan.Steps.Count > CupSchedule.WishedPours(order))
        {
            yield return new(CrossingNoteCode.MorePoursThanWished, plan.Steps.Count);
        }

        var brackish = plan.Steps.Count(s => s.IsBrackish);
        if (
            brackish > 0
            && plan.Steps.Any(s =>
                !s.IsBrackish && s.StandMinutes > order.WantedMinutes / plan.Steps.Count * (1 + Hair)
            )
        )
        {
            yield return new(CrossingNoteCode.BrackishPartHurried, plan.MinutesBrackish);
        }

        var jump = plan
            .Steps.Select(s => s.After.Temperature.Celsius)
            .Prepend(order.Cup.Temperature.Celsius)
            .Zip(
                plan.Steps.Select(s => s.After.Temperature.Celsius),
                (before, after) => Math.Abs(after - before)
            )
            .DefaultIfEmpty()
            .Max();
        if (jump > GentleChange.MostDegreesAtOnce)
        {
            yield return new(CrossingNoteCode.CupTemperatureJump, jump);
        }
    }

    private static IEnumerable<CrossingNote> OfThePouring(CrossingPlan plan)
    {
        var cup = plan.Steps.Count > 0 ? plan.Steps[^1].After : plan.Order.Cup;
        var receiving = plan.Order.Receiving;
        if (receiving.Volume == default)
        {
            yield break;
        }

        var salinity = receiving.Salinity.Practical - cup.Salinity.Practical;
        if (Math.Abs(salinity) > GentleChange.MostPptAtOnce)
        {
            yield return new(CrossingNoteCode.SalinityOnPouring, salinity);
        }

        var warmth = receiving.Temperature.Celsius - cup.Temperature.Celsius;
        if (Math.Abs(warmth) > GentleChange.MostDegreesAtOnce)
        {
            yield return new(CrossingNoteCode.TemperatureOnPouring, warmth);
        }
    }

    private static IEnumerable<CrossingNote> OfTheReceiving(CrossingPlan plan, double aim)
    {
        var order = plan.Order;
        var after = plan.ReceivingAfter;
        if (order.Brackish.IsBrackish(after.Salinity))
        {
            yield return new(CrossingNoteCode.ReceivingIsBrackish, after.Salinity.Practical);
        }

        if (!order.ReceivingBand.Holds(after.Salinity))
        {
            yield return new(CrossingNoteCode.ReceivingOutsideBand, after.Salinity.Practical);
        }

        if (order.AllowJump && order.Receiving.Volume != default)
        {
            foreach (var jump in Jumps(order.Receiving, after))
            {
                yield return jump;
            }
        }

        if (order.ReceivingCapacity is null)
        {
            var fullest = plan
                .Correction.Steps.Select(s => s.After.Volume.Litres)
                .Append(after.Volume.Litres)
                .Max();
            yield return new(CrossingNoteCode.ReceivingCapacityUnknown, fullest);
        }

        if (plan.Correction.Steps.Count > 0 && Math.Abs(aim - order.ReceivingBand.Target.Practical) > Hair)
        {
            yield return new(CrossingNoteCode.TargetNotReached, aim);
        }
    }

    private static IEnumerable<CrossingNote> Jumps(WaterBody before, WaterBody after)
    {
        var salinity = after.Salinity.Practical - before.Salinity.Practical;
        if (Math.Abs(salinity) > GentleChange.MostPptAtOnce)
        {
            yield return new(CrossingNoteCode.ReceivingSalinityJump, salinity);
        }

        var warmth = after.Temperature.Celsius - before.Temperature.Celsius;
        if (Math.Abs(warmth) > GentleChange.MostDegreesAtOnce)
        {
            yield return new(CrossingNoteCode.ReceivingTemperatureJump, warmth);
        }
    }
}
