using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Review;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Review;

public class ReviewTests
{
    [Fact]
    public void Eggs_alone_make_a_review_without_causes()
    {
        var kept = WithBrood()
            .Write(At(5, 2, 9), new RunStarted(Run1, Brood1, "Brood 1", "Caridina multidentata"));
        var review = kept.Told(At(5, 14));

        Assert.True(review.IsSoFar);
        Assert.True(review.IsWhole);
        Assert.Equal([ChapterCode.Eggs], review.Chapters.Select(chapter => chapter.Code));
        Assert.All(review.Phases, phase => Assert.Equal(LossKnown.NotReached, phase.Known));
        Assert.Empty(review.Causes);
        Assert.Empty(review.Differently);
        Assert.Contains(review.Remarks, remark => remark.Code is "review-no-larvae");
    }

    [Fact]
    public void A_record_without_counts_tells_no_loss_and_rules_nothing_out_that_was_not_read()
    {
        var review = ReviewedRuns.Bare().Ended(20).Told(At(6, 20));

        Assert.Equal(RunEnd.GivenUp, review.End);
        Assert.All(review.Phases, phase => Assert.Null(phase.LostShare));
        Assert.Equal("phase-one-number", review.Phase(LossPhase.FreshWater).Why.Code);
        Assert.Equal("phase-never-counted", review.Phase(LossPhase.Early).Why.Code);
        // Fresh water and the crossing are dated, and metamorphosis was not reached; all else is unread.
        Assert.Equal(
            [LossCause.FreshWaterDelay, LossCause.BrackishDelay, LossCause.LateCues],
            review.Causes.Where(it => it.Verdict is CauseVerdict.RuledOut).Select(it => it.Cause)
        );
        Assert.Contains(review.Remarks, remark => remark.Code is "review-loss-has-no-day");
        Assert.Contains(review.Remarks, remark => remark.Code is "review-not-all-dead");
        Assert.Equal("change-count-every-week", review.Differently[0].Change.Code);
        Assert.InRange(review.Differently.Count, 1, 3);
        Assert.All(review.Differently, it => Assert.Equal(AdviceBasis.Practice, it.Basis));
    }

    [Fact]
    public void A_single_count_says_what_was_lost_until_then_and_nothing_of_later()
    {
        var review = ReviewedRuns.Bare().Cared(40).Counted(4, 4).Told(Crossed(40));

        var crossing = review.Phase(LossPhase.Crossing);
        Assert.Equal(LossKnown.Counted, crossing.Known);
        var early = review.Phase(LossPhase.Early);
        Assert.NotNull(early.LostShare);
        Assert.Equal("phase-not-counted-since", review.Phase(LossPhase.Middle).Why.Code);
        Assert.Null(review.Phase(LossPhase.Middle).LostShare);
        Assert.True(crossing.LostShare!.Value.High > crossing.LostShare!.Value.Low);
    }

    [Fact]
    public void Losses_lie_in_the_phase_between_the_counts_that_show_them()
    {
        var review = ReviewedRuns
            .Bare(counted: CountMethod.Full)
            .Cared(12)
            .Counted(2, 10)
            .Counted(3, 10)
            .Counted(10, 1)
            .Counted(11, 1)
            .Ended(12)
            .Told(Crossed(13));
        var (crossing, early) = (review.Phase(LossPhase.Crossing), review.Phase(LossPhase.Early));

        // 200 crossed, about 200 by the first count, about 20 by the second.
        Assert.InRange(crossing.LostShare!.Value.Middle, 0, 0.15);
        Assert.True(early.LostShare!.Value.Low > crossing.LostShare!.Value.Middle);
        Assert.InRange(early.LostShare!.Value.Middle, 0.6, 0.95);
        Assert.Equal(LossKnown.Counted, early.Known);
    }

