using Broodtide.Benchmarks;
using Broodtide.LookingPace;
using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Speed;

/// <summary>The laws of pictures by their pixels, from small ones to twelve megapixels. On one core.</summary>
internal static class PictureLaws
{
    // A larva in 20,000 pixels, of the same size in every picture.
    private const int PixelsALarva = 20_000;

    // As in a stack from a phone, held short: what is asked is the pixels.
    private const int Stacked = 3;

    private static readonly GridShape[] Shapes = [new(400, 300), new(1264, 949), new(4000, 3000)];

    public static void Run()
    {
        int[] pixels = [.. Shapes.Select(shape => shape.Count)];
        CostLaw.Of(
            "a burst of 5 counted, N pixels each",
            pixels,
            count =>
            {
                var shape = Shape(count);
                var frames = InventedBurst.Frames(shape, count / PixelsALarva);
                return () => BurstSpots.Count(frames, shape);
            }
        );
        CostLaw.Of(
            $"a stack of {Stacked} merged, N pixels each",
            pixels,
            count =>
            {
                var shape = Shape(count);
                var frames = MergePace.Frames(Stacked, shape);
                var stack = new FocusFrames([.. frames.Select(_ => shape)], at => frames[at]);
                return () =>
                {
                    if (!FocusMerge.Of(stack).Value.IsMerged)
                    {
                        throw new InvalidOperationException("The stack was not merged.");
                    }
                };
            }
        );
    }

    private static GridShape Shape(int count) => Shapes.First(shape => shape.Count == count);
}
