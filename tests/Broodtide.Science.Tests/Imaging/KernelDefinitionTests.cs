using Broodtide.Science.Imaging;
using CsCheck;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>Kernels on pictures made by hand, against what their published definitions give.</summary>
public sealed class KernelDefinitionTests
{
    // ITU-R BT.601-7, section 2.5.1.
    [Theory]
    [InlineData(255, 255, 255, 255)]
    [InlineData(255, 0, 0, 76)]
    [InlineData(0, 255, 0, 150)]
    [InlineData(0, 0, 255, 29)]
    public void Grey_weighs_the_colours_as_published(byte red, byte green, byte blue, float grey)
    {
        var found = new float[1];
        Channels.Grey([red, green, blue, 7], found);
        Assert.Equal(grey, found[0]);
    }

    // Lindeberg 1998: the normalised Laplacian of a disc of radius r is extreme at sigma = r / root 2, where it is
    // (r^2 / sigma^2) exp(-r^2 / 2 sigma^2) = 2/e of the height of the disc.
    [Fact]
    public void A_disc_answers_most_at_the_scale_of_its_radius_and_as_high_as_published()
    {
        const int radius = 14;
        var shape = new GridShape(121, 121);
        var disc = Plain.Each(shape, (x, y) => Hits(x, y, radius));
        var answers = new[] { 7.0, 8.5, 9.9, 11.5, 13.0 }
            .Select(sigma =>
            {
                var found = new float[shape.Count];
                Blobs.LaplacianOfGaussian(disc, shape, sigma, found);
                return found[(60 * 121) + 60];
            })
            .ToList();
        Assert.Equal(2, answers.IndexOf(answers.Max()));
        Assert.Equal(100 * 2 / Math.E, answers[2], 0.5);
        return;

        // The share of the pixel that the disc covers, on 5 by 5 points.
        static double Hits(int x, int y, int radius)
        {
            var hits = 0;
            for (var i = 0; i < 25; i++)
            {
                var (u, v) = (x - 60 + (((i % 5) - 2) / 5.0), y - 60 + (((i / 5) - 2) / 5.0));
                hits += (u * u) + (v * v) <= radius * radius ? 1 : 0;
            }

            return 4.0 * hits;
        }
    }

    [Fact]
    public void A_slope_is_no_blob()
    {
        var shape = new GridShape(60, 60);
        var found = new float[shape.Count];
        Blobs.LaplacianOfGaussian(Plain.Each(shape, (x, y) => (2 * x) - y), shape, 3, found);
        Assert.Equal(0, found[(30 * 60) + 30], 0.001);
    }

    // Otsu 1979: two heaps of equal size at 10 and 90 are parted between them.
    [Fact]
    public void Two_heaps_are_parted_between_them()
    {
        var level = Levels.Otsu([10, 10, 11, 9, 90, 91, 89, 90]);
        Assert.InRange(level, 11, 89);
        Assert.Equal(5, Levels.Otsu([5, 5, 5]));
    }

    [Fact]
    public void Noise_is_measured_beside_slopes_and_edges()
    {
        var shape = new GridShape(200, 200);
        var dice = new Random(4711);
        var grid = Plain.Each(shape, (x, y) => x + (y > 100 ? 50 : 0) + (5 * Normal(dice)));
        Assert.Equal(5, Levels.Noise(grid, shape), 0.25);
    }

    [Fact]
    public void Of_two_hills_both_stand_until_the_height_asked_is_that_of_the_lower_one()
    {
        var shape = new GridShape(9, 1);
        float[] hills = [0, 4, 9, 4, 3, 4, 7, 4, 0];
        Assert.Equal([2, 6], Maxima.Standing(hills, shape, 3.9));
        Assert.Equal([2], Maxima.Standing(hills, shape, 4));
    }

    [Fact]
    public void Touching_hills_are_parted_at_the_pass()
    {
        var shape = new GridShape(9, 1);
        float[] hills = [0, 4, 9, 4, 3, 4, 7, 4, 0];
        var labels = new int[9];
        (labels[2], labels[6]) = (1, 2);
        Watershed.Grow(hills, shape, [0, 1, 1, 1, 1, 1, 1, 1, 0], labels);
        Assert.Equal([0, 1, 1, 1], labels[..4]);
        Assert.Equal([2, 2, 2, 0], labels[5..]);
        Assert.InRange(labels[4], 1, 2);
    }

    [Fact]
    public void Everything_within_reach_of_a_marker_gets_its_label_and_nothing_else() =>
        Pictures.Marks.Sample(picture =>
        {
            var labels = new int[picture.Shape.Count];
            labels[0] = 1;
            Watershed.Grow(new float[picture.Shape.Count], picture.Shape, picture.Marked, labels);
            Assert.All(
                labels.Skip(1).Zip(picture.Marked.Skip(1)),
                pair => Assert.True(pair.First == 0 || pair.Second != 0)
            );
        });

    // A square of side n has the variance (n^2 - 1)/12 of pixel centres, and 1/12 more for the pixels themselves.
    [Fact]
    public void A_thing_is_measured_by_the_moments_of_its_pixels()
    {
        var shape = new GridShape(20, 10);
        var marked = new byte[shape.Count];
        for (var x = 4; x < 16; x++)
        {
            for (var y = 2; y < 5; y++)
            {
                marked[(y * 20) + x] = 1;
            }
        }

        var labels = new int[shape.Count];
        var thing = Assert.Single(Components.Measure(labels, shape, Components.Label(marked, shape, labels)));
        Assert.Equal(36, thing.Area);
        Assert.Equal(9.5, thing.CentreX, 1e-9);
        Assert.Equal(3, thing.CentreY, 1e-9);
        Assert.Equal(12 / Math.Sqrt(12), thing.LongSigma, 1e-9);
        Assert.Equal(3 / Math.Sqrt(12), thing.ShortSigma, 1e-9);
        Assert.False(thing.TouchesEdge);
    }