    [Fact]
    public void What_was_read_closely_and_lay_within_is_ruled_out_and_the_rest_cannot_be_told()
    {
        var review = ReviewedRuns
            .Bare(counted: CountMethod.Full)
            .Cared(12)
            .Counted(3, 10)
            .Counted(11, 1)
            .Ended(12)
            .Told(Crossed(13));

        foreach (
            var cause in new[]
            {
                LossCause.Salinity,
                LossCause.Warmth,
                LossCause.AmmoniaNitrite,
                LossCause.FoodTooMuch,
                LossCause.Crowding,
                LossCause.LateCues,
            }
        )
        {
            Assert.Equal(CauseVerdict.RuledOut, review.Cause(cause).Verdict);
            Assert.NotEmpty(review.Cause(cause).Against);
        }

        foreach (
            var cause in new[]
            {
                LossCause.Oxygen,
                LossCause.FoodMissing,
                LossCause.Disease,
                LossCause.Unknown,
            }
        )
        {
            Assert.Equal(CauseVerdict.CannotBeTold, review.Cause(cause).Verdict);
            Assert.NotEmpty(review.Cause(cause).Lacks);
        }

        Assert.All(review.Causes, cause => Assert.Null(cause.Rank));
    }

    [Fact]
    public void A_gap_in_the_readings_leaves_a_cause_open()
    {
        var review = ReviewedRuns
            .Bare(counted: CountMethod.Full)
            .Cared(4)
            .Counted(3, 10)
            .Counted(11, 1)
            .Ended(12)
            .Told(Crossed(13));

        var salt = review.Cause(LossCause.Salinity);
        Assert.Equal(CauseVerdict.CannotBeTold, salt.Verdict);
        Assert.Contains(salt.Lacks, remark => remark.Code is "lack-gap" or "lack-never-read");
    }

    [Fact]
    public void One_cause_beyond_its_limit_on_several_days_stands_first_and_two_together_are_not_told_apart()
    {
        var warm = Lost(celsius: 33);
        Assert.Equal(CauseVerdict.SpokenFor, warm.Cause(LossCause.Warmth).Verdict);
        Assert.Equal(1, warm.Cause(LossCause.Warmth).Rank);
        Assert.True(warm.Cause(LossCause.Warmth).Observations >= 2);
        Assert.Empty(warm.Tied);
        Assert.Equal(("change-cooler-place", AdviceBasis.Measured), First(warm));

        var both = Lost(celsius: 33, ppt: 41);
        Assert.Equal([LossCause.Salinity, LossCause.Warmth], Assert.Single(both.Tied).Causes.Order());
        Assert.All(both.Causes, cause => Assert.Null(cause.Rank));

        static (string, AdviceBasis) First(RunReview review) =>
            (review.Differently[0].Change.Code, review.Differently[0].Basis);
        static RunReview Lost(double celsius = 24, double ppt = 30) =>
            ReviewedRuns
                .Bare(counted: CountMethod.Full)
                .Cared(12, ppt, celsius)
                .Counted(3, 10)
                .Counted(11, 1)
                .Ended(12)
                .Told(Crossed(13));
    }

    [Fact]
    public void Food_that_fouled_and_the_ammonia_of_it_are_not_told_apart()
    {
        var review = ReviewedRuns
            .Bare(counted: CountMethod.Full)
            .Cared(12, ammonia: 4)
            .Counted(3, 10)
            .Counted(11, 1)
            .Ended(12)
            .Told(Crossed(13));

        Assert.Equal(
            [LossCause.AmmoniaNitrite, LossCause.FoodTooMuch],
            Assert.Single(review.Tied).Causes.Order()
        );
        Assert.Equal("change-feed-less-and-change-water", review.Differently[0].Change.Code);
        Assert.DoesNotContain(
            review.Differently.Skip(1),
            it => it.Change.Code == review.Differently[0].Change.Code
        );
    }

