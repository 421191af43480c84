using Broodtide.Science.Imaging;
using OpenCvSharp;

namespace Broodtide.Looking.Tests;

/// <summary>What is found in a whole picture against OpenCV 4.13; each test names the call that stands beside ours.</summary>
public sealed class WholePictureTests
{
    private static readonly GridShape Shape = new(160, 120);

    /// <summary>threshold with THRESH_OTSU on bytes: the same pixels are bright but for those within two steps of the level.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Otsus_level(int seed)
    {
        Peer.Needed();
        var bytes = new Texture(seed, Shape).Bytes();
        var ours = Levels.Otsu(Array.ConvertAll(bytes, value => (float)value));
        using var parted = new Mat();
        var theirs = Cv2.Threshold(Peer.Of(bytes, Shape), parted, 0, 255, ThresholdTypes.Otsu);
        Assert.InRange(ours, theirs - 2, theirs + 2);
    }

    /// <summary>meanStdDev of the whole picture is ours at the middle of a square that covers it.</summary>
    [Fact]
    public void The_local_mean_and_deviation()
    {
        Peer.Needed();
        var grid = new Texture(5, new(41, 41)).Grid();
        var (mean, deviation) = (new float[grid.Length], new float[grid.Length]);
        Levels.Local(grid, new(41, 41), 20, mean, deviation);
        Cv2.MeanStdDev(Peer.Of(grid, new(41, 41)), out var theirMean, out var theirDeviation);
        Assert.Equal(theirMean.Val0, mean[grid.Length / 2], 1e-3);
        Assert.Equal(theirDeviation.Val0, deviation[grid.Length / 2], 1e-3);
    }

    /// <summary>connectedComponentsWithStats, eight neighbours: the same things, areas, middles; moments: the same long axis.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Things_and_their_measures(int seed)
    {
        Peer.Needed();
        var marked = new Texture(seed, Shape, 90).Marked();
        var labels = new int[marked.Length];
        var count = Components.Label(marked, Shape, labels);
        var found = Components.Measure(labels, Shape, count);
        var theirs = Cv2.ConnectedComponentsEx(Peer.Of(marked, Shape));
        Assert.Equal(theirs.LabelCount - 1, count);
        Assert.True(count > 20);
        foreach (var blob in theirs.Blobs.Skip(1))
        {
            var ours = found[labels[First(theirs, blob.Label)] - 1];
            Assert.Equal(blob.Area, ours.Area);
            Assert.Equal(blob.Centroid.X, ours.CentreX, 1e-6);
            Assert.Equal(blob.Centroid.Y, ours.CentreY, 1e-6);
            Assert.Equal(LongSigma(labels, labels[First(theirs, blob.Label)]), ours.LongSigma, 1e-6);
        }
    }

    /// <summary>distanceTransform, DIST_L2 with the precise mask.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Distances(int seed)
    {
        Peer.Needed();
        var marked = new Texture(seed, Shape, 90).Marked();
        var ours = new float[marked.Length];
        Distance.Transform(marked, Shape, ours);
        using var theirs = new Mat();
        Cv2.DistanceTransform(
            Peer.Of(marked, Shape),
            theirs,
            DistanceTypes.L2,
            DistanceTransformMasks.Precise
        );
        Peer.Agree(Peer.Floats(theirs), ours, 1e-3);
    }

    /// <summary>
    /// dilate and min until nothing changes: the reconstruction of the picture less h, whose flat tops are the h-maxima.
    /// </summary>
    [Theory]
    [InlineData(1, 3)]
    [InlineData(2, 10)]
    [InlineData(3, 25)]
    public void Tops_that_stand_out(int seed, int height)
    {
        Peer.Needed();
        var grid = Array.ConvertAll(new Texture(seed, Shape).Bytes(), value => (float)value);
        var ours = Maxima.Standing(grid, Shape, height);

        using var lowered = Reconstructed(grid, height);
        using var again = Reconstructed(Peer.Floats(lowered), 1);
        // The tops of the reconstruction are those that lowering by a step and growing again does not reach.
        using Mat tops = lowered - again;
        using var marked = new Mat();
        Cv2.Threshold(tops, marked, 0.5, 1, ThresholdTypes.Binary);
        marked.ConvertTo(marked, MatType.CV_8UC1);
        Assert.Equal(Cv2.ConnectedComponentsEx(marked).LabelCount - 1, ours.Count);
        Assert.True(ours.Count > 5);
    }

    /// <summary>
    /// watershed from the same markers. Its order goes by the difference between neighbours, ours by height, so the
    /// picture is one where both mean the same: bright fields with dark hedges. Away from the hedges 999 of
    /// 1,000 pixels agree (the tip of a field can be cut off between two neighbours).
    /// </summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_watershed_from_markers(int seed)
    {
        Peer.Needed();
        var random = new Random(seed);
        var middles = Enumerable
            .Range(0, 25)
            .Select(i =>
                (X: 16 + (32 * (i % 5)) + random.Next(-9, 9), Y: 12 + (24 * (i / 5)) + random.Next(-7, 7))
            )
            .ToList();
        var (height, markers) = (new float[Shape.Count], new int[Shape.Count]);
        for (var i = 0; i < height.Length; i++)
        {
            var far = middles
                .Select(m =>
                    Math.Sqrt(Math.Pow((i % Shape.Across) - m.X, 2) + Math.Pow((i / Shape.Across) - m.Y, 2))
                )
                .Order()
                .ToList();
            height[i] = far[1] - far[0] < 3 ? 50 : 200;
        }

        foreach (var (middle, index) in middles.Select((m, i) => (m, i)))
        {
            markers[(middle.Y * Shape.Across) + middle.X] = index + 1;
        }

        var theirs = Their(height, markers);
        Watershed.Grow(height, Shape, [.. Enumerable.Repeat((byte)1, Shape.Count)], markers);
        var asked = Enumerable.Range(0, Shape.Count).Where(i => height[i] > 100 && theirs[i] > 0).ToList();
        Assert.True(asked.Count > Shape.Count / 2);
        Assert.InRange(asked.Count(i => theirs[i] != markers[i]), 0, asked.Count / 1_000);
    }

