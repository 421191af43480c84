using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Tests;

public class CrossingTests
{
    private static readonly CrossingOrder Larvae = new()
    {
        CupCapacity = Volume.FromLitres(2),
        Cup = Water(0.5, 0, 25),
        Source = Water(5, 33, 25),
        Receiving = Water(8, 32, 25),
        ReceivingCapacity = Volume.FromLitres(10),
    };

    [Fact]
    public void One_to_one_over_four_minutes_and_then_fully_into_salt_water()
    {
        // Common practice, no source: one to one over three to five minutes, then fully into salt water.
        var plan = Planned(Larvae with { CupTarget = Salinity.FromPractical(16.7) });

        Assert.Equal(CrossingDirection.ToSalt, plan.Direction);
        Assert.InRange(plan.SourceUsed.Litres, 0.48, 0.52);
        Assert.Equal(4, plan.Steps.Count);
        Assert.All(plan.Steps, s => Assert.Equal(default, s.DrawOff));
        Assert.Equal(4, plan.PourAtMinutes, 1e-9);
        Assert.Equal(4, plan.MinutesBrackish, 1e-9);
        Assert.Equal(16.7, plan.Steps[^1].After.Salinity.Practical, 1e-9);
        Assert.Equal(
            [0, 60, 120, 180, 240],
            plan.AtTheBench().Select(d => d.OffsetSeconds).Distinct().Select(s => Math.Round(s, 6))
        );
        Assert.Equal(BenchAct.PourWhole, plan.AtTheBench()[^1].Act);
    }

    [Fact]
    public void Hours_in_half_strength_water_are_refused_with_the_minutes_that_can_be()
    {
        // Common practice, no source: hours in half-strength water killed.
        var refusal = Refused(Larvae with { CupTarget = Salinity.FromPractical(16.5), WantedMinutes = 180 });

        Assert.Equal(CrossingRefusalCode.BrackishTooLong, refusal.Code);
        Assert.Equal(180, refusal.Given);
        Assert.Equal(15, refusal.Needed);
        Assert.Equal(CrossingRemedyCode.WantedMinutes, refusal.Nearest.Code);
        Assert.Equal(15, refusal.Nearest.Amount);
        Assert.InRange(Planned(refusal.Nearest.Order).MinutesBrackish, 14.9, 15);
    }

    [Fact]
    public void A_slow_crossing_hurries_through_brackish_water_and_stands_in_salt_water()
    {
        var plan = Planned(
            Larvae with
            {
                CupTarget = Salinity.FromPractical(30),
                Cup = Water(0.1, 0, 25),
                WantedMinutes = 60,
            }
        );

        Assert.Equal(60, plan.PourAtMinutes, 1e-6);
        Assert.InRange(plan.MinutesBrackish, 0, 15);
        Assert.Equal(plan.MinutesBrackish, CrossingReplay.Of(plan).MinutesBrackish, 1e-9);
    }

    [Fact]
    public void Without_a_target_the_cup_leaves_brackish_water_before_it_is_poured_out()
    {
        var plan = Planned(Larvae);

        Assert.Equal(17.1, plan.Steps[^1].After.Salinity.Practical, 1e-9);
        Assert.False(plan.Steps[^1].IsBrackish);
        Assert.Equal(3, plan.MinutesBrackish, 1e-9);
    }

    [Fact]
    public void A_cup_that_is_too_small_is_drawn_off_through_mesh_and_never_runs_over()
    {
        var order = Larvae with
        {
            CupCapacity = Volume.FromLitres(0.6),
            CupTarget = Salinity.FromPractical(32),
        };
        var plan = Planned(order);
        var replay = CrossingReplay.Of(plan);

        Assert.Contains(plan.Steps, s => s.DrawOff > default(Volume));
        Assert.True(replay.FullestCupLitres <= 0.6, $"{replay.FullestCupLitres} L");
        Assert.True(replay.LeastCupLitres >= 0.1 - 1e-9);
        Assert.Contains(plan.Notes, n => n.Code == CrossingNoteCode.DrawnOffThroughMesh);
        Assert.Contains(plan.AtTheBench(), d => d.Act == BenchAct.DrawOffCup);
    }

