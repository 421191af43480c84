using Broodtide.Science.Series;
using CsCheck;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Series;

public sealed class ChartTests
{
    [Fact]
    public void The_average_of_level_readings_stays_at_its_centre_and_never_signals()
    {
        var chart = new MovingAverageChart(33, 0.2, 0.25, 3);
        var level = Enumerable.Repeat(33.0, 50).ToArray();
        Assert.Equal(level, chart.Of(level));
        Assert.Null(chart.FirstSignal(level));
    }

    [Fact]
    public void The_limits_of_the_average_widen_to_those_of_a_long_run()
    {
        var chart = new MovingAverageChart(0, 1, 0.3, 3);
        var widths = Enumerable.Range(1, 60).Select(count => chart.Limits(count).Upper).ToArray();
        Assert.Equal(widths.Order(), widths);
        Assert.Equal(0.3 * 3, widths[0], 12);
        Assert.Equal(chart.Limits().Upper, widths[^1], 12);
    }

    // The printed signal of the e-Handbook's series of averages: none of twenty lies outside 47.41 to 52.59.
    [Fact]
    public void The_series_of_the_handbook_gives_no_signal()
    {
        var readings = ReferenceFiles.Surroundings.Table("nist_ewma.csv").Numbers("x");
        Assert.Null(new MovingAverageChart(50, 2.0539, 0.3, 3).FirstSignal(readings));
    }

    [Fact]
    public void A_shift_of_a_series_shifts_no_signal() =>
        Gen.Select(Gen.Double[-3, 3].Array[1, 80], Gen.Double[-50, 50])
            .Sample(
                (readings, by) =>
                {
                    var moved = readings.Select(reading => reading + by).ToArray();
                    var here = new CumulativeSumChart(0, 0.5, 4).Of(readings);
                    var there = new CumulativeSumChart(by, 0.5, 4).Of(moved);
                    for (var i = 0; i < readings.Length; i++)
                    {
                        Assert.Equal(here[i].High, there[i].High, 1e-9);
                        Assert.Equal(here[i].Low, there[i].Low, 1e-9);
                    }
                },
                iter: 500
            );

    [Fact]
    public void Readings_turned_over_change_the_sides() =>
        Gen.Double[-3, 3]
            .Array[1, 80]
            .Sample(
                readings =>
                {
                    var chart = new CumulativeSumChart(0, 0.4, 4);
                    var turned = chart.Of([.. readings.Select(reading => -reading)]);
                    Assert.Equal(
                        chart.Of(readings).Select(sums => new CumulativeSums(sums.Low, sums.High)),
                        turned
                    );
                },
                iter: 500
            );

    // Simulated with a fixed seed: 20,000 runs have a standard error of 0.7 % of the mean.
    [Theory]
    [InlineData(0.5, 4, 0)]
    [InlineData(0.5, 5, 1)]
    [InlineData(0.25, 8, 0.5)]
    public void The_mean_run_is_that_of_simulated_readings(double slack, double threshold, double shift)
    {
        var random = new Random(20261126);
        var chart = new CumulativeSumChart(0, slack, threshold);
        const int Runs = 20_000;
        var total = 0L;
        for (var run = 0; run < Runs; run++)
        {
            var sums = default(CumulativeSums);
            do
            {
                sums = chart.Next(sums, Normal.Sample(random, shift, 1));
                total++;
            } while (sums.High <= threshold);
        }

        var expected = RunLength.OneSided(slack, threshold, shift);
        Assert.InRange(total / (double)Runs / expected, 0.97, 1.03);
    }

    [Fact]
    public void The_rough_formula_has_no_hole_where_readings_do_not_drift()
    {
        var beside = RunLength.OneSidedRoughly(0.5, 4, 0.5 + 1e-3);
        Assert.InRange(RunLength.OneSidedRoughly(0.5, 4, 0.5) / beside, 0.99, 1.01);
        Assert.InRange(RunLength.OneSidedRoughly(0.5, 4, 0.5 + 1e-7) / beside, 0.99, 1.01);
    }

    [Fact]
    public void What_is_no_number_stops_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new MovingAverageChart(0, 1, 0.3, 3).Of([double.NaN])
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new CumulativeSumChart(0, 0.5, 4).Of([double.PositiveInfinity])
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => RunLength.OneSided(0.5, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MovingAverageChart(0, 1, 0, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MovingAverageChart(0, 1, 0.3, 3).Limits(0));
    }
}
