using Broodtide.Science.Imaging;
using OpenCvSharp;

namespace Broodtide.LookingPace;

/// <summary>Each kernel that the library has too, or that a few of its calls make, on one picture and one thread each.</summary>
internal sealed class Kernels(GridShape shape, int turns) : IDisposable
{
    private const int Radius = 12;
    private const double Sigma = 2;

    private readonly float[] _grid = Invented.Grid(shape, 1);
    private readonly float[] _target = new float[shape.Count];
    private readonly Mat _theirs = new();

    public void Run()
    {
        Cv2.SetNumThreads(1);
        using var picture = Given(_grid);
        Colours();
        Neighbours(picture);
        Sharpness(picture);
        Pyramids(picture);
        Whole(picture);
        Things();
    }

    public void Dispose() => _theirs.Dispose();

    private void Colours()
    {
        var colours = new byte[4 * shape.Count];
        for (var i = 0; i < shape.Count; i++)
        {
            var light = (byte)_grid[i];
            (colours[4 * i], colours[(4 * i) + 1], colours[(4 * i) + 2]) = (light, (byte)(light / 2), 60);
        }

        using var given = new Mat(shape.Down, shape.Across, MatType.CV_8UC4);
        System.Runtime.InteropServices.Marshal.Copy(colours, 0, given.Data, colours.Length);
        using var grey = new Mat();
        Pairs.Print(
            "grey (cvtColor, convertTo)",
            turns,
            () => Channels.Grey(colours, _target),
            () =>
            {
                Cv2.CvtColor(given, grey, ColorConversionCodes.RGBA2GRAY);
                grey.ConvertTo(_theirs, MatType.CV_32FC1);
            }
        );
        Pairs.Print(
            "smallest channel (split, min, convertTo)",
            turns,
            () => Channels.Smallest(colours, _target),
            () =>
            {
                var parts = Cv2.Split(given);
                Cv2.Min(parts[0], parts[1], grey);
                Cv2.Min(grey, parts[2], grey);
                grey.ConvertTo(_theirs, MatType.CV_32FC1);
                Array.ForEach(parts, part => part.Dispose());
            }
        );
    }

    private void Neighbours(Mat picture)
    {
        Pairs.Print(
            "mean over 25 x 25 (blur)",
            turns,
            () => Blur.Box(_grid, shape, Radius, _target),
            () => Cv2.Blur(picture, _theirs, new(25, 25), borderType: BorderTypes.Reflect)
        );
        Pairs.Print(
            "Gaussian, sigma 2, 17 weights (GaussianBlur)",
            turns,
            () => Blur.Gaussian(_grid, shape, Sigma, _target),
            () => Cv2.GaussianBlur(picture, _theirs, new(17, 17), Sigma, Sigma, BorderTypes.Reflect)
        );
        var plain = Weights(x => Math.Exp(-x * x / 2));
        var bent = Weights(x => (1 - (x * x)) * Math.Exp(-x * x / 2));
        using var other = new Mat();
        Pairs.Print(
            "Laplacian of Gaussian (sepFilter2D twice, add)",
            turns,
            () => Blobs.LaplacianOfGaussian(_grid, shape, Sigma, _target),
            () =>
            {
                Cv2.SepFilter2D(
                    picture,
                    _theirs,
                    MatType.CV_32F,
                    bent,
                    plain,
                    borderType: BorderTypes.Reflect
                );
                Cv2.SepFilter2D(picture, other, MatType.CV_32F, plain, bent, borderType: BorderTypes.Reflect);
                Cv2.Add(_theirs, other, _theirs);
            }
        );
        foreach (var radius in (int[])[3, Radius])
        {
            using var square = Cv2.GetStructuringElement(
                MorphShapes.Rect,
                new(2 * radius + 1, 2 * radius + 1)
            );
            Pairs.Print(
                $"erosion, square of {2 * radius + 1} (erode)",
                turns,
                () => Morphology.Erosion(_grid, shape, radius, _target),
                () => Cv2.Erode(picture, _theirs, square)
            );
            Pairs.Print(
                $"top-hat, square of {2 * radius + 1} (morphologyEx)",
                turns,
                () => Morphology.TopHat(_grid, shape, radius, _target),
                () => Cv2.MorphologyEx(picture, _theirs, MorphTypes.TopHat, square)
            );
        }
    }

    private void Sharpness(Mat picture)
    {
        var side = new Size(7, 7);
        using var mean = new Mat();
        Pairs.Print(
            "local variance, 7 x 7 (boxFilter, sqrBoxFilter)",
            turns,
            () => Focus.LocalVariance(_grid, shape, 3, _target),
            () =>
            {
                Cv2.BoxFilter(picture, mean, MatType.CV_32F, side, borderType: BorderTypes.Reflect);
                Cv2.SqrBoxFilter(picture, _theirs, MatType.CV_32F, side, borderType: BorderTypes.Reflect);
                Cv2.Multiply(mean, mean, mean);
                Cv2.Subtract(_theirs, mean, _theirs);
            }
        );
        using var line = Mat.FromArray(
            new float[,]
            {
                { -1, 2, -1 },
            }
        );
        using var standing = Mat.FromArray(
            new float[,]
            {
                { -1 },
                { 2 },
                { -1 },
            }
        );
        using var down = new Mat();
        using var zero = new Mat(shape.Down, shape.Across, MatType.CV_32FC1, Scalar.All(0));
        Pairs.Print(
            "modified Laplacian, 7 x 7 (filter2D, absdiff, blur)",
            turns,
            () => Focus.ModifiedLaplacian(_grid, shape, 3, _target),
            () =>
            {
                Cv2.Filter2D(picture, mean, MatType.CV_32F, line, borderType: BorderTypes.Reflect);
                Cv2.Filter2D(picture, down, MatType.CV_32F, standing, borderType: BorderTypes.Reflect);
                Cv2.Absdiff(mean, zero, mean);
                Cv2.Absdiff(down, zero, down);
                Cv2.Add(mean, down, mean);
                Cv2.Blur(mean, _theirs, side, borderType: BorderTypes.Reflect);
            }
        );
    }

