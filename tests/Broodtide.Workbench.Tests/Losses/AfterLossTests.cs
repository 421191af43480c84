using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Losses;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Losses;

public class AfterLossTests
{
    private static KeptJournal Crossed(double brackishMinutes = 4, int crossingDay = 28, bool fed = true)
    {
        var kept = WithBrood()
            .Write(At(5, 2, 9), new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"))
            .Write(At(5, 20), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(6, "L")))
            .Write(
                At(5, 20),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(5, "L"),
                    TypedNumber.Of(30, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(5, 28, 1), new CollectionMade(Collection1, Brood1, Tank, null, 200, CountMethod.Beam))
            .Write(
                At(5, crossingDay, 8),
                new CrossingMade(
                    Cohort1,
                    Brood1,
                    Jar,
                    [Collection1],
                    200,
                    BrackishMinutes: TypedNumber.Of(brackishMinutes, "min")
                )
            );
        for (var hour = 24; fed && hour < 12 * 24; hour += 24)
        {
            kept.Write(
                At(5, crossingDay, 8) + Duration.FromHours(hour),
                new VesselFed(Jar, FoodKind.GreenWater, TypedNumber.Of(50, "mL"))
            );
        }

        return kept;
    }

    private static AfterLoss Told(KeptJournal kept, Instant now) =>
        Outlook.Of(kept.Account(), now, Zone).AfterLossOf(Run1)!;

    [Fact]
    public void Nobody_says_that_all_are_dead_before_the_latest_day_of_settlement()
    {
        var kept = Crossed().Write(At(6, 8), new RunEnded(Run1, RunEnd.GivenUp, "none seen"));
        var early = Told(kept, At(6, 9));

        Assert.Equal(LossVerdict.NotYet, early.Verdict);
        // The longest report of the profile, 62 days, after the crossing of the 28th of May.
        Assert.Equal(At(5, 28, 8) + Duration.FromDays(62), early.LatestSettlement);
        Assert.Contains(early.Keep, remark => remark.Code is "keep-the-vessel-standing");
        Assert.Contains(early.Clean, remark => remark.Code is "clean-not-before");

        var late = Told(kept, At(7, 30));
        Assert.Equal(LossVerdict.PastTheLatestDay, late.Verdict);
        Assert.DoesNotContain(late.Clean, remark => remark.Code is "clean-not-before");
    }

    [Fact]
    public void Cleaning_is_due_when_settlement_is_past_and_samples_at_once()
    {
        var kept = Crossed().Write(At(6, 8), new RunEnded(Run1, RunEnd.GivenUp));
        var soon = Outlook.Of(kept.Account(), At(6, 8, 13), Zone).Due.Items;

        Assert.Contains(
            soon,
            item => item.Action.Code is ActionCodes.KeepSamples && item.Action.From == At(6, 8)
        );
        Assert.DoesNotContain(soon, item => item.Action.Code is ActionCodes.CleanAfterLoss);
        var later = Outlook.Of(kept.Account(), At(7, 25), Zone).Due.Items;
        var clean = Assert.Single(later, item => item.Action.Code is ActionCodes.CleanAfterLoss).Action;
        Assert.Equal(At(5, 28, 8) + Duration.FromDays(62), clean.From);
        Assert.Contains(CautionCode.BleachAndAcids, clean.Cautions);
    }

    [Theory]
    [InlineData(45, 28, true, "loss-long-brackish", "change-pour-by-the-clock")]
    [InlineData(4, 31, true, "loss-crossed-late", "change-sea-water-ready-before")]
    [InlineData(4, 28, false, "loss-no-food-written", "change-food-ready-before")]
    public void The_one_thing_is_what_lies_farthest_beyond_its_limit(
        double brackishMinutes,
        int crossingDay,
        bool fed,
        string shown,
        string change
    )
    {
        var told = Told(Crossed(brackishMinutes, crossingDay, fed), At(6, 9));

        Assert.Equal(shown, told.OneThing.Shown.Code);
        Assert.Equal(change, told.OneThing.Change.Code);
        Assert.True(told.OneThing.IsShown);
    }

    [Fact]
    public void Ammonia_read_over_its_limit_comes_first_and_unmeasured_is_not_excluded()
    {
        var without = Told(Crossed(), At(6, 9));
        var with = Told(
            Crossed().Write(At(6, 5), new ReadingTaken(TypedNumber.Of(2.5, "mg/L{TAN-N}"), Jar)),
            At(6, 9)
        );

        Assert.Equal("loss-ammonia", with.OneThing.Shown.Code);
        // 2.5 mg/L against the 0.834 mg/L of the profile (Gomes et al. 2016).
        Assert.Equal(2.5 / 0.834, with.OneThing.Ratio, 1e-9);
        var unmeasured = without
            .Others.Append(without.OneThing)
            .Single(it => it.Shown.Code is "loss-ammonia-never-measured");
        Assert.False(unmeasured.IsShown);
    }

    [Fact]
    public void Heat_and_salt_outside_the_band_are_told()
    {
        var kept = Crossed()
            .Write(At(6, 3), new ReadingTaken(TypedNumber.Of(31, "Cel"), Jar))
            .Write(At(6, 4), new WaterMoved(To: Jar, Mix: TypedNumber.Of(60, "g")));
        var told = Told(kept, At(6, 9));
        var all = told
            .Others.Append(told.OneThing)
            .Where(it => it.IsShown)
            .Select(it => it.Shown.Code)
            .ToList();

        Assert.Contains("loss-too-warm", all);
        Assert.Contains("loss-salinity-outside", all);
    }

    [Fact]
    public void A_run_in_which_some_settled_is_no_loss()
    {
        var kept = Crossed()
            .Write(At(6, 28), new SettlementSeen(Jar, 2))
            .Write(At(7, 1), new RunEnded(Run1, RunEnd.GivenUp));

        Assert.Equal(LossVerdict.SomeSettled, Told(kept, At(7, 2)).Verdict);
    }

    [Fact]
    public void A_loss_before_the_sea_may_be_cleaned_at_once_and_tells_when_she_may_carry_again()
    {
        var kept = WithBrood()
            .Write(At(5, 2, 9), new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"))
            .Write(At(5, 8), new EggsDropped(Brood1))
            .Write(At(5, 9), new RunEnded(Run1, RunEnd.GivenUp));
        var told = Told(kept, At(5, 9, 20));

        Assert.Equal(LossVerdict.BeforeTheSea, told.Verdict);
        Assert.Null(told.LatestSettlement);
        Assert.NotNull(told.Female!.When);
        Assert.Contains(
            Outlook.Of(kept.Account(), At(5, 9, 20), Zone).Due.Items,
            item => item.Action.Code is ActionCodes.CleanAfterLoss
        );
    }

    [Fact]
    public void Where_nothing_lies_beyond_a_limit_it_says_so()
    {
        var kept = Crossed()
            .Write(At(6, 3), new CountMade(Jar, CountMethod.Beam, [new(80)]))
            .Write(At(6, 5), new ReadingTaken(TypedNumber.Of(0.1, "mg/L{TAN-N}"), Jar));
        for (var day = 22; day < 40; day += 2)
        {
            kept.Write(At(5, 1) + Duration.FromDays(day), new WaterMoved(To: Jar, ToLine: true));
        }

        var told = Told(kept, At(6, 8, 20));

        Assert.False(told.OneThing.IsShown);
    }

    [Fact]
    public void Nothing_is_cleaned_where_settled_ones_live()
    {
        var kept = Crossed()
            .Write(At(6, 28), new SettlementSeen(Jar, 2))
            .Write(At(8, 5), new RunEnded(Run1, RunEnd.GivenUp));
        var told = Told(kept, At(8, 6));

        Assert.Contains(told.Keep, remark => remark.Code is "keep-the-vessel-they-live");
        Assert.Contains(told.Clean, remark => remark.Code is "clean-not-while-they-live");
        Assert.DoesNotContain(told.Clean, remark => remark.Code is "clean-bleach-and-test");
        Assert.DoesNotContain(
            Outlook.Of(kept.Account(), At(8, 6), Zone).Due.Items,
            item => item.Action.Code is ActionCodes.CleanAfterLoss
        );

        kept.Write(At(8, 7), new VesselEmptied(Jar));
        Assert.Contains(Told(kept, At(8, 8)).Clean, remark => remark.Code is "clean-bleach-and-test");
    }

    [Fact]
    public void A_younger_brood_in_the_same_water_keeps_the_vessel_standing()
    {
        var brood = new BroodId(Fixed(42));
        var kept = Crossed()
            .Write(At(6, 20, 8), new CrossingMade(new CohortId(Fixed(43)), brood, Jar, Number: 100))
            .Write(At(7, 28), new RunEnded(Run1, RunEnd.GivenUp));
        var latest = At(6, 20, 8) + Duration.FromDays(62);
        var told = Told(kept, At(8, 2));

        Assert.Equal(LossVerdict.PastTheLatestDay, told.Verdict);
        Assert.Equal(
            latest.InZone(Zone).Date,
            Assert.Single(told.Clean, remark => remark.Code is "clean-not-before")["latest"]
        );
        Assert.DoesNotContain(told.Clean, remark => remark.Code is "clean-bleach-and-test");
        Assert.DoesNotContain(
            Outlook.Of(kept.Account(), At(8, 2), Zone).Due.Items,
            item => item.Action.Code is ActionCodes.CleanAfterLoss && item.Action.From < latest
        );
    }

    [Fact]
    public void A_vessel_filled_again_for_another_brood_is_not_cleaned()
    {
        var kept = Crossed()
            .Write(At(6, 10), new RunEnded(Run1, RunEnd.GivenUp))
            .Write(At(6, 11), new VesselEmptied(Jar))
            .Write(At(6, 12), new VesselFilled(Jar, new FillId(Fixed(44)), TypedNumber.Of(5, "L")));
        Assert.Contains(Told(kept, At(6, 13)).Clean, remark => remark.Code is "clean-bleach-and-test");

        kept.Write(
            At(6, 14),
            new CrossingMade(new CohortId(Fixed(43)), new BroodId(Fixed(42)), Jar, Number: 100)
        );
        var told = Told(kept, At(6, 15));
        Assert.Contains(told.Clean, remark => remark.Code is "clean-not-while-they-live");
        Assert.DoesNotContain(told.Clean, remark => remark.Code is "clean-bleach-and-test");
    }

    [Fact]
    public void While_she_carries_and_just_after_the_hatch_nothing_is_lost_yet()
    {
        var kept = WithBrood()
            .Write(At(5, 2, 9), new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"));
        var carried = Told(kept, At(5, 20));
        Assert.Equal("NothingLostYet", carried.Verdict.ToString());
        Assert.DoesNotContain(carried.Clean, remark => remark.Code is "clean-bleach-and-test");
        Assert.DoesNotContain(carried.Keep, remark => remark.Code is "keep-some-in-alcohol");

        kept.Write(At(5, 28, 1), new CollectionMade(Collection1, Brood1, Tank, null, 200, CountMethod.Beam));
        Assert.Equal("NothingLostYet", Told(kept, At(5, 28, 9)).Verdict.ToString());
        // Beyond the wait in fresh water that the profile plans as lethal.
        Assert.Equal(LossVerdict.BeforeTheSea, Told(kept, At(6, 20)).Verdict);
    }

    [Fact]
    public void The_verdict_comes_though_nobody_counted_and_no_vessel_stands_is_said()
    {
        var emptied = Crossed()
            .Write(At(6, 9), new VesselEmptied(Jar))
            .Write(At(6, 10), new RunEnded(Run1, RunEnd.GivenUp));
        var gone = Worked(emptied, At(6, 12));
        Assert.Equal("NoVesselStands", gone.Verdict.ToString());
        Assert.DoesNotContain(gone.Keep, remark => remark.Code is "keep-the-vessel-standing");
        Assert.Contains(gone.Clean, remark => remark.Code is "clean-bleach-and-test");

        var standing = Crossed().Write(At(6, 10), new RunEnded(Run1, RunEnd.GivenUp));
        var late = Worked(standing, At(12, 1));
        Assert.Equal(LossVerdict.PastTheLatestDay, late.Verdict);
        // Whoever lived when the run was given up settles within the longest report of the profile.
        Assert.True(late.LatestSettlement <= At(6, 10) + Duration.FromDays(62));
    }

    private static AfterLoss Worked(KeptJournal kept, Instant now)
    {
        var outlook = Outlook.Of(kept.Account(), now, Zone);
        _ = outlook.EstimateOf(outlook.PopulationOf(Brood1)!);
        return outlook.AfterLossOf(Run1)!;
    }
}
