using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>What the hands do at the bench.</summary>
public enum BenchAct
{
    /// <summary>Draw water off the cup through mesh.</summary>
    DrawOffCup,

    /// <summary>Pour source water into the cup, down the wall.</summary>
    PourIntoCup,

    /// <summary>Draw water off the receiving vessel through mesh.</summary>
    DrawOffReceiving,

    /// <summary>Pour a portion of the cup into the receiving vessel.</summary>
    PourPortion,

    /// <summary>Pour all that is in the cup into the receiving vessel.</summary>
    PourWhole,

    /// <summary>Add brine to the receiving vessel.</summary>
    AddBrine,

    /// <summary>Add fresh water to the receiving vessel.</summary>
    AddFreshWater,

    /// <summary>Add salt mix to the receiving vessel, dissolved in some of its water.</summary>
    AddMix,
}

/// <summary>One deed and its target instant: a timer runs from these.</summary>
/// <param name="OffsetSeconds">Seconds after the first deed.</param>
/// <param name="Act">What to do.</param>
/// <param name="Water">How much water; 0 for salt mix.</param>
/// <param name="Mix">How much salt mix; 0 for water.</param>
/// <param name="After">
/// The cup or the receiving vessel, whichever the act changes, once the act is done; for drawing off, less of the
/// same water.
/// </param>
public sealed record BenchDeed(double OffsetSeconds, BenchAct Act, Volume Water, Mass Mix, WaterBody After);

/// <summary>A plan as a list of deeds.</summary>
public static class BenchSheet
{
    /// <summary>The deeds of the crossing itself, from the first pour to the empty cup, in order of time.</summary>
    public static IReadOnlyList<BenchDeed> AtTheBench(this CrossingPlan plan)
    {
        var deeds = new List<BenchDeed>();
        var cup = plan.Order.Cup;
        foreach (var step in plan.Steps)
        {
            DrawOff(deeds, BenchAct.DrawOffCup, step.OffsetMinutes, step.DrawOff, cup);
            deeds.Add(new(60 * step.OffsetMinutes, BenchAct.PourIntoCup, step.Add, default, step.After));
            cup = step.After;
        }

        var pouring = plan.Pouring;
        DrawOff(
            deeds,
            BenchAct.DrawOffReceiving,
            plan.PourAtMinutes,
            pouring.ReceivingDrawOff,
            plan.Order.Receiving
        );
        DrawOff(deeds, BenchAct.DrawOffCup, plan.PourAtMinutes, pouring.CupDrawOff, cup);
        for (var i = 0; i < pouring.Portions.Count; i++)
        {
            var portion = pouring.Portions[i];
            var act = i == pouring.Portions.Count - 1 ? BenchAct.PourWhole : BenchAct.PourPortion;
            deeds.Add(new(60 * portion.OffsetMinutes, act, portion.Amount, default, portion.ReceivingAfter));
        }

        return deeds;
    }

    /// <summary>The deeds that bring the receiving vessel back, in order of time.</summary>
    public static IReadOnlyList<BenchDeed> Afterwards(this CrossingPlan plan)
    {
        var deeds = new List<BenchDeed>();
        var vessel = plan.ReceivingAfter;
        var act = plan.Correction.Means switch
        {
            CorrectionMeans.Brine => BenchAct.AddBrine,
            CorrectionMeans.SaltMix => BenchAct.AddMix,
            _ => BenchAct.AddFreshWater,
        };
        foreach (var step in plan.Correction.Steps)
        {
            DrawOff(deeds, BenchAct.DrawOffReceiving, step.OffsetMinutes, step.DrawOff, vessel);
            deeds.Add(new(60 * step.OffsetMinutes, act, step.AddWater, step.AddMix, step.After));
            vessel = step.After;
        }

        return deeds;
    }

    private static void DrawOff(
        List<BenchDeed> deeds,
        BenchAct act,
        double offsetMinutes,
        Volume amount,
        WaterBody water
    )
    {
        if (amount > default(Volume))
        {
            var left = Volume.FromLitres(Math.Max(0, water.Volume.Litres - amount.Litres));
            deeds.Add(new(60 * offsetMinutes, act, amount, default, water with { Volume = left }));
        }
    }
}
