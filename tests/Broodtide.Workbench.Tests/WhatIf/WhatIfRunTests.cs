using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Workbench.Tests.WhatIf;

public sealed class WhatIfRunTests
{
    private static readonly WhatIfGround Ground = Grounds.Of(days: 20, members: 100);

    private static WhatIfAnswer Ask(params WhatIfChange[] changes) => WhatIfRun.Of(Ground, changes);

    [Fact]
    public void Changing_nothing_by_a_roundabout_way_makes_no_difference_in_any_member()
    {
        var answer = Ask(
            new WhatIfChange.FeedTimes(1),
            new WhatIfChange.AirSet(AirFlow.Gentle),
            new WhatIfChange.TemperatureTo(24),
            new WhatIfChange.SalinityTo(35),
            new WhatIfChange.LarvaeTimes(1)
        );
        Assert.Equal(5, answer.Figures.Count);
        Assert.All(
            answer.Figures,
            figure =>
            {
                Assert.Equal(WhatIfVerdict.Same, figure.Verdict);
                Assert.Equal(figure.AsItIs, figure.Changed);
                Assert.Equal(0, figure.Difference.Width);
            }
        );
    }

    [Fact]
    public void The_difference_member_by_member_is_narrower_than_the_two_intervals_apart()
    {
        var answer = Ask(new WhatIfChange.FeedTimes(1.2));
        var ammonia = answer.Figure(WhatIfQuantity.UnionisedAmmonia);
        Assert.True(ammonia.Difference.Middle > 0);
        Assert.True(ammonia.Difference.Width < ammonia.AsItIs.Width + ammonia.Changed.Width);
        Assert.True(ammonia.Difference.Width < 0.7 * ammonia.AsItIs.Width);
    }

    [Fact]
    public void Feeding_much_more_raises_ammonia_and_takes_oxygen_and_no_food_does_the_contrary()
    {
        var much = Ask(new WhatIfChange.FeedTimes(5));
        Assert.Equal(WhatIfVerdict.Worse, much.Figure(WhatIfQuantity.UnionisedAmmonia).Verdict);
        Assert.Equal(WhatIfVerdict.Worse, much.Figure(WhatIfQuantity.Oxygen).Verdict);
        var none = Ask(new WhatIfChange.FeedTimes(0));
        Assert.Equal(WhatIfVerdict.Better, none.Figure(WhatIfQuantity.UnionisedAmmonia).Verdict);
        Assert.All(much.Limits, limit => Assert.True(limit.Changed.Value >= limit.AsItIs.Value));
    }

    [Fact]
    public void Warmer_larvae_settle_sooner_and_too_warm_ones_die()
    {
        var warm = Ask(new WhatIfChange.TemperatureTo(27, 3));
        Assert.Equal(WhatIfVerdict.Better, warm.Figure(WhatIfQuantity.Settlement).Verdict);
        var hot = Ask(new WhatIfChange.TemperatureTo(33));
        Assert.Equal(WhatIfVerdict.Worse, hot.Figure(WhatIfQuantity.Alive).Verdict);
    }

    [Fact]
    public void Starved_larvae_settle_later_and_brackish_ones_die()
    {
        var starved = Ask(new WhatIfChange.FeedTimes(0), new WhatIfChange.LightFor(0));
        Assert.Equal(WhatIfVerdict.Worse, starved.Figure(WhatIfQuantity.Settlement).Verdict);
        var brackish = Ask(new WhatIfChange.SalinityTo(8));
        Assert.Equal(WhatIfVerdict.Worse, brackish.Figure(WhatIfQuantity.Alive).Verdict);
    }

    [Fact]
    public void Twice_the_larvae_are_twice_as_many_in_every_member()
    {
        var alive = Ask(new WhatIfChange.LarvaeTimes(2)).Figure(WhatIfQuantity.Alive);
        Assert.Equal(2 * alive.AsItIs.Middle, alive.Changed.Middle, 6);
        Assert.Equal(100, alive.BetterOfHundred);
    }

