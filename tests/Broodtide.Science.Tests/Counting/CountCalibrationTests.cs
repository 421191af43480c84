using Broodtide.Science.Counting;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Counting;

public sealed class CountCalibrationTests
{
    private static readonly Interval OfThePicture = Interval.FromPoints(30, 40, 60);

    // NIST StRD, linear regression, Norris: 36 readings of an ozone monitor; X, Y.
    private static readonly double[] Norris =
    [
        0.2,
        0.1,
        337.4,
        338.8,
        118.2,
        118.1,
        884.6,
        888.0,
        10.1,
        9.2,
        226.5,
        228.1,
        666.3,
        668.5,
        996.3,
        998.5,
        448.6,
        449.1,
        777.0,
        778.9,
        558.2,
        559.2,
        0.4,
        0.3,
        0.6,
        0.1,
        775.5,
        778.1,
        666.9,
        668.8,
        338.0,
        339.3,
        447.5,
        448.9,
        11.6,
        10.8,
        556.0,
        557.7,
        228.1,
        228.3,
        995.8,
        998.0,
        887.6,
        888.8,
        120.2,
        119.6,
        0.3,
        0.3,
        0.3,
        0.6,
        556.8,
        557.6,
        339.1,
        339.3,
        887.2,
        888.0,
        999.0,
        998.5,
        779.0,
        778.9,
        11.1,
        10.2,
        118.3,
        117.6,
        229.2,
        228.9,
        669.1,
        668.4,
        448.9,
        449.2,
        0.5,
        0.2,
    ];

    [Fact]
    public void The_line_of_the_ozone_monitor_is_the_certified_one()
    {
        var line = LineFit.Of([.. Norris.Chunk(2).Select(pair => new LinePoint(pair[0], pair[1]))]);
        Assert.Equal(-0.262323073774029, line.Intercept, 1e-11);
        Assert.Equal(1.00211681802045, line.Slope, 1e-13);
        Assert.Equal(0.232818234301152, line.InterceptError, 1e-11);
        Assert.Equal(0.429796848199937e-3, line.SlopeError, 1e-14);
        Assert.Equal(0.884796396144373, line.ResidualDeviation, 1e-11);
        Assert.Equal(34, line.DegreesOfFreedom);
    }

    // By hand: y = x + 1 with residuals 1, -2, 1 about (1, 2, 3); slope 1, s = root 6, t of one degree at 95 % 6.3138
    // (Abramowitz and Stegun, table 26.10), error of the next at the mean s root(1 + 1/3).
    [Fact]
    public void The_next_point_lies_within_the_reach_of_students_t()
    {
        var next = LineFit.Of([new(1, 3), new(2, 1), new(3, 5)]).Next(2);
        Assert.Equal(3, next.Middle, 1e-12);
        Assert.Equal(6.313752 * Math.Sqrt(6) * Math.Sqrt(4.0 / 3), next.High - 3, 1e-4);
    }

    [Fact]
    public void Seven_pictures_are_too_few_and_eight_make_a_calibration()
    {
        var points = Enumerable.Range(1, 8).Select(i => new CalibrationPoint(5 * i, 4 * i)).ToList();
        var few = CountCalibration.Of(points[..7]);
        Assert.False(few.IsOwn);
        Assert.Equal(OfThePicture, few.Number(40, OfThePicture).Value);
        Assert.Null(CalibratedLook.From(few, 40));
        Assert.Contains(few.Remarks(40), remark => remark.Code == "calibration-too-small");
        var own = CountCalibration.Of(points);
        Assert.True(own.IsOwn);
        Assert.InRange(own.Number(20, OfThePicture).Value.Middle, 24, 26);
        Assert.Contains(own.Remarks(20), remark => remark.Code == "calibration-without-empty");
    }

    [Fact]
    public void Above_the_largest_known_number_it_warns()
    {
        var own = CountCalibration.Of([
            .. Enumerable.Range(1, 8).Select(i => new CalibrationPoint(5 * i, 5 * i)),
        ]);
        Assert.True(own.Number(39, OfThePicture).WithinPublishedRange);
        Assert.False(own.Number(45, OfThePicture).WithinPublishedRange);
        Assert.Equal(
            40.0,
            own.Remarks(45).Single(remark => remark.Code == "count-above-calibrated")["largest"]
        );
    }

