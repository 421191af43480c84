using Broodtide.Science.Imaging;
using OpenCvSharp;

namespace Broodtide.Looking.Tests;

/// <summary>Kernels over neighbours against OpenCV 4.13; each test names the call that stands beside ours.</summary>
public sealed class NeighbourhoodTests
{
    // Floats of 0 to 255 keep seven digits; the order of sums differs.
    private const double Rounding = 2e-3;

    public static TheoryData<int, int, int> Shapes =>
        new()
        {
            { 1, 97, 61 },
            { 2, 64, 128 },
            { 3, 33, 7 },
        };

    /// <summary>cvtColor RGBA to GRAY, which weighs as ITU-R BT.601 in fixed point: one step of rounding.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void Grey(int seed, int across, int down)
    {
        var (colours, shape) = Colours(seed, across, down);
        var ours = new float[shape.Count];
        Channels.Grey(colours, ours);
        using var theirs = new Mat();
        Cv2.CvtColor(Peer.OfColours(colours, shape), theirs, ColorConversionCodes.RGBA2GRAY);
        Peer.Agree(Peer.Floats(theirs), ours, 1);
        Assert.InRange(Peer.Floats(theirs).Zip(ours, (a, b) => a.Equals(b) ? 0.0 : 1.0).Average(), 0, 0.01);
    }

    /// <summary>min over the split channels: exact.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void The_smallest_channel(int seed, int across, int down)
    {
        var (colours, shape) = Colours(seed, across, down);
        var ours = new float[shape.Count];
        Channels.Smallest(colours, ours);
        var parts = Cv2.Split(Peer.OfColours(colours, shape));
        using var theirs = new Mat();
        Cv2.Min(parts[0], parts[1], theirs);
        Cv2.Min(theirs, parts[2], theirs);
        Peer.Agree(Peer.Floats(theirs), ours, 0);
    }

    /// <summary>boxFilter of the picture over boxFilter of ones, zeros beyond the edge.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_mean_over_a_square(int seed, int across, int down)
    {
        var texture = Textured(seed, across, down);
        foreach (var radius in (int[])[0, 1, 4, 11])
        {
            var ours = new float[texture.Shape.Count];
            Blur.Box(texture.Grid(), texture.Shape, radius, ours);
            using var theirs = BoxMean(Peer.Of(texture.Grid(), texture.Shape), radius);
            Peer.Agree(Peer.Floats(theirs), ours, Rounding);
        }
    }

    /// <summary>GaussianBlur with the same number of weights, BORDER_REFLECT.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_Gaussian_blur(int seed, int across, int down)
    {
        var texture = Textured(seed, across, down);
        foreach (var sigma in (double[])[0.5, 1, 1.7])
        {
            var ours = new float[texture.Shape.Count];
            Blur.Gaussian(texture.Grid(), texture.Shape, sigma, ours);
            using var theirs = Gaussian(Peer.Of(texture.Grid(), texture.Shape), sigma);
            Peer.Agree(Peer.Floats(theirs), ours, Rounding);
        }
    }

    /// <summary>erode, dilate, MORPH_OPEN and MORPH_TOPHAT with a rectangle: exact, but for the difference of a top-hat.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void Morphology_with_a_square(int seed, int across, int down)
    {
        var texture = Textured(seed, across, down);
        var (grid, shape) = (texture.Grid(), texture.Shape);
        var ours = new float[shape.Count];
        using var theirs = new Mat();
        foreach (var radius in (int[])[1, 3, 8])
        {
            using var square = Cv2.GetStructuringElement(
                MorphShapes.Rect,
                new(2 * radius + 1, 2 * radius + 1)
            );
            Morphology.Erosion(grid, shape, radius, ours);
            Cv2.Erode(Peer.Of(grid, shape), theirs, square);
            Peer.Agree(Peer.Floats(theirs), ours, 0);
            Morphology.Dilation(grid, shape, radius, ours);
            Cv2.Dilate(Peer.Of(grid, shape), theirs, square);
            Peer.Agree(Peer.Floats(theirs), ours, 0);
            Morphology.Opening(grid, shape, radius, ours);
            Cv2.MorphologyEx(Peer.Of(grid, shape), theirs, MorphTypes.Open, square);
            Peer.Agree(Peer.Floats(theirs), ours, 0);
            Morphology.TopHat(grid, shape, radius, ours);
            Cv2.MorphologyEx(Peer.Of(grid, shape), theirs, MorphTypes.TopHat, square);
            Peer.Agree(Peer.Floats(theirs), ours, 1e-4);
        }
    }

    /// <summary>
    /// GaussianBlur and then the differences of second order of Laplacian (aperture 1): as the spread grows the two ways
    /// to bend come together; at 4 pixels they differ by less than 2 % of the largest answer.
    /// </summary>
    [Fact]
    public void The_Laplacian_of_a_Gaussian()
    {
        var texture = Textured(4, 120, 90);
        const double Sigma = 4;
        var ours = new float[texture.Shape.Count];
        Blobs.LaplacianOfGaussian(texture.Grid(), texture.Shape, Sigma, ours);
        using var theirs = Gaussian(Peer.Of(texture.Grid(), texture.Shape), Sigma);
        Cv2.Laplacian(theirs, theirs, MatType.CV_32F, 1, -Sigma * Sigma, 0, BorderTypes.Reflect);
        var expected = Peer.Floats(theirs);
        Peer.Agree(expected, ours, 0.02 * expected.Max(Math.Abs));
    }

