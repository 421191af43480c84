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
}