    [Fact]
    public void Fresh_water_losses_come_from_two_numbers_with_the_error_of_their_counting()
    {
        var review = ReviewedRuns.Bare(200, 120, CountMethod.Full).Told(Crossed(3));
        var fresh = review.Phase(LossPhase.FreshWater);

        Assert.Equal(LossKnown.Counted, fresh.Known);
        Assert.Equal(0.4, fresh.LostShare!.Value.Middle, 1e-9);
        // Seven in ten are seen in a beam, a beta law of 7 and 3: 20 % off; all counted 2 % off.
        var spread = Math.Sqrt((3.0 / (7 * 11)) + (1.0 / (49 * 51)));
        Assert.Equal(1 - (0.6 * Math.Exp(1.6448536269514722 * spread)), fresh.LostShare!.Value.Low, 1e-9);
        Assert.Equal(1 - (0.6 * Math.Exp(-1.6448536269514722 * spread)), fresh.LostShare!.Value.High, 1e-9);
    }

    [Fact]
    public void Forecasts_are_reckoned_from_what_was_known_then_and_held_against_what_came()
    {
        var review = ReviewedRuns.Bare().Told(Crossed(30));
        var hatch = review.Forecasts.Where(it => it.Subject is ForecastSubject.FirstLarvae).ToList();

        Assert.Equal(3, hatch.Count);
        Assert.All(hatch, it => Assert.False(it.IsIssued));
        Assert.All(hatch, it => Assert.Equal(At(5, 28, 1), it.From));
        Assert.All(hatch, it => Assert.True(it.MadeOn < it.From));
        // Later forecasts know more.
        Assert.True(hatch[2].Late - hatch[2].Early <= hatch[0].Late - hatch[0].Early);
        var settled = review.Forecasts.Where(it => it.Subject is ForecastSubject.FirstSettled).ToList();
        Assert.NotEmpty(settled);
        Assert.All(settled, it => Assert.Null(it.IsInside));
    }

    [Fact]
    public void What_was_written_later_does_not_change_what_was_foretold()
    {
        var plain = ReviewedRuns.Bare().Told(Crossed(30)).Forecasts[0];
        var later = ReviewedRuns
            .Bare()
            .Write(At(5, 15), new EggsObserved(Brood1, Carried: true, Eyed: true), Crossed(20))
            .Told(Crossed(30))
            .Forecasts[0];

        Assert.Equal(plain, later);
    }

    [Fact]
    public void The_review_is_due_when_a_run_has_ended_and_for_a_fortnight()
    {
        var kept = ReviewedRuns.Bare().Ended(20, RunEnd.Home);

        Assert.Contains(Due(Crossed(21)), item => item.Code is ActionCodes.ReadReview);
        Assert.DoesNotContain(Due(Crossed(36)), item => item.Code is ActionCodes.ReadReview);
        Assert.DoesNotContain(Due(Crossed(19)), item => item.Code is ActionCodes.ReadReview);

        IEnumerable<PlannedAction> Due(Instant now) =>
            Outlook.Of(kept.Account(), now, Zone).Due.Items.Select(item => item.Action);
    }

    [Fact]
    public void The_pieces_of_a_review_give_the_same_as_the_whole()
    {
        var kept = ReviewedRuns.Bare().Cared(12).Counted(3, 8).Counted(11, 5);
        var whole = kept.Told(Crossed(13));
        var outlook = Outlook.Of(kept.Account(), Crossed(13), Zone);
        var pieces = 0;
        foreach (var step in outlook.ReviewSteps(Run1))
        {
            step();
            pieces++;
        }

        var review = outlook.ReviewAtHand(Run1)!;
        Assert.True(pieces > 20, $"{pieces} pieces");
        Assert.Equal(whole.Phases, review.Phases);
        Assert.Equal(whole.Forecasts, review.Forecasts);
        Assert.Equal(
            whole.Causes.Select(cause => (cause.Cause, cause.Verdict)),
            review.Causes.Select(cause => (cause.Cause, cause.Verdict))
        );
    }

    private static Instant Crossed(int days) => ReviewedRuns.Crossed + Duration.FromDays(days);
}