    /// <summary>boxFilter of squares about the mean: the variance; filter2D and boxFilter: the modified Laplacian.</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void Measures_of_sharpness(int seed, int across, int down)
    {
        var texture = Textured(seed, across, down);
        var (grid, shape) = (texture.Grid(), texture.Shape);
        using var picture = Peer.Of(grid, shape);
        using var exact = new Mat();
        picture.ConvertTo(exact, MatType.CV_64FC1);
        foreach (var radius in (int[])[1, 3, 7])
        {
            var ours = new float[shape.Count];
            Focus.LocalVariance(grid, shape, radius, ours);
            using var mean = BoxMean(exact, radius);
            using Mat squares = BoxMean(exact.Mul(exact), radius);
            using Mat variance = squares - mean.Mul(mean);
            Peer.Agree(Peer.Floats(variance), ours, 0.05);

            Focus.ModifiedLaplacian(grid, shape, radius, ours);
            using var bent = Mat.FromArray(
                new float[,]
                {
                    { -1, 2, -1 },
                }
            );
            using var across1 = new Mat();
            using var down1 = new Mat();
            Cv2.Filter2D(picture, across1, MatType.CV_32F, bent, borderType: BorderTypes.Reflect);
            Cv2.Filter2D(picture, down1, MatType.CV_32F, bent.T(), borderType: BorderTypes.Reflect);
            using Mat both = Cv2.Abs(across1) + Cv2.Abs(down1);
            using var theirs = BoxMean(both, radius);
            Peer.Agree(Peer.Floats(theirs), ours, Rounding);
        }
    }

    /// <summary>pyrDown with BORDER_REFLECT, pyrUp away from the edge (it knows one border only).</summary>
    [Theory]
    [MemberData(nameof(Shapes))]
    public void Pyramids(int seed, int across, int down)
    {
        var texture = Textured(seed, across, down);
        var (shape, half) = (texture.Shape, texture.Shape.Halved());
        var smaller = new float[half.Count];
        Pyramid.Reduce(texture.Grid(), shape, smaller);
        using var theirs = new Mat();
        Cv2.PyrDown(Peer.Of(texture.Grid(), shape), theirs, borderType: BorderTypes.Reflect);
        Peer.Agree(Peer.Floats(theirs), smaller, Rounding);

        var larger = new float[shape.Count];
        Pyramid.Expand(smaller, shape, larger);
        using var again = new Mat();
        Cv2.PyrUp(Peer.Of(smaller, half), again, new Size(shape.Across, shape.Down));
        Peer.Agree(
            Peer.Floats(again),
            larger,
            Rounding,
            i =>
                i % shape.Across is var x
                && x > 2
                && x < shape.Across - 3
                && i / shape.Across is var y
                && y > 2
                && y < shape.Down - 3
        );
    }

    /// <summary>sort of each pixel's column of frames: exact for an odd number of frames.</summary>
    [Fact]
    public void A_median_over_frames()
    {
        Peer.Needed();
        foreach (var count in (int[])[1, 3, 5, 9])
        {
            var frames = Enumerable.Range(0, count).Select(i => new Texture(i, new(53, 19)).Grid()).ToList();
            var ours = new float[frames[0].Length];
            FrameMedian.Of(frames, ours);
            using var rows = Peer.Of([.. frames.SelectMany(frame => frame)], new(frames[0].Length, count));
            using var sorted = new Mat();
            Cv2.Sort(rows, sorted, SortFlags.EveryColumn | SortFlags.Ascending);
            Peer.Agree(Peer.Floats(sorted)[(count / 2 * ours.Length)..][..ours.Length], ours, 0);
        }
    }

    private static Texture Textured(int seed, int across, int down)
    {
        Peer.Needed();
        return new(seed, new(across, down));
    }

    private static (byte[] Colours, GridShape Shape) Colours(int seed, int across, int down)
    {
        Peer.Needed();
        var colours = new byte[4 * across * down];
        new Random(seed).NextBytes(colours);
        return (colours, new(across, down));
    }

    private static Mat Gaussian(Mat picture, double sigma)
    {
        var side = (2 * (int)Math.Ceiling(4 * sigma)) + 1;
        var blurred = new Mat();
        Cv2.GaussianBlur(picture, blurred, new(side, side), sigma, sigma, BorderTypes.Reflect);
        return blurred;
    }

    private static Mat BoxMean(Mat picture, int radius)
    {
        var side = new Size(2 * radius + 1, 2 * radius + 1);
        using var ones = new Mat(picture.Size(), picture.Type(), Scalar.All(1));
        var sum = new Mat();
        using var area = new Mat();
        Cv2.BoxFilter(picture, sum, MatType.CV_64F, side, normalize: false, borderType: BorderTypes.Constant);
        Cv2.BoxFilter(ones, area, MatType.CV_64F, side, normalize: false, borderType: BorderTypes.Constant);
        Cv2.Divide(sum, area, sum);
        return sum;
    }
}