    [Fact]
    public void The_larvae_begin_as_they_were_estimated()
    {
        var answer = Ask(new WhatIfChange.Siphoned(1));
        var series = Assert.Single(answer.Series, one => one.Quantity == WhatIfQuantity.Alive);
        var now = Ground.Larvae!.Learned.Days[0].All.Alive;
        Assert.Equal(0, series.Days[0]);
        Assert.Equal(20, series.Days[^1]);
        Assert.InRange(series.AsItIs[0].Middle, now.Middle - 4, now.Middle + 4);
        Assert.InRange(series.AsItIs[0].Low, now.Low - 8, now.Low + 8);
        Assert.InRange(series.AsItIs[0].High, now.High - 8, now.High + 8);
    }

    [Fact]
    public void A_vessel_without_larvae_is_told_by_its_water_alone()
    {
        var answer = WhatIfRun.Of(Grounds.Of(larvae: false), [new WhatIfChange.Split()]);
        Assert.Equal(
            [WhatIfQuantity.UnionisedAmmonia, WhatIfQuantity.Oxygen, WhatIfQuantity.Food],
            answer.Figures.Select(figure => figure.Quantity)
        );
        Assert.Contains(answer.Remarks, remark => remark.Code == "whatif-without-larvae");
    }

    [Fact]
    public void The_same_question_has_the_same_answer()
    {
        WhatIfChange[] changes = [new WhatIfChange.Skipped(2), new WhatIfChange.Split()];
        Assert.Equal(Ask(changes).Figures, Ask([.. changes.Reverse()]).Figures);
    }

    [Fact]
    public void Impossible_values_are_refused_with_what_is_allowed()
    {
        WhatIfChange[] impossible =
        [
            new WhatIfChange.SalinityTo(60),
            new WhatIfChange.TemperatureTo(double.NaN),
            new WhatIfChange.LightFor(25),
            new WhatIfChange.FeedTimes(-1),
            new WhatIfChange.LarvaeNumber(1e9),
            new WhatIfChange.WaterChanged(1),
            new WhatIfChange.Skipped(0),
            new WhatIfChange.Siphoned(1.5),
        ];
        foreach (var change in impossible)
        {
            var refused = Assert.Single(WhatIfRules.Refusals(Ground, [change]));
            Assert.EndsWith("-impossible", refused.Code, StringComparison.Ordinal);
            Assert.IsType<double>(refused["least"]);
            Assert.IsType<double>(refused["most"]);
            Assert.Throws<ArgumentException>(() => WhatIfRun.InPieces(Ground, [change]));
        }

        Assert.Equal("whatif-nothing-changed", Assert.Single(WhatIfRules.Refusals(Ground, [])).Code);
        Assert.Equal(
            "whatif-changed-twice",
            Assert
                .Single(
                    WhatIfRules.Refusals(
                        Ground,
                        [new WhatIfChange.FeedTimes(2), new WhatIfChange.AlgaeEachDay(5)]
                    )
                )
                .Code
        );
        Assert.Equal(
            "whatif-no-larvae",
            Assert
                .Single(
                    WhatIfRules.Refusals(
                        Grounds.Of(larvae: false, members: 4),
                        [new WhatIfChange.LarvaeTimes(2)]
                    )
                )
                .Code
        );
    }

    [Fact]
    public void More_than_a_step_at_once_is_tried_and_said()
    {
        static IEnumerable<string> Codes(params WhatIfChange[] changes) =>
            WhatIfRules.Cautions(Ground, changes).Select(remark => remark.Code);

        Assert.Equal(["whatif-salinity-step"], Codes(new WhatIfChange.SalinityTo(25)));
        Assert.Empty(Codes(new WhatIfChange.SalinityTo(25, 10)));
        Assert.Equal(["whatif-temperature-step"], Codes(new WhatIfChange.TemperatureTo(27, 2)));
        Assert.Empty(Codes(new WhatIfChange.TemperatureTo(25)));
        Assert.Equal(10.0, WhatIfRules.Cautions(Ground, [new WhatIfChange.SalinityTo(25)])[0]["gentleDays"]);
    }

    [Fact]
    public void What_is_taken_for_as_it_is_is_said()
    {
        var answer = Ask(new WhatIfChange.Split());
        var fed = Assert.Single(answer.Remarks, remark => remark.Code == "whatif-fed-as-before");
        Assert.Equal(20.0, (double)fed["milligramsPerDay"]!, 6);
        Assert.Contains(answer.Remarks, remark => remark.Code == "whatif-as-it-is");
    }
}
