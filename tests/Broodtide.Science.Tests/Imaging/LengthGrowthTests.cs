using Broodtide.Science.Imaging.Lengths;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Imaging;

public sealed class LengthGrowthTests
{
    [Fact]
    public void A_straight_line_of_lengths_is_told_as_it_is()
    {
        var growth = LengthGrowth
            .Of([new(2, [1600, 1640]), new(10, [2000, 2040, 2020]), new(20, [2520])])
            .Value;
        Assert.Equal(50, growth.MicrometresPerDay.Middle, 1e-6);
        Assert.Equal(0, growth.MicrometresPerDay.Width, 1e-6);
        Assert.Equal((2, 20), (growth.FromDays, growth.ToDays));
        Assert.Equal("growth-of-those-that-lived", Assert.Single(growth.Remarks).Code);
    }

    // The slope and its error of a line through 1, 2, 4 at 0, 1, 2: 1.5 and the root of 1/12; Student's point of one
    // degree of freedom at 95 % is 6.3138 (tables).
    [Fact]
    public void The_interval_is_students()
    {
        var growth = LengthGrowth.Of([new(0, [1]), new(1, [2]), new(2, [4])]).Value.MicrometresPerDay;
        Assert.Equal(1.5, growth.Middle, 1e-9);
        Assert.Equal(6.3138 * Math.Sqrt(1 / 12.0), growth.High - growth.Middle, 1e-3);
    }

    [Fact]
    public void Two_ages_tell_no_growth_however_many_larvae()
    {
        var told = LengthGrowth.Of([new(2, [1600, 1610]), new(2.2, [1650]), new(9, [2000, 2010, 2020])]);
        Assert.Equal("growth-needs-looks", told.Reason!.Code);
        Assert.Equal(2, told.Reason.Arguments.Single(it => it.Name == "looks").Value);
    }

    [Fact]
    public void Lengths_that_tell_growth_not_from_none_say_so()
    {
        var growth = LengthGrowth.Of([new(0, [100]), new(5, [130]), new(10, [90]), new(15, [118])]).Value;
        Assert.Equal("growth-not-told-from-none", growth.Remarks[0].Code);
    }

    // Of 1,000 invented runs of five looks with errors of their own nine in ten intervals hold: 870 to 930 with less than
    // one chance in 500 of falling outside.
    [Fact]
    public void Nine_in_ten_intervals_hold()
    {
        var dice = new Random(4);
        var held = 0;
        for (var run = 0; run < 1_000; run++)
        {
            var looks = Enumerable
                .Range(0, 5)
                .Select(at =>
                {
                    var shared = Normal.Sample(dice, 0, 60);
                    return new LengthLook(
                        4 * at,
                        [
                            .. Enumerable
                                .Range(0, 4)
                                .Select(_ => 1_500 + (40 * 4 * at) + shared + Normal.Sample(dice, 0, 90)),
                        ]
                    );
                })
                .ToList();
            held += LengthGrowth.Of(looks).Value.MicrometresPerDay.Contains(40) ? 1 : 0;
        }

        Assert.InRange(held, 870, 930);
    }

    [Fact]
    public void A_mean_has_bounds_from_two_larvae_on()
    {
        Assert.Null(LengthGrowth.Mean([1800]));
        var mean = LengthGrowth.Mean([1800, 1900])!.Value;
        Assert.Equal(1850, mean.Middle, 1e-9);
        Assert.Equal(6.3138 * 50, mean.High - mean.Middle, 0.1);
    }
}
