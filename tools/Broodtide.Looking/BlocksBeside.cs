using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Looking;

/// <summary>
/// The variance of blocks of 64 pixels after a blur of one pixel, of the merged picture over that of the sharpest aligned
/// frame there. What "sharpest" means can be read two ways, so both stand side by side: the frame with the largest mean
/// squared modified Laplacian, and the frame with the largest variance itself (which a blurred bright thing that spills
/// into an empty block may be).
/// </summary>
public static class BlocksBeside
{
    private const int Side = 64;

    public static IEnumerable<string> Lines(IReadOnlyList<Picture> frames, Merged merged)
    {
        var shape = merged.Shape;
        var here = Of(new Picture(shape, merged.Colours).ToGrey(), shape);
        var there = frames
            .Zip(merged.Frames)
            .Where(pair => pair.Second.IsUsed)
            .Select(pair =>
            {
                var laid = new float[shape.Count];
                Resampling.Cubic(pair.First.ToGrey(), shape, pair.Second.Map, shape, laid);
                return Of(laid, shape);
            })
            .ToList();
        yield return Line(
            "variance beside the frame of the largest modified Laplacian",
            here.Select((block, at) => block.Variance / there.MaxBy(frame => frame[at].Bent)![at].Variance)
        );
        yield return Line(
            "variance beside the frame of the largest variance",
            here.Select((block, at) => block.Variance / there.Max(frame => frame[at].Variance))
        );
        yield return Line(
            "modified Laplacian beside the frame of the largest",
            here.Select((block, at) => block.Bent / there.Max(frame => frame[at].Bent))
        );
    }

    private static string Line(string what, IEnumerable<double> ratios)
    {
        var all = ratios.Order().ToList();
        return $"  {what}: under 0.95 in {Share(all, r => r < 0.95):0.0 %} of {all.Count} blocks, over 1.15 in "
            + $"{Share(all, r => r > 1.15):0.0 %}, median {all[all.Count / 2]:0.00}";
    }

    private static double Share(List<double> all, Func<double, bool> which) =>
        all.Count(which) / (double)all.Count;

    private static List<(double Variance, double Bent)> Of(float[] grey, GridShape shape)
    {
        var soft = new float[grey.Length];
        Blur.Gaussian(grey, shape, 1, soft);
        var blocks = new List<(double, double)>();
        // The outermost blocks have no neighbour beyond the edge and are left out.
        for (var top = Side; top + (2 * Side) <= shape.Down; top += Side)
        {
            for (var left = Side; left + (2 * Side) <= shape.Across; left += Side)
            {
                blocks.Add(Block(soft, shape.Across, left, top));
            }
        }

        return blocks;
    }

    private static (double Variance, double Bent) Block(float[] grid, int across, int left, int top)
    {
        var (sum, squares, bent) = (0.0, 0.0, 0.0);
        for (var y = top; y < top + Side; y++)
        {
            for (var x = left; x < left + Side; x++)
            {
                var at = (y * across) + x;
                double value = grid[at];
                (sum, squares) = (sum + value, squares + (value * value));
                bent +=
                    Math.Pow((2 * value) - grid[at - 1] - grid[at + 1], 2)
                    + Math.Pow((2 * value) - grid[at - across] - grid[at + across], 2);
            }
        }

        const int Many = Side * Side;
        return ((squares / Many) - (sum / Many * (sum / Many)), bent / Many);
    }
}