    [Fact]
    public void The_same_planner_brings_juveniles_down_to_fresh_water()
    {
        var plan = Planned(
            new()
            {
                CupCapacity = Volume.FromLitres(2),
                Cup = Water(0.5, 30, 25),
                Source = Water(20, 0, 25),
                Receiving = Water(10, 0, 25),
                ReceivingBand = SalinityBand.Fresh,
                WantedMinutes = 600,
                Brackish = BrackishRule.From(Salinity.FromPractical(1), Salinity.FromPractical(17), 720),
            }
        );

        Assert.Equal(CrossingDirection.ToFresh, plan.Direction);
        var falling = plan.Steps.Select(s => s.After.Salinity.Practical).ToList();
        Assert.Equal(falling.OrderDescending(), falling);
        Assert.Equal(0.9, falling[^1], 1e-9);
        Assert.InRange(plan.ReceivingAfter.Salinity.Practical, 0, 0.2);
    }

    [Fact]
    public void A_source_less_salty_than_the_target_is_refused_with_the_salinity_it_reaches()
    {
        var refusal = Refused(
            Larvae with
            {
                Source = Water(5, 20, 25),
                CupTarget = Salinity.FromPractical(25),
            }
        );

        Assert.Equal(CrossingRefusalCode.SourceCannotReach, refusal.Code);
        Assert.Equal((20, 25), (refusal.Given, refusal.Needed));
        Assert.Equal(CrossingRemedyCode.CupTarget, refusal.Nearest.Code);
        Assert.Equal(19.9, refusal.Nearest.Amount, 1e-6);
        Assert.Contains(
            refusal.Remedies,
            r => r.Code == CrossingRemedyCode.SourceSalinity && r.Amount is > 25 and < 25.2
        );
    }

    [Fact]
    public void Too_little_source_is_refused_with_the_salinity_reached_and_the_volume_needed()
    {
        var refusal = Refused(Larvae with { Source = Water(0.05, 33, 25) });

        Assert.Equal(CrossingRefusalCode.NotEnoughSource, refusal.Code);
        Assert.InRange(refusal.Nearest.Amount, 8, 17);
        var more = Assert.Single(refusal.Remedies, r => r.Code == CrossingRemedyCode.SourceVolume);
        Assert.Equal(17.1, Planned(more.Order).Steps[^1].After.Salinity.Practical, 1e-6);
    }

    [Fact]
    public void A_cup_smaller_than_the_water_with_larvae_is_refused_with_the_cup_or_the_batch_that_fits()
    {
        var refusal = Refused(Larvae with { CupCapacity = Volume.FromLitres(0.4) });

        Assert.Equal(CrossingRefusalCode.CupTooSmall, refusal.Code);
        Assert.Equal(
            [CrossingRemedyCode.CupCapacity, CrossingRemedyCode.SmallerBatch],
            refusal.Remedies.Select(r => r.Code)
        );
        Assert.Equal([0.5, 0.4], refusal.Remedies.Select(r => r.Amount));
    }

    [Fact]
    public void The_receiving_vessel_does_not_change_by_more_than_one_ppt_unless_allowed()
    {
        var order = Larvae with { Receiving = Water(4, 32, 25), ReceivingCapacity = null };
        var gentle = Planned(order);
        var quick = Planned(order with { AllowJump = true });

        Assert.InRange(gentle.Pouring.CupDrawOff.Litres, 0.1, 1);
        Assert.InRange(32 - gentle.ReceivingAfter.Salinity.Practical, 0.9, 1);
        Assert.Equal(default, quick.Pouring.CupDrawOff);
        Assert.InRange(32 - quick.ReceivingAfter.Salinity.Practical, 2, 4);
        Assert.Contains(quick.Notes, n => n.Code == CrossingNoteCode.ReceivingSalinityJump);
    }