    /// <summary>
    /// phaseCorrelate finds the same shift to a third of a pixel (its peak is the mean of 5 by 5 places, drawn towards
    /// whole pixels); the true one, which is known here, is met to a twentieth.
    /// </summary>
    [Theory]
    [InlineData(1, 3, -2)]
    [InlineData(2, -7.4, 5.3)]
    [InlineData(3, 0.5, 0.25)]
    public void A_shift(int seed, double right, double down)
    {
        Peer.Needed();
        var texture = new Texture(seed, new(128, 128), 60);
        var (first, second) = (texture.Grid(noise: 0), texture.Grid(right, down, noise: 0));
        var ours = PhaseCorrelation.Between(first, second, texture.Shape);
        using var window = new Mat();
        Cv2.CreateHanningWindow(window, new Size(128, 128), MatType.CV_32F);
        var theirs = Cv2.PhaseCorrelate(
            Peer.Of(first, texture.Shape),
            Peer.Of(second, texture.Shape),
            window,
            out _
        );
        Assert.Equal(theirs.X, ours.X, 0.34);
        Assert.Equal(theirs.Y, ours.Y, 0.34);
        Assert.Equal(right, ours.X, 0.05);
        Assert.Equal(down, ours.Y, 0.05);
    }

    private static int First(ConnectedComponents things, int label) =>
        Enumerable
            .Range(0, Shape.Count)
            .First(i => things.Labels[i / Shape.Across, i % Shape.Across] == label);

    // From the central moments: the larger eigenvalue of the matrix of second moments, and 1/12 for a pixel is a square
    // and no point.
    private static double LongSigma(int[] labels, int label)
    {
        var moments = Cv2.Moments(
            Peer.Of(Array.ConvertAll(labels, l => (byte)(l == label ? 1 : 0)), Shape),
            binaryImage: true
        );
        var (xx, yy, xy) = (
            moments.Mu20 / moments.M00,
            moments.Mu02 / moments.M00,
            moments.Mu11 / moments.M00
        );
        return Math.Sqrt(((xx + yy) / 2) + Math.Sqrt(Math.Pow((xx - yy) / 2, 2) + (xy * xy)) + (1 / 12.0));
    }

    /// <summary>dft of complex values, forward and backward without a factor: six digits of the largest value.</summary>
    [Theory]
    [InlineData(8, 8)]
    [InlineData(16, 128)]
    [InlineData(256, 32)]
    [InlineData(512, 256)]
    public void A_Fourier_transform(int across, int down)
    {
        Peer.Needed();
        var shape = new GridShape(across, down);
        var (real, imaginary) = (new Texture(1, shape).Grid(), new Texture(2, shape).Grid());
        using var both = new Mat();
        Cv2.Merge([Peer.Of(real, shape), Peer.Of(imaginary, shape)], both);
        foreach (var isBackward in (bool[])[false, true])
        {
            Fourier.Plane(real, imaginary, shape, isBackward);
            Cv2.Dft(both, both, isBackward ? DftFlags.Inverse : DftFlags.None);
            var parts = Cv2.Split(both);
            var most = real.Max(Math.Abs);
            Peer.Agree(Peer.Floats(parts[0]), real, 1e-6 * most);
            Peer.Agree(Peer.Floats(parts[1]), imaginary, 1e-6 * most);
        }
    }

    /// <summary>sort of all values: the value of a rank, of a grid so large that ours counts instead of sorting.</summary>
    [Fact]
    public void A_quantile()
    {
        Peer.Needed();
        var shape = new GridShape(300, 200);
        var grid = Array.ConvertAll(new Texture(6, shape).Grid(), value => value - 70);
        using var sorted = new Mat();
        using var row = Peer.Of(grid, shape).Reshape(1, 1);
        Cv2.Sort(row, sorted, SortFlags.EveryRow | SortFlags.Ascending);
        var theirs = Peer.Floats(sorted);
        foreach (var share in (double[])[0, 0.01, 0.16, 0.5, 0.99, 1])
        {
            Assert.Equal(theirs[(int)Math.Round(share * (shape.Count - 1))], Levels.Quantile(grid, share));
        }
    }

    private static Mat Reconstructed(float[] grid, double height)
    {
        using var mask = Peer.Of(grid, Shape);
        Mat marker = mask - Scalar.All(height);
        using var square = Cv2.GetStructuringElement(MorphShapes.Rect, new(3, 3));
        using var before = new Mat();
        do
        {
            marker.CopyTo(before);
            Cv2.Dilate(marker, marker, square);
            Cv2.Min(marker, mask, marker);
        } while (Cv2.Norm(before, marker, NormTypes.INF) > 0);
        return marker;
    }

    // Its watershed takes a colour picture.
    private static int[] Their(float[] height, int[] markers)
    {
        using var grey = Peer.Of(Array.ConvertAll(height, value => (byte)value), Shape);
        using var colours = new Mat();
        Cv2.CvtColor(grey, colours, ColorConversionCodes.GRAY2BGR);
        using var labels = new Mat(Shape.Down, Shape.Across, MatType.CV_32SC1);
        Assert.True(labels.SetArray(markers));
        Cv2.Watershed(colours, labels);
        return Peer.Ints(labels);
    }
}
