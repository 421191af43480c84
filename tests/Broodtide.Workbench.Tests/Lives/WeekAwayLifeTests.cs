using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests.Lives;

public sealed class WeekAwayLifeTests
{
    [Fact]
    public void A_week_away_is_made_ready_portioned_and_looked_over_after()
    {
        var kept = Until(9);
        kept.Write(Happened.At(At(6, 12, 9)), new KeeperLeft(At(6, 19, 18), "Ada"), At(6, 10, 8));
        var ready = kept.Due(At(6, 10, 9)).Items.Single(item => item.Action.Code == ActionCodes.ReadyAbsence);
        Assert.Equal(At(6, 11, 21), ready.Action.By);
        Assert.Equal("due-away-until", ready.Action.Reason.Code);

        var plan = AwayPlanning.Of(kept.Seen(At(6, 10, 21)), new LocalDate(2026, 6, 12), 7).Value;
        Assert.Equal(new LocalDate(2026, 6, 19), plan.Until);
        Assert.Contains(plan.First, remark => remark.Code == "badday-away-helper");
        var jar = plan.Vessels.Single(one => one.Vessel == Jar);
        var dose = Assert.Single(jar.Portions);
        Assert.Equal(FoodKind.Yeast, dose.Food);
        // Never more than is given now, and run forward to stay clean.
        Assert.InRange(dose.DryMilligrams!.Value, 0.5, 6);
        Assert.True(jar.FoulsTended!.Value.Value < 0.2 || jar.Remarks.Length > 0);
        Assert.NotNull(jar.AliveTended);
        Assert.NotNull(jar.AliveLeft);
        Assert.Contains(plan.Vessels, one => one.Vessel == Tank && one.Portions.IsEmpty);
        Assert.NotEmpty(plan.CanWait);
        Assert.All(plan.Cannot, action => Assert.True((action.SlipsUntil ?? action.By) < At(6, 19, 0)));
        // What is done every day is on the helper's sheet, not among what is lost.
        Assert.DoesNotContain(plan.Cannot, action => action.Code == ActionCodes.FeedLarvae);

        kept.Write(At(6, 19, 18), new KeeperReturned());
        var back = kept.Due(At(6, 19, 19)).Items;
        Assert.DoesNotContain(back, item => item.Action.Code == ActionCodes.ReadyAbsence);
        Assert.Contains(back, item => item.Action.Code == ActionCodes.AfterAbsence);
        Assert.DoesNotContain(
            kept.Due(At(6, 21, 9)).Items,
            item => item.Action.Code == ActionCodes.AfterAbsence
        );
    }

    [Fact]
    public void A_brood_that_may_hatch_meanwhile_cannot_slip()
    {
        // Berried on 2 May at 25.5 degC: hatching near 26 May.
        var outlook = WithBrood().Seen(At(5, 18, 9));
        var plan = AwayPlanning.Of(outlook, new LocalDate(2026, 5, 21), 10).Value;

        var hatch = Assert.Single(plan.Hatches);
        Assert.True(hatch.Chance.Value > 0.6, $"{hatch}");
        Assert.Equal("badday-away-hatch", plan.First[0].Code);
        Assert.NotEmpty(plan.Before);
        var early = AwayPlanning
            .Of(WithBrood(readingDays: 2).Seen(At(5, 4, 9)), new LocalDate(2026, 5, 5), 4)
            .Value;
        Assert.Empty(early.Hatches);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(46)]
    public void Days_that_cannot_be_planned_are_refused(int days) =>
        Assert.Equal(
            "badday-away-days-impossible",
            AwayPlanning.Of(Until(3).Seen(At(6, 4)), new LocalDate(2026, 6, 5), days).Reason!.Code
        );

    [Fact]
    public void An_absence_that_is_over_is_refused() =>
        Assert.Equal(
            "badday-away-from-impossible",
            AwayPlanning.Of(Until(3).Seen(At(6, 4)), new LocalDate(2026, 6, 1), 3).Reason!.Code
        );
}
