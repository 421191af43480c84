using System.Diagnostics;
using System.Globalization;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Benchmarks;

/// <summary>
/// Frames of an invented ground that slopes away, each sharp at its own depth, shifted and grown a little: how long the
/// merge takes with the frames decoded and in memory, and the most memory the process held.
/// </summary>
internal static class MergePace
{
    public static void Run(int many, GridShape shape, int turns)
    {
        Console.WriteLine(Machine.Describe());
        var frames = Frames(many, shape);
        var shapes = Enumerable.Repeat(shape, many).ToList();
        var took = new List<double>();
        GC.Collect(2, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        using var process = Process.GetCurrentProcess();
        var most = 0L;
        for (var turn = 0; turn < turns; turn++)
        {
            var watch = Stopwatch.StartNew();
            var parts = new Dictionary<MergeWork, double>();
            var (last, merged, seen) = (0.0, default(Merged), -2);
            foreach (var step in FocusMerge.Steps(new(shapes, i => frames[i])))
            {
                var now = watch.Elapsed.TotalMilliseconds;
                if (step.Frame != seen)
                {
                    process.Refresh();
                    (seen, most) = (step.Frame, Math.Max(most, process.WorkingSet64));
                }

                parts[step.Work] = parts.GetValueOrDefault(step.Work) + now - last;
                (last, merged) = (now, step.Answer?.Value ?? merged);
            }

            took.Add(last);
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"merge of {many} frames of {shape}: {last:F0} ms on one thread ({string.Join(", ", parts.Select(part => $"{part.Key} {part.Value:F0}"))}), merged {merged!.IsMerged}, {merged.Frames.Count(frame => frame.IsUsed)} used"
                )
            );
        }

        took.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"median {took[took.Count / 2]:F0} ms of {turns}; most memory of the process while merging {most / 1e6:F0} MB, the frames themselves among it ({many * shape.Count * 4L / 1e6:F0} MB)"
            )
        );
    }

    /// <summary>The frames, four bytes a pixel.</summary>
    public static List<byte[]> Frames(int many, GridShape shape)
    {
        var sharp = new float[shape.Count];
        var dice = new Random(11);
        for (var i = 0; i < sharp.Length; i++)
        {
            sharp[i] = (float)dice.NextDouble() * 255;
        }

        var (fine, coarse, blurred) = (
            new float[shape.Count],
            new float[shape.Count],
            new float[shape.Count]
        );
        Blur.Box(sharp, shape, 3, fine);
        Blur.Box(fine, shape, 3, coarse);
        for (var i = 0; i < sharp.Length; i++)
        {
            sharp[i] = 128 + ((coarse[i] - 128) * 9);
        }

        Blur.Box(sharp, shape, 4, fine);
        Blur.Box(fine, shape, 4, blurred);
        return [.. Enumerable.Range(0, many).Select(i => Frame(sharp, blurred, shape, (i, many)))];
    }

    private static byte[] Frame(float[] sharp, float[] blurred, GridShape shape, (int At, int Of) frame)
    {
        var (seen, laid) = (new float[shape.Count], new float[shape.Count]);
        for (var i = 0; i < seen.Length; i++)
        {
            var depth = (double)(i % shape.Across) / shape.Across * (frame.Of - 1);
            var off = (float)Math.Min(1, Math.Abs(depth - frame.At) / 1.5);
            seen[i] = sharp[i] + (off * (blurred[i] - sharp[i]));
        }

        var away = frame.At - (frame.Of / 2);
        var map = AffineMap.Similarity(
            (shape.Across / 2.0, shape.Down / 2.0),
            1 + (0.003 * away),
            0.02 * away,
            (3.3 * away, -2.1 * away)
        );
        Resampling.Cubic(seen, shape, map, shape, laid);
        var colours = new byte[4 * shape.Count];
        for (var i = 0; i < laid.Length; i++)
        {
            colours.AsSpan(4 * i, 3).Fill((byte)Math.Clamp(laid[i], 0, 255));
        }

        return colours;
    }
}
