using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Review;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Review;

public class HindsightTests
{
    private static Instant Day(double days) => ReviewedRuns.Crossed + Duration.FromDays(days);

    private static RuleOnTrial? Rule(KeptJournal kept, LimitedQuantity? quantity) =>
        Hindsight
            .InPieces(Outlook.Of(kept.Account(), Day(12), Zone))
            .Last()!
            .FirstOrDefault(rule => rule.Quantity == quantity);

    private static KeptJournal Salt(KeptJournal kept, double day, double ppt) =>
        kept.Write(Day(day), new ReadingTaken(TypedNumber.Of(ppt, UnitCode.PracticalSalinity), Jar));

    // A single reading that fits nothing is not believed yet; a second one is.
    private static KeptJournal Twice(double ppt) => Salt(Salt(ReviewedRuns.Bare(), 1.5, ppt), 2, ppt);

    [Fact]
    public void Water_that_was_read_too_salty_and_stays_so_is_a_hit_and_good_water_is_rightly_quiet()
    {
        var salty = Rule(Salt(Twice(40), 4, 40.5), LimitedQuantity.Salinity)!;
        Assert.Equal(RuleOutcome.Hit, salty.Looks[^1].Outcome);
        Assert.True(salty.Looks[^1].Warned);

        var good = Rule(Salt(Salt(ReviewedRuns.Bare(), 2, 30), 4, 30), LimitedQuantity.Salinity)!;
        Assert.All(good.Looks, look => Assert.Equal(RuleOutcome.Quiet, look.Outcome));
    }

    [Fact]
    public void What_nobody_could_know_then_is_missed_and_what_was_put_right_is_undecided()
    {
        // Salt that was poured in without a word shows at the reading, not before.
        var missed = Rule(Salt(Salt(ReviewedRuns.Bare(), 2, 30), 4, 41), LimitedQuantity.Salinity)!;
        Assert.Equal(RuleOutcome.Missed, missed.Looks[^1].Outcome);

        var righted = Twice(40).Write(Day(3.5), new WaterMoved(To: Jar, Volume: TypedNumber.Of(7, "L")));
        Assert.Equal(
            RuleOutcome.Undecided,
            Rule(Salt(righted, 4, 29.5), LimitedQuantity.Salinity)!.Looks[^1].Outcome
        );
    }

    [Fact]
    public void What_was_written_afterwards_was_not_known()
    {
        var late = Salt(ReviewedRuns.Bare(), 2, 30);
        late.Write(
            Day(2.5),
            new ReadingTaken(TypedNumber.Of(41, UnitCode.PracticalSalinity), Jar),
            written: Day(8)
        );

        Assert.Equal(
            RuleOutcome.Missed,
            Rule(Salt(late, 4, 41), LimitedQuantity.Salinity)!.Looks[^1].Outcome
        );
    }

    [Fact]
    public void The_night_of_hatching_is_looked_at_before_the_first_larvae()
    {
        var nights = Rule(ReviewedRuns.Bare(), null)!;

        Assert.Equal(3, nights.Looks.Count);
        Assert.Equal(
            [8, 4, 1],
            nights.Looks.Select(look => (int)Math.Round((look.ReadAt - look.At).TotalDays))
        );
        // A week before, nobody is sent to look at night.
        Assert.Equal(RuleOutcome.Quiet, nights.Looks[0].Outcome);
    }

    [Fact]
    public void A_house_without_runs_has_no_rule_to_hold_against_anything() =>
        Assert.Empty(Hindsight.InPieces(Outlook.Of(new KeptJournal().Account(), Day(12), Zone)).Last()!);
}
