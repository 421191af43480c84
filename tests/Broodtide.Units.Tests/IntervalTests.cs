using CsCheck;

namespace Broodtide.Units.Tests;

public sealed class IntervalTests
{
    private static readonly Gen<Interval> Intervals = Gen.Double[-1e6, 1e6]
        .Array[3]
        .Select(points => points.Order().ToArray())
        .Select(points => Interval.FromPoints(points[0], points[1], points[2]));

    // The 0.95 point of the standard normal distribution is 1.6449 (Abramowitz and Stegun 1964, table 26.5: 1.64485).
    [Fact]
    public void A_normal_distribution_has_nine_tenths_between_its_points()
    {
        var interval = Interval.FromNormal(100, 10);
        Assert.Equal(
            (83.5515, 100.0, 116.4485),
            (Round(interval.Low), interval.Middle, Round(interval.High))
        );
        Assert.Equal(Interval.Exactly(7), Interval.FromNormal(7, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Interval.FromNormal(0, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Interval.FromNormal(double.NaN, 1));
    }

    [Fact]
    public void An_interval_holds_its_own_points_and_nothing_outside() =>
        Intervals.Sample(interval =>
        {
            Assert.True(interval.Contains(interval.Low) && interval.Contains(interval.Middle));
            Assert.True(interval.Contains(interval.High) && interval.Width >= 0);
            Assert.False(interval.Contains(Math.BitDecrement(interval.Low)));
            Assert.False(interval.Contains(Math.BitIncrement(interval.High)));
            Assert.False(interval.Contains(double.NaN));
        });

    [Fact]
    public void Stretching_moves_every_point_and_keeps_their_order() =>
        Gen.Select(Intervals, Gen.Double[0.001, 1000], Gen.Double[-1000, 1000])
            .Sample(
                (interval, factor, offset) =>
                {
                    var stretched = interval.Scaled(factor, offset);
                    Assert.Equal((interval.Low * factor) + offset, stretched.Low);
                    Assert.Equal((interval.High * factor) + offset, stretched.High);
                    Assert.True(stretched.Low <= stretched.Middle && stretched.Middle <= stretched.High);
                }
            );

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void An_interval_is_not_stretched_by_what_would_turn_it_over(double factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Interval.FromPoints(1, 2, 3).Scaled(factor));

    [Fact]
    public void A_floor_lifts_what_lies_below_it() =>
        Assert.Equal(Interval.FromPoints(2, 2, 3), Interval.FromPoints(-1, 1, 3).AtLeast(2));

    private static double Round(double value) => Math.Round(value, 4);
}
