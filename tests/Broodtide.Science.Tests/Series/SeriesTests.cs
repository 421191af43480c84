using Broodtide.Science.Series;
using CsCheck;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;

namespace Broodtide.Science.Tests.Series;

public sealed class SeriesTests
{
    private static double[] Times(int count) => [.. Enumerable.Range(0, count).Select(i => (double)i)];

    [Fact]
    public void Scatter_of_neighbours_is_the_deviation_of_a_reading_and_does_not_feel_a_slow_course()
    {
        var random = new Random(5);
        var readings = Enumerable
            .Range(0, 20_000)
            .Select(i => (0.001 * i) + Normal.Sample(random, 0, 0.3))
            .ToArray();
        Assert.InRange(Scatter.FromNeighbours(readings), 0.29, 0.31);
    }

    // The median and the deviations by MathNet.Numerics, window by window.
    [Fact]
    public void Spikes_are_those_that_a_library_of_statistics_finds() =>
        Gen.Select(Gen.Double[-1, 1].Array[1, 60], Gen.Int[1, 8], Gen.Double[0.5, 4])
            .Sample(
                (readings, half, threshold) =>
                {
                    var expected = Enumerable
                        .Range(0, readings.Length)
                        .Where(i =>
                        {
                            var first = Math.Max(0, i - half);
                            var near = readings[first..Math.Min(readings.Length, i + half + 1)];
                            var middle = near.Median();
                            var deviation = near.Select(value => Math.Abs(value - middle)).Median();
                            return Math.Abs(readings[i] - middle) > threshold * 1.4826 * deviation;
                        });
                    Assert.Equal(expected, Spikes.In(readings, half, threshold));
                },
                iter: 500
            );

    [Fact]
    public void A_flicker_of_one_step_of_the_instrument_is_no_spike()
    {
        double[] readings = [25.1, 25.1, 25.1, 25.1, 25.2, 25.1, 25.1, 25.1, 25.1, 27.0, 25.1, 25.1];
        Assert.Equal([4, 9], Spikes.In(readings, 3, 3));
        Assert.Equal([9], Spikes.In(readings, 3, 3, resolution: 0.1));
    }

    [Fact]
    public void A_change_is_found_where_it_was_made()
    {
        var random = new Random(3);
        var readings = Enumerable
            .Range(0, 80)
            .Select(i => Normal.Sample(random, i < 50 ? 33 : 34, 0.3))
            .ToArray();
        var change = ChangePoint.Of(readings);
        Assert.InRange(change.Before, 48, 52);
        Assert.True(change.ChanceOfNone.Value < 1e-6);
    }

    [Fact]
    public void A_level_series_has_no_change_and_no_trend()
    {
        var level = Enumerable.Repeat(33.0, 20).ToArray();
        Assert.Equal(1, ChangePoint.Of(level).ChanceOfNone.Value);
        Assert.Equal(0, ChangePoint.Of(level).Statistic);
        var trend = Trend.Of(Times(20), level);
        Assert.Equal(0, trend.Slope);
        Assert.Equal(0, trend.Z);
        Assert.Equal(1, trend.ChanceOfNone.Value);
    }

    // Of a hundred series without a trend about five are told to have one at 5 %; binomial, 1 to 11 in 99 %.
    [Fact]
    public void Chance_alone_is_called_a_trend_as_often_as_told()
    {
        var random = new Random(11);
        var called = Enumerable
            .Range(0, 100)
            .Count(_ =>
                Trend
                    .Of(Times(30), Enumerable.Range(0, 30).Select(_ => Normal.Sample(random, 0, 1)).ToArray())
                    .ChanceOfNone.Value < 0.05
            );
        Assert.InRange(called, 1, 11);
    }

    [Fact]
    public void The_limits_hold_a_slope_that_was_made_as_often_as_told()
    {
        var random = new Random(12);
        var held = Enumerable
            .Range(0, 200)
            .Count(_ =>
            {
                var y = Times(25).Select(time => (0.1 * time) + Normal.Sample(random, 0, 1)).ToArray();
                var (lower, upper) = Trend.Of(Times(25), y).Limits(0.9);
                return lower <= 0.1 && 0.1 <= upper;
            });
        Assert.InRange(held, 168, 191);
    }

    [Fact]
    public void The_order_in_which_readings_are_given_does_not_matter_to_a_trend()
    {
        double[] x = [1, 2, 3, 4, 10, 12, 18];
        double[] y = [9, 15, 19, 20, 45, 55, 78];
        var mixed = new[] { 3, 0, 6, 2, 5, 1, 4 };
        var (one, other) = (
            Trend.Of(x, y),
            Trend.Of([.. mixed.Select(i => x[i])], [.. mixed.Select(i => y[i])])
        );
        Assert.Equal(one.Slope, other.Slope);
        Assert.Equal(one.Score, other.Score);
        Assert.Equal(one.Limits(0.9), other.Limits(0.9));
    }

    [Fact]
    public void A_thinned_line_keeps_its_ends_its_order_and_its_number() =>
        Gen.Select(Gen.Double[-5, 5].Array[0, 300], Gen.Int[3, 60])
            .Sample(
                (y, keep) =>
                {
                    var kept = Thinning.ByTriangles(Times(y.Length), y, keep);
                    Assert.Equal(Math.Min(y.Length, keep), kept.Length);
                    Assert.Equal(kept.Distinct().Order(), kept);
                    Assert.True(y.Length == 0 || (kept[0] == 0 && kept[^1] == y.Length - 1));
                },
                iter: 500
            );

    [Fact]
    public void No_extreme_of_a_stretch_is_lost_when_they_are_asked_for() =>
        Gen.Select(Gen.Double[-5, 5].Array[1, 300], Gen.Int[1, 20])
            .Sample(
                (y, spans) =>
                {
                    var kept = Thinning.WithExtremes(Times(y.Length), y, 5, spans);
                    for (var span = 0; span < spans; span++)
                    {
                        var stretch = Enumerable
                            .Range(0, y.Length)
                            .Where(i =>
                                i >= (long)span * y.Length / spans && i < (long)(span + 1) * y.Length / spans
                            )
                            .ToArray();
                        if (stretch.Length > 0)
                        {
                            Assert.Equal(stretch.Max(i => y[i]), kept.Intersect(stretch).Max(i => y[i]));
                            Assert.Equal(stretch.Min(i => y[i]), kept.Intersect(stretch).Min(i => y[i]));
                        }
                    }
                },
                iter: 500
            );

    [Fact]
    public void What_is_no_series_stops_at_the_door()
    {
        Assert.Throws<ArgumentException>(() => Scatter.FromNeighbours([1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Spikes.In([1, double.NaN], 1, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Spikes.In([1, 2], 0, 3));
        Assert.Throws<ArgumentException>(() => ChangePoint.Of([1]));
        Assert.Throws<ArgumentException>(() => Trend.Of([1, 1, 1], [1, 2, 3]));
        Assert.Throws<ArgumentException>(() => Trend.Of([1, 2], [1, 2, 3]));
        Assert.Throws<ArgumentException>(() => Thinning.ByTriangles([1, 2], [1], 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Thinning.ByTriangles([1, 2], [1, 2], 2));
    }
}