    [Fact]
    public void What_is_marked_where_there_is_no_larva_is_taken_off()
    {
        var points = Enumerable.Range(1, 8).Select(i => new CalibrationPoint(6 * i, (6 * i) + 6)).ToList();
        var own = CountCalibration.Of([.. points, new(0, 5), new(0, 7)]);
        Assert.Equal(6, own.FalseMarks);
        Assert.InRange(own.Number(36, OfThePicture).Value.Middle, 29, 31);
        Assert.Equal(0, own.Number(6, OfThePicture).Value.Middle, 1e-9);
        Assert.True(own.Number(4, OfThePicture).Value.High >= 1);
    }

    [Fact]
    public void Where_crowds_hide_each_other_the_line_bends()
    {
        var own = CountCalibration.Of([
            .. Enumerable
                .Range(1, 10)
                .Select(i => new CalibrationPoint(20 * i, 2.5 * Math.Pow(20 * i, 0.75))),
        ]);
        Assert.True(own.Bends);
        Assert.InRange(own.Number(2.5 * Math.Pow(150, 0.75), OfThePicture).Value.Middle, 147, 153);
    }

    [Fact]
    public void A_double_count_is_a_point_of_the_number_behind_both()
    {
        // Chapman by hand: 41 x 44 / 36 - 1 (first survey of the alder flycatchers, 40, 43 and 35).
        var point = CalibrationPoint.OfDoubleCount(new(40, 43, 35));
        Assert.Equal((41 * 44 / 36.0) - 1, point.Known, 1e-12);
        Assert.Equal(43, point.Counted);
    }

    [Fact]
    public void A_calibrated_look_sees_its_share_of_the_calibrated_number()
    {
        var dice = new Random(5);
        var own = CountCalibration.Of([
            .. Enumerable
                .Range(1, 12)
                .Select(i => new CalibrationPoint(5 * i, 4 * i * (0.9 + (0.2 * dice.NextDouble())))),
        ]);
        var look = CalibratedLook.From(own, 32)!;
        Assert.Equal(32, look.Seen);
        Assert.InRange(look.Chance.Median, 0.75, 0.85);
        var dirty = CountCalibration.Of([
            .. Enumerable.Range(1, 12).Select(i => new CalibrationPoint(5 * i, 7.5 * i)),
        ]);
        var more = CalibratedLook.From(dirty, 60)!;
        Assert.InRange(more.Seen / more.Chance.Median, 39, 41);
        Assert.Equal(0, CalibratedLook.From(own, 0)!.Seen);
    }

    // 400 containers, each with its own share found, its own scatter from picture to picture, binomial misses, three
    // empty pictures and 8 to 20 of 2 to 60; then a picture of another number within that range. 344 to 375 are the
    // bounds of 400 draws of a chance of nine in ten.
    [Fact]
    public void Nine_of_ten_intervals_hold_the_number()
    {
        var dice = new Random(20);
        var held = 0;
        for (var container = 0; container < 400; container++)
        {
            var (share, scatter, dirt) = (
                0.6 + (0.4 * dice.NextDouble()),
                0.05 + (0.15 * dice.NextDouble()),
                2 * dice.NextDouble()
            );
            CalibrationPoint Taken(int known) =>
                new(
                    known,
                    Found(dice, known, share * Math.Exp(scatter * Normal(dice))) + Poisson(dice, dirt)
                );
            int Any() => (int)Math.Round(2 * Math.Pow(30, dice.NextDouble()));
            var points = Enumerable.Range(0, 8 + dice.Next(13)).Select(_ => Taken(Any()));
            var calibration = CountCalibration.Of([.. points, Taken(0), Taken(0), Taken(0)]);
            var next = Taken(Any());
            held += calibration.Number(next.Counted, OfThePicture).Value.Contains(next.Known) ? 1 : 0;
        }

        Assert.InRange(held, 344, 375);
    }

    private static int Found(Random dice, int known, double share) =>
        Enumerable.Range(0, known).Count(_ => dice.NextDouble() < share);

    private static int Poisson(Random dice, double mean)
    {
        var (number, left) = (0, Math.Exp(-mean));
        for (var product = dice.NextDouble(); product > left; product *= dice.NextDouble())
        {
            number++;
        }

        return number;
    }

    private static double Normal(Random dice) =>
        Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