    [Fact]
    public void A_vessel_left_too_fresh_is_brought_back_with_salt_mix_in_small_steps()
    {
        var order = Larvae with
        {
            Receiving = Water(1, 30, 25),
            ReceivingCapacity = Volume.FromLitres(3),
            AllowJump = true,
        };
        var allowed = Planned(order);
        Assert.True(allowed.Correction.IsNeeded);
        Assert.Equal(CorrectionMeans.SaltMix, allowed.Correction.Means);
        Assert.Single(allowed.Correction.Steps);

        var gentle = Planned(
            order with
            {
                AllowJump = false,
                Receiving = Water(6, 24, 25),
                ReceivingCapacity = Volume.FromLitres(8),
            }
        );
        AssertGentle(gentle);
        Assert.True(gentle.Correction.Steps.Count >= 6);
        Assert.Equal(30, gentle.Correction.Steps[^1].After.Salinity.Practical, 1e-6);
    }

    [Fact]
    public void The_salt_mix_weighed_brings_the_salt_that_is_missing()
    {
        var plan = Planned(
            Larvae with
            {
                Receiving = Water(6, 24, 25),
                Mix = SaltProduct.FromWaterShare(0.1, 0.01),
            }
        );

        var before = Bucket.From(plan.ReceivingAfter);
        var after = Bucket.From(plan.Correction.Steps[^1].After);
        // Absolute over practical salinity, 35.16504 / 35 (Millero et al. 2008).
        var dry = (after.Salt - before.Salt) * 35.16504 / 35 / 1000;
        var weighed = plan.Correction.Steps.Sum(s => s.AddMix.Grams);
        Assert.Equal(dry, 0.9 * weighed, 1e-6);
    }

    [Fact]
    public void A_vessel_too_salt_is_brought_back_with_fresh_water_and_never_overfilled()
    {
        var plan = Planned(Larvae with { Receiving = Water(9, 36, 25) });

        Assert.True(plan.Correction.IsNeeded);
        Assert.Equal(CorrectionMeans.FreshWater, plan.Correction.Means);
        AssertGentle(plan);
        Assert.All(plan.Correction.Steps, s => Assert.True(s.After.Volume.Litres <= 10));
        Assert.Equal(30, plan.Correction.Steps[^1].After.Salinity.Practical, 1e-6);
    }

    [Fact]
    public void Brine_at_hand_is_used_before_the_salt_mix()
    {
        var plan = Planned(Larvae with { Receiving = Water(6, 24, 25), Brine = Water(10, 40, 20) });

        Assert.Equal(CorrectionMeans.Brine, plan.Correction.Means);
        AssertGentle(plan);
    }

    [Fact]
    public void An_empty_receiving_vessel_takes_the_water_of_the_cup()
    {
        var plan = Planned(Larvae with { Receiving = Water(0, 0, 25), Cup = Water(0.1, 0, 25) });

        Assert.Equal(30, plan.ReceivingAfter.Salinity.Practical, 1e-6);
        Assert.Equal(CorrectionMeans.None, plan.Correction.Means);
    }

    internal static void AssertGentle(CrossingPlan plan)
    {
        var before = plan.ReceivingAfter;
        foreach (var step in plan.Correction.Steps)
        {
            Assert.True(Math.Abs(step.After.Salinity.Practical - before.Salinity.Practical) <= 1 + 1e-6);
            Assert.True(Math.Abs(step.After.Temperature.Celsius - before.Temperature.Celsius) <= 1 + 1e-6);
            before = step.After;
        }
    }

    internal static WaterBody Water(double litres, double salinity, double celsius) =>
        new(Volume.FromLitres(litres), Salinity.FromPractical(salinity), Temperature.FromCelsius(celsius));

    internal static CrossingPlan Planned(CrossingOrder order) =>
        Assert.IsType<CrossingAnswer.Planned>(CrossingPlanner.Plan(order)).Plan;

    private static CrossingRefusal Refused(CrossingOrder order)
    {
        var refusal = Assert.IsType<CrossingAnswer.Refused>(CrossingPlanner.Plan(order)).Refusal;
        Assert.NotEmpty(refusal.Remedies);
        Assert.All(refusal.Remedies, r => Planned(r.Order));
        return refusal;
    }
}