    [Theory]
    [InlineData(3, -5)]
    [InlineData(-7.3, 4.6)]
    [InlineData(0.4, 0.2)]
    public void A_planted_shift_is_found_to_a_tenth_of_a_pixel(double right, double down)
    {
        var shape = new GridShape(150, 131);
        var dice = new Random(99);
        var spots = Enumerable
            .Range(0, 120)
            .Select(_ =>
                (
                    X: dice.NextDouble() * 150,
                    Y: dice.NextDouble() * 131,
                    Bright: 20 + (dice.NextDouble() * 80)
                )
            )
            .ToList();
        float[] Seen(double dx, double dy) =>
            Plain.Each(
                shape,
                (x, y) =>
                    spots.Sum(spot =>
                        spot.Bright
                        * Math.Exp(
                            -(Math.Pow(x - dx - spot.X, 2) + Math.Pow(y - dy - spot.Y, 2)) / (2 * 1.5 * 1.5)
                        )
                    )
            );
        var found = PhaseCorrelation.Between(Seen(0, 0), Seen(right, down), shape);
        Assert.Equal(right, found.X, 0.1);
        Assert.Equal(down, found.Y, 0.1);
        Assert.InRange(found.Agreement, 0.2, 1);
    }

    [Fact]
    public void Two_pictures_of_nothing_in_common_hardly_agree()
    {
        var shape = new GridShape(128, 128);
        var dice = new Random(5);
        var one = Plain.Each(shape, (_, _) => dice.NextDouble());
        var other = Plain.Each(shape, (_, _) => dice.NextDouble());
        Assert.InRange(PhaseCorrelation.Between(one, other, shape).Agreement, 0, 0.1);
    }

    // Burt and Adelson 1983: both ways keep a flat picture flat.
    [Fact]
    public void A_flat_picture_stays_flat_down_and_up_a_pyramid() =>
        Pictures.Shapes.Sample(shape =>
        {
            var small = new float[shape.Halved().Count];
            Pyramid.Reduce(Plain.Each(shape, (_, _) => 42), shape, small);
            Assert.All(small, value => Assert.Equal(42, value, 1e-4));
            var large = new float[shape.Count];
            Pyramid.Expand(small, shape, large);
            Assert.All(large, value => Assert.Equal(42, value, 1e-4));
        });

    [Fact]
    public void A_slope_comes_back_from_half_the_size()
    {
        var shape = new GridShape(33, 20);
        var slope = Plain.Each(shape, (x, y) => (3 * x) + y);
        var (small, large) = (new float[shape.Halved().Count], new float[shape.Count]);
        Pyramid.Reduce(slope, shape, small);
        Pyramid.Expand(small, shape, large);
        Assert.Equal(slope[(10 * 33) + 16], large[(10 * 33) + 16], 1e-3);
        Assert.Equal(slope[(9 * 33) + 15], large[(9 * 33) + 15], 1e-3);
    }

    // Nayar and Nakagawa 1994: |2 I - left - right| + |2 I - above - below| of a single bright pixel is 4 times its
    // height there and once its height on each of its four neighbours.
    [Fact]
    public void The_modified_Laplacian_of_one_bright_pixel_is_as_defined()
    {
        var shape = new GridShape(9, 9);
        var found = new float[shape.Count];
        Focus.ModifiedLaplacian(Plain.Each(shape, (x, y) => x == 4 && y == 4 ? 90 : 0), shape, 1, found);
        Assert.Equal(90 * (4 + 4) / 9f, found[(4 * 9) + 4], 1e-3);
    }

    [Fact]
    public void A_blurred_picture_is_less_sharp_by_both_measures()
    {
        var shape = new GridShape(40, 40);
        var dice = new Random(8);
        var sharp = Plain.Each(shape, (_, _) => dice.NextDouble() * 200);
        var (soft, of, than) = (new float[shape.Count], new float[shape.Count], new float[shape.Count]);
        Blur.Gaussian(sharp, shape, 1.2, soft);
        Focus.LocalVariance(soft, shape, 4, of);
        Focus.LocalVariance(sharp, shape, 4, than);
        Assert.All(of.Zip(than), pair => Assert.True(pair.First < pair.Second));
        Focus.ModifiedLaplacian(soft, shape, 4, of);
        Focus.ModifiedLaplacian(sharp, shape, 4, than);
        Assert.All(of.Zip(than), pair => Assert.True(pair.First < pair.Second));
    }

    [Fact]
    public void A_grid_of_another_shape_is_the_mistake_of_a_programmer()
    {
        var shape = new GridShape(4, 3);
        Assert.Throws<ArgumentException>(() => Blur.Box(new float[11], shape, 1, new float[12]));
        Assert.Throws<ArgumentException>(() => Distance.Transform(new byte[12], shape, new float[13]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Blur.Gaussian(new float[12], shape, double.NaN, new float[12])
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => new GridShape(0, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => new GridShape(30_000, 30_000));
    }

    private static double Normal(Random dice) =>
        Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble())) * Math.Cos(2 * Math.PI * dice.NextDouble());
}
