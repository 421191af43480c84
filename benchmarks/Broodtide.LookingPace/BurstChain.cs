using Broodtide.Cli.Door;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;
using OpenCvSharp;

namespace Broodtide.LookingPace;

/// <summary>
/// A burst of five frames of twelve megapixels, from brightness to marks: ours, and the same steps put together from the
/// library's calls (averaged down, square root, affine registration, second darkest of five, dilation, difference, blur,
/// level by the surroundings, things). Two threads each.
/// </summary>
internal static class BurstChain
{
    private static readonly GridShape Shape = new(4000, 3000);

    public static void Run(int turns)
    {
        Cv2.SetNumThreads(2);
        var frames = InventedBurst.Frames(Shape, Moving);
        var given = frames.ConvertAll(frame =>
        {
            var made = new Mat(Shape.Down, Shape.Across, MatType.CV_32FC1);
            System.Runtime.InteropServices.Marshal.Copy(frame, 0, made.Data, frame.Length);
            return made;
        });
        var (ours, theirs) = (0.0, 0.0);
        Pairs.Print(
            "burst of 5 x 12 MP, from grey to marks",
            turns,
            () => ours = Ours(frames),
            () => theirs = Theirs(given)
        );
        Console.WriteLine($"  of {Moving} larvae that move ours finds {ours:F0}, theirs {theirs}");
    }

    private const int Moving = 120;

    private static double Ours(List<float[]> frames) =>
        BurstSpots.Count(frames, Shape, new MachineHands(2)).Value.Number.Middle;

    private static double Theirs(List<Mat> frames)
    {
        var looked = frames.ConvertAll(frame =>
        {
            var small = new Mat();
            Cv2.Resize(frame, small, new Size(1000, 750), interpolation: InterpolationFlags.Area);
            Cv2.Sqrt(small, small);
            return small;
        });
        var middle = looked[2];
        var laid = looked.ConvertAll(frame =>
        {
            var warp = Mat.Eye(2, 3, MatType.CV_32FC1).ToMat();
            var target = new Mat();
            Cv2.FindTransformECC(
                middle,
                frame,
                warp,
                MotionTypes.Affine,
                new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 50, 1e-4),
                inputMask: null,
                gaussFiltSize: 5
            );
            Cv2.WarpAffine(
                frame,
                target,
                warp,
                middle.Size(),
                InterpolationFlags.Linear | InterpolationFlags.WarpInverseMap,
                BorderTypes.Replicate
            );
            return target;
        });
        using var rows = new Mat();
        Cv2.VConcat(laid.ConvertAll(frame => frame.Reshape(1, 1)), rows);
        using var sorted = new Mat();
        Cv2.Sort(rows, sorted, SortFlags.EveryColumn | SortFlags.Ascending);
        using var second = sorted.RowRange(1, 2);
        using var whole = second.Clone();
        using var ground = whole.Reshape(1, 750);
        Cv2.Dilate(ground, ground, null);
        List<double> counts = [.. laid.Select(frame => Things(frame, ground)).Order()];
        looked.ForEach(frame => frame.Dispose());
        laid.ForEach(frame => frame.Dispose());
        return counts[2];
    }

    private static double Things(Mat frame, Mat ground)
    {
        using Mat raised = frame - ground;
        using var above = new Mat();
        Cv2.GaussianBlur(raised, above, new(9, 9), 1);
        using var order = new Mat();
        using var line = above.Clone().Reshape(1, 1);
        Cv2.Sort(line, order, SortFlags.EveryRow | SortFlags.Ascending);
        var usual = order.At<float>(0, order.Cols / 2);
        var noise = Math.Max(0.01, usual - order.At<float>(0, (int)(0.16 * order.Cols)));
        using var tame = new Mat();
        Cv2.Min(above, usual + (4 * noise), tame);
        Cv2.Max(tame, usual - (4 * noise), tame);
        using var mean = new Mat();
        using var squares = new Mat();
        Cv2.BoxFilter(tame, mean, MatType.CV_32F, new(81, 81));
        Cv2.SqrBoxFilter(tame, squares, MatType.CV_32F, new(81, 81));
        using Mat variance = squares - mean.Mul(mean);
        Cv2.Max(variance, 0, variance);
        Cv2.Sqrt(variance, variance);
        using Mat wanted = variance * 2.5;
        Cv2.Max(wanted, 5 * noise, wanted);
        using Mat level = wanted + mean;
        using var marked = new Mat();
        Cv2.Compare(above, level, marked, CmpTypes.GT);
        Cv2.GaussianBlur(raised, above, new(11, 11), 1.3);
        using var labels = new Mat();
        using var stats = new Mat();
        using var middles = new Mat();
        var count = Cv2.ConnectedComponentsWithStats(marked, labels, stats, middles);
        var areas = Enumerable
            .Range(1, count - 1)
            .Select(i => stats.At<int>(i, (int)ConnectedComponentsTypes.Area))
            .Where(area => area >= 6)
            .Order()
            .ToList();
        return areas.Count == 0 ? 0 : areas.Count(area => area >= 0.25 * areas[areas.Count / 2]);
    }
}
