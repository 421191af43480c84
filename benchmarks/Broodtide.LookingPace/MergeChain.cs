using System.Diagnostics;
using System.Globalization;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using OpenCvSharp;

namespace Broodtide.LookingPace;

/// <summary>
/// Nine frames of twelve megapixels merged: ours, and the best of the simple ways put together from the library's calls
/// (affine registration on a quarter of the size, cubic resampling, modified Laplacian, choice of the sharpest, median
/// of the choice). Two threads each; the error is against the picture that the frames were blurred from.
/// </summary>
internal static class MergeChain
{
    private const int Many = 9;
    private static readonly GridShape Shape = new(4000, 3000);

    public static void Run(int turns)
    {
        Cv2.SetNumThreads(2);
        using var sharp = Sharp();
        var frames = Enumerable.Range(0, Many).Select(at => Blurred(sharp, at)).ToList();
        var bytes = frames.ConvertAll(frame =>
        {
            var copied = new byte[4 * Shape.Count];
            System.Runtime.InteropServices.Marshal.Copy(frame.Data, copied, 0, copied.Length);
            return copied;
        });
        byte[] ours = [];
        using var theirs = new Mat();
        Pairs.Print("merge of 9 x 12 MP", turns, () => ours = Ours(bytes), () => Theirs(frames, theirs));
        using var given = new Mat(Shape.Down, Shape.Across, MatType.CV_8UC4);
        System.Runtime.InteropServices.Marshal.Copy(ours, 0, given.Data, ours.Length);
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  against the sharp picture, 64 px border left out: ours {Psnr(given, sharp):F1} dB, theirs {Psnr(theirs, sharp):F1} dB; most memory of the process, both and all frames twice among it: {process.PeakWorkingSet64 / 1e6:F0} MB"
            )
        );
    }

    /// <summary>Writes the frames as files, none of them moved, and tells their names in order.</summary>
    public static IReadOnlyList<string> WriteFrames(Mat sharp, string folder) =>
        [
            .. Enumerable
                .Range(0, Many)
                .Select(at =>
                {
                    using var frame = Blurred(sharp, at, isMoved: false);
                    using var colours = new Mat();
                    Cv2.CvtColor(frame, colours, ColorConversionCodes.RGBA2BGR);
                    var name = Path.Combine(folder, $"frame-{at}.png");
                    // Hardly packed, so that little of the time goes into reading.
                    Cv2.ImWrite(name, colours, new ImageEncodingParam(ImwriteFlags.PngCompression, 1));
                    return name;
                }),
        ];

    private static byte[] Ours(List<byte[]> frames) =>
        FocusMerge.Of(new(Enumerable.Repeat(Shape, Many).ToList(), at => frames[at])).Value.Colours.ToArray();

    private static void Theirs(List<Mat> frames, Mat merged)
    {
        using var middle = Quarter(frames[Many / 2]);
        using var best = new Mat(Shape.Down, Shape.Across, MatType.CV_32FC1, Scalar.All(-1));
        using var choice = new Mat(Shape.Down, Shape.Across, MatType.CV_8UC1, Scalar.All(0));
        var laid = frames.Select(frame => Laid(frame, middle)).ToList();
        for (var at = 0; at < Many; at++)
        {
            using var grey = new Mat();
            Cv2.CvtColor(laid[at], grey, ColorConversionCodes.RGBA2GRAY);
            using var across = new Mat();
            using var down = new Mat();
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
            Cv2.Filter2D(grey, across, MatType.CV_32F, line);
            Cv2.Filter2D(grey, down, MatType.CV_32F, standing);
            using Mat bent = Cv2.Abs(across) + Cv2.Abs(down);
            using var focus = new Mat();
            Cv2.BoxFilter(bent, focus, MatType.CV_32F, new(9, 9));
            using var isBetter = new Mat();
            Cv2.Compare(focus, best, isBetter, CmpTypes.GT);
            focus.CopyTo(best, isBetter);
            choice.SetTo(Scalar.All(at), isBetter);
        }

        Cv2.MedianBlur(choice, choice, 9);
        merged.Create(Shape.Down, Shape.Across, MatType.CV_8UC4);
        for (var at = 0; at < Many; at++)
        {
            using var isChosen = new Mat();
            Cv2.Compare(choice, Scalar.All(at), isChosen, CmpTypes.EQ);
            laid[at].CopyTo(merged, isChosen);
            laid[at].Dispose();
        }
    }

    private static Mat Laid(Mat frame, Mat middle)
    {
        using var small = Quarter(frame);
        using var warp = Mat.Eye(2, 3, MatType.CV_32FC1).ToMat();
        Cv2.FindTransformECC(
            middle,
            small,
            warp,
            MotionTypes.Affine,
            new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 50, 1e-5),
            inputMask: null,
            gaussFiltSize: 5
        );
        // From a quarter of the size to the whole: the middle of pixel 0 lies at 1.5 of the larger one.
        var (a, b, c, d) = (
            warp.At<float>(0, 0),
            warp.At<float>(0, 1),
            warp.At<float>(1, 0),
            warp.At<float>(1, 1)
        );
        warp.Set(0, 2, (4 * warp.At<float>(0, 2)) + (1.5f * (1 - a - b)));
        warp.Set(1, 2, (4 * warp.At<float>(1, 2)) + (1.5f * (1 - c - d)));
        var laid = new Mat();
        Cv2.WarpAffine(
            frame,
            laid,
            warp,
            frame.Size(),
            InterpolationFlags.Cubic | InterpolationFlags.WarpInverseMap,
            BorderTypes.Replicate
        );
        return laid;
    }

    private static Mat Quarter(Mat frame)
    {
        using var grey = new Mat();
        Cv2.CvtColor(frame, grey, ColorConversionCodes.RGBA2GRAY);
        var small = new Mat();
        Cv2.Resize(
            grey,
            small,
            new Size(Shape.Across / 4, Shape.Down / 4),
            interpolation: InterpolationFlags.Area
        );
        small.ConvertTo(small, MatType.CV_32FC1);
        return small;
    }

    /// <summary>Peak signal to noise in dB, over the grey of both, a border of 64 px left out.</summary>
    public static double Psnr(Mat one, Mat other)
    {
        var inner = new Rect(64, 64, Shape.Across - 128, Shape.Down - 128);
        using var a = new Mat(one, inner);
        using var b = new Mat(other, inner);
        using var first = new Mat();
        using var second = new Mat();
        // The pictures are grey: the order of colours means nothing.
        var grey = one.Channels() == 4 ? ColorConversionCodes.RGBA2GRAY : ColorConversionCodes.BGR2GRAY;
        Cv2.CvtColor(a, first, grey);
        Cv2.CvtColor(b, second, grey);
        return Cv2.PSNR(first, second);
    }

    /// <summary>Grain of several sizes, so that there is something to see at every scale.</summary>
    public static Mat Sharp()
    {
        using var grain = new Mat(Shape.Down, Shape.Across, MatType.CV_32FC1);
        Cv2.SetTheRNG(7);
        Cv2.Randn(grain, Scalar.All(0), Scalar.All(1));
        using var sum = new Mat(Shape.Down, Shape.Across, MatType.CV_32FC1, Scalar.All(128));
        foreach (var sigma in (double[])[1.2, 3, 9])
        {
            using var blurred = new Mat();
            Cv2.GaussianBlur(grain, blurred, new(0, 0), sigma);
            // Blurred noise has a deviation of 1 / (2 sigma root pi).
            Cv2.ScaleAdd(blurred, 14 * 2 * sigma * Math.Sqrt(Math.PI), sum, sum);
        }

        using var bytes = new Mat();
        sum.ConvertTo(bytes, MatType.CV_8UC1);
        var colours = new Mat();
        Cv2.CvtColor(bytes, colours, ColorConversionCodes.GRAY2RGBA);
        return colours;
    }

    // Sharp in a strip of its own, the more blurred the further away; grown and shifted a little as focus changes.
    private static Mat Blurred(Mat sharp, int at, bool isMoved = true)
    {
        var frame = new Mat(Shape.Down, Shape.Across, MatType.CV_8UC4);
        var width = Shape.Across / Many;
        for (var strip = 0; strip < Many; strip++)
        {
            var from = strip * width;
            var part = new Rect(from, 0, strip == Many - 1 ? Shape.Across - from : width, Shape.Down);
            using var to = new Mat(frame, part);
            if (strip == at)
            {
                using var same = new Mat(sharp, part);
                same.CopyTo(to);
            }
            else
            {
                var left = Math.Max(0, from - 60);
                using var around = new Mat(
                    sharp,
                    new Rect(left, 0, Math.Min(Shape.Across, part.Right + 60) - left, Shape.Down)
                );
                using var blurred = new Mat();
                Cv2.GaussianBlur(around, blurred, new(0, 0), 1.5 * Math.Abs(strip - at));
                using var inner = new Mat(blurred, new Rect(from - left, 0, part.Width, Shape.Down));
                inner.CopyTo(to);
            }
        }

        if (!isMoved)
        {
            return frame;
        }

        var away = at - (Many / 2);
        using var warp = Mat.FromArray(
            new double[,]
            {
                { 1 + (0.002 * away), 0, (2.3 * away) - (0.002 * away * Shape.Across / 2) },
                { 0, 1 + (0.002 * away), (-1.7 * away) - (0.002 * away * Shape.Down / 2) },
            }
        );
        var moved = new Mat();
        Cv2.WarpAffine(frame, moved, warp, frame.Size(), InterpolationFlags.Lanczos4, BorderTypes.Reflect);
        frame.Dispose();
        return moved;
    }
}
