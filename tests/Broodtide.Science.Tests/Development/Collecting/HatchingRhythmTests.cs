using Broodtide.Science.Development.Collecting;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Development.Collecting;

public sealed class HatchingRhythmTests
{
    private static readonly RhythmBelief Belief = new(
        Interval.FromPoints(8, 11, 15),
        Interval.FromPoints(1, 2, 4),
        Interval.FromPoints(0.02, 0.1, 0.3),
        Interval.FromPoints(0.007, 0.017, 0.042)
    );

    [Fact]
    public void Without_gatherings_the_belief_is_told_again()
    {
        var rhythm = HatchingRhythm.Of(Belief, []);
        Assert.Equal(1, rhythm.Possibilities.Sum(draw => draw.Weight), 1e-9);
        Assert.Equal(11, rhythm.PeakHoursAfterNoon.Middle, 0.15);
        Assert.Equal(8, rhythm.PeakHoursAfterNoon.Low, 0.3);
        Assert.Equal(15, rhythm.PeakHoursAfterNoon.High, 0.3);
        Assert.Equal(0.017, rhythm.LossPerHour.Middle, 0.001);
        Assert.False(rhythm.IsRough);
    }

    [Fact]
    public void Every_possibility_hatches_all_larvae_of_a_day_in_a_day_and_none_rises_from_the_dead()
    {
        foreach (var draw in HatchingRhythm.Of(Belief, []).Possibilities.Take(40))
        {
            Assert.Equal(1, draw.Hatching(-5, 19), 1e-9);
            Assert.Equal(2, draw.Hatching(3.3, 51.3), 1e-9);
            Assert.Equal(draw.Hatching(2.2, 14.9), draw.Hatching(2.2, 7.1) + draw.Hatching(7.1, 14.9), 1e-9);
            Assert.True(draw.AliveOf(0, 20) < draw.Hatching(0, 20));
            // Gathering in between finds at least as many.
            Assert.True(draw.AliveOf(0, 11) + draw.AliveOf(11, 20) >= draw.AliveOf(0, 20));
        }
    }

    [Fact]
    public void Larvae_found_late_in_the_night_move_the_peak_later_and_found_early_earlier()
    {
        var before = HatchingRhythm.Of(Belief, []).PeakHoursAfterNoon;
        var late = HatchingRhythm.Of(
            Belief,
            [
                [new(0, 11, 4), new(11, 14, 30), new(14, 19, 90)],
            ]
        );
        var early = HatchingRhythm.Of(
            Belief,
            [
                [new(0, 9, 80), new(9, 14, 30), new(14, 19, 2)],
            ]
        );
        Assert.True(late.PeakHoursAfterNoon.Middle > before.Middle + 1);
        Assert.True(early.PeakHoursAfterNoon.Middle < before.Middle - 1);
        Assert.True(late.EffectiveDraws < HatchingRhythm.Draws);
    }

    [Fact]
    public void One_gathering_a_night_says_nothing_of_the_hour()
    {
        var rhythm = HatchingRhythm.Of(
            Belief,
            [
                [new(0, 19, 140)],
                [new(0, 20, 12)],
            ]
        );
        Assert.Equal(HatchingRhythm.Of(Belief, []).PeakHoursAfterNoon, rhythm.PeakHoursAfterNoon);
    }

    [Fact]
    public void The_order_of_writing_does_not_matter()
    {
        GatheredLarvae[] first = [new(0, 11, 4), new(11, 14, 30), new(14, 19, 9)];
        GatheredLarvae[] second = [new(0, 10.5, 14), new(10.5, 19, 22)];
        var forth = HatchingRhythm.Of(Belief, [first, second]);
        var back = HatchingRhythm.Of(
            Belief,
            [
                [.. second.Reverse()],
                [.. first.Reverse()],
            ]
        );
        Assert.Equal(forth.PeakHoursAfterNoon, back.PeakHoursAfterNoon);
        Assert.Equal(
            forth.Possibilities.Select(draw => draw.Weight),
            back.Possibilities.Select(draw => draw.Weight)
        );
    }

    [Fact]
    public void Nine_intervals_in_ten_hold_the_hour_that_larvae_hatched_at()
    {
        // Truth from the belief; each night a share of its own for bursts, gathered at unequal gaps.
        var dice = new Random(20_261_125);
        var (held, width) = (0, 0.0);
        const int Runs = 300;
        for (var run = 0; run < Runs; run++)
        {
            double Normal() => MathNet.Numerics.Distributions.Normal.Sample(dice, 0, 1);
            var z = Normal();
            var peak = 11 + (z / Interval.StandardNormal95 * (z < 0 ? 3 : 4));
            var spread = 2 * Math.Exp(Normal() / Interval.StandardNormal95 * Math.Log(2));
            List<GatheredLarvae[]> nights = [];
            for (var night = 0; night < 2; night++)
            {
                double[] at = [0, 9 + dice.NextDouble(), 12 + dice.NextDouble(), 20];
                var found = new int[3];
                // Bursts of about eight larvae leave together.
                for (var burst = 0; burst < 15; burst++)
                {
                    var hour =
                        dice.NextDouble() < 0.12
                            ? 24 * dice.NextDouble()
                            : ((peak + (spread * Normal())) % 24 + 24) % 24;
                    for (var k = 0; k < 3; k++)
                    {
                        if (hour >= at[k] && hour < at[k + 1])
                        {
                            for (var larva = 0; larva < 8; larva++)
                            {
                                found[k] += dice.NextDouble() < Math.Exp(-0.017 * (at[k + 1] - hour)) ? 1 : 0;
                            }
                        }
                    }
                }

                nights.Add([.. found.Select((n, k) => new GatheredLarvae(at[k], at[k + 1], n))]);
            }

            var told = HatchingRhythm.Of(Belief, nights).PeakHoursAfterNoon;
            held += told.Contains(peak) ? 1 : 0;
            width += told.Width / Runs;
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{held} of {Runs}, mean width {width:F2} h");
        Assert.InRange((double)held / Runs, 0.85, 0.97);
        Assert.InRange(width, 1, 6.5);
    }

    [Fact]
    public void Numbers_that_are_none_stop_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HatchingRhythm.Of(
                Belief,
                [
                    [new(0, double.NaN, 4), new(3, 4, 4)],
                ]
            )
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HatchingRhythm.Of(
                Belief,
                [
                    [new(0, 3, -4), new(3, 4, 4)],
                ]
            )
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HatchingRhythm.Of(
                Belief,
                [
                    [new(5, 3, 4), new(3, 4, 4)],
                ]
            )
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new RhythmBelief(
                Interval.FromPoints(8, 11, 25),
                Belief.SpreadHours,
                Belief.SteadyShare,
                Belief.LossPerHour
            )
        );
    }
}
