using Broodtide.Science.Statistics;
using MathNet.Numerics;

namespace Broodtide.Science.Tests.Estimation.Larvae;

public sealed class SobolPointsTests
{
    // The first points by the direction numbers of Joe and Kuo (2008), without the corner at zero, as the tests of
    // another program have them, which were held against randtoolbox of R; two coordinates are told there.
    private static readonly double[][] Published =
    [
        [0.5, 0.5],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.375, 0.375],
        [0.875, 0.875],
        [0.625, 0.125],
        [0.125, 0.625],
        [0.1875, 0.3125],
        [0.6875, 0.8125],
        [0.9375, 0.0625],
    ];

    [Fact]
    public void The_first_points_are_the_published_ones()
    {
        for (var i = 0; i < Published.Length; i++)
        {
            var point = Point(i + 1, Published[i].Length);
            Assert.All(point.Zip(Published[i]), pair => Assert.Equal(pair.Second, pair.First, 1e-8));
        }
    }

    [Theory]
    [InlineData(4)]
    [InlineData(7)]
    [InlineData(10)]
    public void In_every_dimension_each_of_so_many_equal_parts_holds_one_point(int power)
    {
        var parts = 1 << power;
        for (var dimension = 0; dimension < SobolPoints.MostDimensions; dimension++)
        {
            // Numbers 2^k to 2^(k+1) - 1 are a block that starts at a multiple of its length.
            var taken = new int[parts];
            for (var i = parts; i < 2 * parts; i++)
            {
                taken[(int)(Point(i, SobolPoints.MostDimensions)[dimension] * parts)]++;
            }

            Assert.All(taken, count => Assert.Equal(1, count));
        }
    }

    // A (t, m, s) net in base 2 (Niederreiter 1988): every box of volume 2^(t - m) with sides 2^-d holds 2^t points. The
    // quality t of Sobol points is the sum of the degrees of their polynomials less one each (the first dimension, 0).
    [Theory]
    [InlineData(2, 0)]
    [InlineData(3, 1)]
    [InlineData(4, 3)]
    [InlineData(5, 5)]
    public void Boxes_of_the_first_dimensions_hold_their_number_of_points(int dimensions, int quality)
    {
        const int power = 9;
        var points = Enumerable.Range(1 << power, 1 << power).Select(i => Point(i, dimensions)).ToArray();
        foreach (var sides in Sides(dimensions, power - quality))
        {
            var boxes = points
                .GroupBy(point =>
                    point.Zip(sides, (x, side) => (long)(x * (1 << side))).Aggregate((a, b) => (a << 10) + b)
                )
                .ToArray();
            Assert.Equal(1 << (power - quality), boxes.Length);
            Assert.All(boxes, box => Assert.Equal(1 << quality, box.Count()));
        }
    }

    [Fact]
    public void Normal_points_have_the_quantiles_of_the_even_ones()
    {
        var normal = new double[3];
        SobolPoints.Normal(2, normal);

        // 0.75 and 0.25 points of the standard normal distribution (tables: 0.67449).
        Assert.Equal(0.67449, normal[0], 1e-5);
        Assert.Equal(-0.67449, normal[1], 1e-5);
    }

    [Fact]
    public void The_corner_and_a_seventeenth_dimension_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SobolPoints.Even(0, new double[2]));
        Assert.Throws<ArgumentException>(() => SobolPoints.Even(1, new double[17]));
        Assert.Throws<ArgumentOutOfRangeException>(() => SobolPoints.Normal(0, new double[2]));
        Assert.Throws<ArgumentException>(() => SobolPoints.Normal(1, new double[17]));
    }

    // The first thousand are kept once they were asked, whoever asked first and for how many coordinates.
    [Theory]
    [InlineData(1)]
    [InlineData(777)]
    [InlineData(1024)]
    [InlineData(1025)]
    public void A_normal_point_is_the_same_however_often_and_for_how_many_coordinates_it_is_asked(int index)
    {
        foreach (var dimensions in new[] { 3, 16, 1, 16, 0, 5 })
        {
            var normal = new double[dimensions];
            SobolPoints.Normal(index, normal);
            Assert.Equal(
                Point(index, dimensions)
                    .Select(even => -Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * even)),
                normal
            );
        }
    }

    private static double[] Point(int index, int dimensions)
    {
        var point = new double[dimensions];
        SobolPoints.Even(index, point);
        return point;
    }

    // All ways to cut the dimensions in halves so often in all.
    private static IEnumerable<int[]> Sides(int dimensions, int halvings) =>
        dimensions == 1
            ?
            [
                [halvings],
            ]
            : Enumerable
                .Range(0, halvings + 1)
                .SelectMany(first =>
                    Sides(dimensions - 1, halvings - first).Select(rest => (int[])[first, .. rest])
                );
}
