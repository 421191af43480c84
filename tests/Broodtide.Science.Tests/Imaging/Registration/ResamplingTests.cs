using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Registration;
using CsCheck;

namespace Broodtide.Science.Tests.Imaging.Registration;

/// <summary>A picture seen through a map is what the plain loop says, on every shape and through every map.</summary>
public sealed class ResamplingTests
{
    private static readonly Gen<AffineMap> Maps = Gen.Frequency(
        (3, Gen.Select(Gen.Double[-0.03, 0.03].Array[4], Gen.Double[-5, 5].Array[2], Near)),
        (1, Gen.Select(Gen.Double[-2, 2].Array[4], Gen.Double[-40, 40].Array[2], Near))
    );

    // The fraction between pixels is carried as a float of seven digits; values go to 255.
    private const double Rounding = 0.01;

    [Fact]
    public void Straight_lines_between_pixels_are_those_of_the_plain_loop() =>
        Check(Resampling.Bilinear, (grid, shape, x, y) => Lines(grid, shape, x, y));

    [Fact]
    public void Cubics_between_pixels_are_those_of_the_plain_loop() =>
        Check(Resampling.Cubic, (grid, shape, x, y) => Cubics(grid, shape, x, y));

    [Fact]
    public void Through_no_map_at_all_a_picture_is_itself() =>
        Pictures.Any.Sample(picture =>
        {
            var found = new float[picture.Grid.Length];
            Resampling.Cubic(picture.Grid, picture.Shape, AffineMap.Identity, picture.Shape, found);
            Pictures.Agree(picture.Grid, found, 1e-3);
        });

    [Fact]
    public void Cubics_are_exact_for_a_parabola()
    {
        var shape = new GridShape(40, 30);
        var grid = Grid(shape, (x, y) => (0.1 * x * x) - (0.05 * y * y) + (0.02 * x * y) + 7);
        var map = new AffineMap(0.97, 0.01, 2.3, -0.02, 1.04, 1.7);
        var inner = new GridShape(30, 24);
        var found = new float[inner.Count];
        Resampling.Cubic(grid, shape, map, inner, found);
        Pictures.Agree(
            Grid(
                inner,
                (x, y) =>
                {
                    var (u, v) = map.At(x, y);
                    return (0.1 * u * u) - (0.05 * v * v) + (0.02 * u * v) + 7;
                }
            ),
            found,
            Rounding
        );
    }

    [Fact]
    public void A_map_and_its_way_back_leave_every_place()
    {
        Maps.Where(map => map.Scale > 0.3)
            .Sample(map =>
            {
                var (x, y) = map.Back().After(map).At(12, -7);
                Assert.Equal(12, x, 1e-6);
                Assert.Equal(-7, y, 1e-6);
            });
        Assert.Throws<InvalidOperationException>(() => default(AffineMap).Back());
    }

    [Fact]
    public void A_similarity_is_told_by_its_scale_and_turn()
    {
        var map = AffineMap.Similarity((100, 50), 1.02, 3, (4, -2));
        Assert.Equal(1.02, map.Scale, 1e-12);
        Assert.Equal(3, map.TurnedDegrees, 1e-12);
        Assert.Equal(104, map.At(100, 50).X, 1e-9);
        Assert.Equal(48, map.At(100, 50).Y, 1e-9);
    }

    private static void Check(Kernel kernel, Func<float[], GridShape, double, double, double> plain) =>
        Gen.Select(Pictures.Any, Maps, Pictures.Shapes)
            .Sample(
                (picture, map, shape) =>
                {
                    var found = new float[shape.Count];
                    kernel(picture.Grid, picture.Shape, map, shape, found);
                    var expected = Grid(
                        shape,
                        (x, y) =>
                        {
                            var (u, v) = map.At(x, y);
                            return plain(picture.Grid, picture.Shape, u, v);
                        }
                    );
                    Pictures.Agree(expected, found, Rounding);
                },
                iter: 400
            );

    private static double Lines(float[] grid, GridShape shape, double x, double y)
    {
        var sum = 0.0;
        for (var v = (int)Math.Floor(y); v <= Math.Floor(y) + 1; v++)
        {
            for (var u = (int)Math.Floor(x); u <= Math.Floor(x) + 1; u++)
            {
                sum += At(grid, shape, u, v) * (1 - Math.Abs(x - u)) * (1 - Math.Abs(y - v));
            }
        }

        return sum;
    }

    private static double Cubics(float[] grid, GridShape shape, double x, double y)
    {
        var sum = 0.0;
        for (var v = (int)Math.Floor(y) - 1; v <= Math.Floor(y) + 2; v++)
        {
            for (var u = (int)Math.Floor(x) - 1; u <= Math.Floor(x) + 2; u++)
            {
                sum += At(grid, shape, u, v) * Keys(x - u) * Keys(y - v);
            }
        }

        return sum;
    }

    // Keys 1981, equation 4, with a = -1/2.
    private static double Keys(double distance)
    {
        var s = Math.Abs(distance);
        return s <= 1 ? (1.5 * s * s * s) - (2.5 * s * s) + 1
            : s < 2 ? (-0.5 * s * s * s) + (2.5 * s * s) - (4 * s) + 2
            : 0;
    }

    private static float At(float[] grid, GridShape shape, int x, int y) =>
        grid[(Math.Clamp(y, 0, shape.Down - 1) * shape.Across) + Math.Clamp(x, 0, shape.Across - 1)];

    private static float[] Grid(GridShape shape, Func<int, int, double> value) =>
        [.. Enumerable.Range(0, shape.Count).Select(i => (float)value(i % shape.Across, i / shape.Across))];

    private static AffineMap Near(double[] off, double[] shift) =>
        new(1 + off[0], off[1], shift[0], off[2], 1 + off[3], shift[1]);

    private delegate void Kernel(
        ReadOnlySpan<float> source,
        GridShape shape,
        AffineMap map,
        GridShape targetShape,
        Span<float> target
    );
}