    private void Pyramids(Mat picture)
    {
        var half = shape.Halved();
        var small = new float[half.Count];
        using var less = new Mat();
        Pairs.Print(
            "half the size (pyrDown)",
            turns,
            () => Pyramid.Reduce(_grid, shape, small),
            () => Cv2.PyrDown(picture, less, borderType: BorderTypes.Reflect)
        );
        Pairs.Print(
            "twice the size (pyrUp)",
            turns,
            () => Pyramid.Expand(small, shape, _target),
            () => Cv2.PyrUp(less, _theirs, new Size(shape.Across, shape.Down))
        );
    }

    private void Whole(Mat picture)
    {
        using var bytes = new Mat();
        Pairs.Print(
            "Otsu's level (convertTo bytes, threshold)",
            turns,
            () => Levels.Otsu(_grid),
            () =>
            {
                picture.ConvertTo(bytes, MatType.CV_8UC1);
                Cv2.Threshold(bytes, _theirs, 0, 255, ThresholdTypes.Otsu);
            }
        );
        var frames = Enumerable.Range(1, 5).Select(seed => Invented.Grid(shape, seed)).ToList();
        var given = frames.ConvertAll(Given);
        var held = given.ConvertAll(_ => new Mat());
        using var least = new Mat();
        Pairs.Print(
            "median over 5 frames (min and max, 5 rounds)",
            turns,
            () => FrameMedian.Of(frames, _target),
            () =>
            {
                for (var i = 0; i < held.Count; i++)
                {
                    given[i].CopyTo(held[i]);
                }

                for (var round = 0; round < held.Count; round++)
                {
                    for (var i = round % 2; i + 1 < held.Count; i += 2)
                    {
                        Cv2.Min(held[i], held[i + 1], least);
                        Cv2.Max(held[i], held[i + 1], held[i + 1]);
                        least.CopyTo(held[i]);
                    }
                }
            }
        );
        var square = new GridShape(1024, 1024);
        var (first, second) = (Invented.Grid(square, 3), Invented.Grid(square, 3, 3.4, -2.2));
        using var one = Given(first, square);
        using var two = Given(second, square);
        using var window = new Mat();
        Cv2.CreateHanningWindow(window, new Size(1024, 1024), MatType.CV_32F);
        Pairs.Print(
            "shift of 1024 x 1024 (phaseCorrelate)",
            turns,
            () => PhaseCorrelation.Between(first, second, square),
            () => Cv2.PhaseCorrelate(one, two, window, out _)
        );
    }

    private void Things()
    {
        var marked = Array.ConvertAll(_grid, value => (byte)(value > 80 ? 1 : 0));
        using var given = new Mat(shape.Down, shape.Across, MatType.CV_8UC1);
        System.Runtime.InteropServices.Marshal.Copy(marked, 0, given.Data, marked.Length);
        var labels = new int[shape.Count];
        using var stats = new Mat();
        using var middles = new Mat();
        Pairs.Print(
            "things and measures (connectedComponentsWithStats)",
            turns,
            () => Components.Measure(labels, shape, Components.Label(marked, shape, labels)),
            () => Cv2.ConnectedComponentsWithStats(given, _theirs, stats, middles)
        );
        Pairs.Print(
            "distance (distanceTransform, precise)",
            turns,
            () => Distance.Transform(marked, shape, _target),
            () => Cv2.DistanceTransform(given, _theirs, DistanceTypes.L2, DistanceTransformMasks.Precise)
        );
        var tops = Maxima.Standing(_target, shape, 1);
        using var coloured = new Mat();
        var heights = Array.ConvertAll(_target, far => (byte)Math.Max(0, 255 - (20 * far)));
        using var landscape = new Mat(shape.Down, shape.Across, MatType.CV_8UC1);
        System.Runtime.InteropServices.Marshal.Copy(heights, 0, landscape.Data, heights.Length);
        Cv2.CvtColor(landscape, coloured, ColorConversionCodes.GRAY2BGR);
        var start = new int[shape.Count];
        for (var i = 0; i < start.Length; i++)
        {
            start[i] = marked[i] == 0 ? tops.Count + 1 : 0;
        }

        for (var i = 0; i < tops.Count; i++)
        {
            start[tops[i]] = marked[tops[i]] == 0 ? tops.Count + 1 : i + 1;
        }

        var ownStart = start.Select((label, i) => marked[i] == 0 ? 0 : label).ToArray();
        Pairs.Print(
            "watershed from markers (watershed)",
            turns,
            () =>
            {
                ownStart.CopyTo(labels, 0);
                Watershed.Grow(_target, shape, marked, labels);
            },
            () =>
            {
                using var seeds = new Mat(shape.Down, shape.Across, MatType.CV_32SC1);
                System.Runtime.InteropServices.Marshal.Copy(start, 0, seeds.Data, start.Length);
                Cv2.Watershed(coloured, seeds);
            }
        );
    }

    private static Mat Weights(Func<double, double> of) =>
        Mat.FromArray(Enumerable.Range(-8, 17).Select(i => (float)of(i / Sigma)).ToArray());

    private Mat Given(float[] grid) => Given(grid, shape);

    private static Mat Given(float[] grid, GridShape shape)
    {
        var made = new Mat(shape.Down, shape.Across, MatType.CV_32FC1);
        System.Runtime.InteropServices.Marshal.Copy(grid, 0, made.Data, grid.Length);
        return made;
    }
}
