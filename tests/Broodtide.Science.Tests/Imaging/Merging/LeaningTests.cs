using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Tests.Imaging.Merging;

public sealed class LeaningTests
{
    private static readonly GridShape Shape = new(256, 192);
    private static readonly CellGrid Focus = new(Shape, FocusCells.Side);
    private static readonly CellGrid Light = new(Shape, LightCells.Side);
    private static readonly CellGrid Areas = new(Shape, Blocks.Side);

    // Grain that is averaged over three frames has a third of its variance.
    [Fact]
    public void A_block_of_grain_keeps_the_variance_of_its_sharpest_frame()
    {
        var frames = Frames((frame, _, _) => 0, grain: 6);
        var sharpness = Sharpness(frames);

        Assert.InRange(Ratios(frames, Settled(sharpness)).Average(), 0.2, 0.8);
        Assert.All(Ratios(frames, Leant(frames, sharpness)), ratio => Assert.InRange(ratio, 0.9, 1.2));
    }

    // Two bright dots in one block, each sharp in another frame: neither is given up, though the block then holds more
    // than either frame.
    [Fact]
    public void A_thing_that_is_far_sharper_in_another_frame_stays()
    {
        var frames = Frames(
            (frame, x, y) =>
                frame switch
                {
                    0 => Dot(x, y, 90, 90, 1.2, 140) + Dot(x, y, 112, 112, 6, 140),
                    1 => Dot(x, y, 90, 90, 6, 140) + Dot(x, y, 112, 112, 1.2, 125),
                    _ => 0,
                },
            grain: 1
        );
        var weights = Leant(frames, Sharpness(frames));

        Assert.InRange(weights[0][(22 * Focus.Shape.Across) + 22], 0.95, 1);
        Assert.InRange(weights[1][(28 * Focus.Shape.Across) + 28], 0.95, 1);
    }

    [Fact]
    public void Weights_sum_to_one_everywhere()
    {
        var frames = Frames(
            (frame, x, y) => 20 * Math.Sin((x + (7 * frame)) / 5.0) * Math.Cos(y / 4.0),
            grain: 3
        );
        var weights = Leant(frames, Sharpness(frames));
        for (var cell = 0; cell < Focus.Shape.Count; cell++)
        {
            Assert.Equal(1, weights.Sum(frame => frame[cell]), 1e-5);
        }
    }

    private static double Dot(int x, int y, int atX, int atY, double size, double height) =>
        height
        / (size * size)
        * 1.44
        * Math.Exp(-(Math.Pow(x - atX, 2) + Math.Pow(y - atY, 2)) / (2 * size * size));

    private static List<LaidFrame> Frames(Func<int, int, int, double> height, double grain)
    {
        var frames = new List<LaidFrame>();
        for (var i = 0; i < 3; i++)
        {
            var dice = new Random(50 + i);
            var grey = Plain.Each(
                Shape,
                (x, y) =>
                    Math.Round(
                        80
                            + height(i, x, y)
                            + (
                                grain
                                * Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble()))
                                * Math.Cos(2 * Math.PI * dice.NextDouble())
                            )
                    )
            );
            var frame = new LaidFrame(i, new(AffineMap.Identity, 1, 0), Focus, Light, Areas);
            Assert.True(frame.Measure(grey, new byte[Shape.Count * 4]).Count() > 3);
            frames.Add(frame);
        }

        return frames;
    }

    private static List<float[]> Sharpness(List<LaidFrame> frames) =>
        frames.ConvertAll(frame => Weighing.About(frame, Focus));

    private static List<float[]> Settled(List<float[]> sharpness)
    {
        var weights = sharpness.ConvertAll(frame => (float[])frame.Clone());
        Weighing.Settle(weights, 0, Focus.Shape.Count);
        return weights;
    }

    private static IReadOnlyList<float[]> Leant(List<LaidFrame> frames, List<float[]> sharpness)
    {
        var leaning = new Leaning(frames, sharpness, Focus, Areas);
        Assert.True(leaning.Settle().Count() > 3);
        return leaning.Weights;
    }

    // Of each block: its variance in the merged picture over that in its sharpest frame.
    private static List<double> Ratios(List<LaidFrame> frames, IReadOnlyList<float[]> weights)
    {
        var merged = new float[Shape.Count];
        var (pixels, row) = (new CellWeights(Focus), new float[Shape.Across]);
        for (var i = 0; i < frames.Count; i++)
        {
            for (var y = 0; y < Shape.Down; y++)
            {
                for (var x = 0; x < Shape.Across && pixels.Row(weights[i], y, 0, row); x++)
                {
                    merged[(y * Shape.Across) + x] += row[x] * frames[i].Grey[(y * Shape.Across) + x];
                }
            }
        }

        var variance = new float[Areas.Shape.Count];
        for (var y = 0; y < Areas.Shape.Down; y++)
        {
            Blocks.Measure(merged, Areas, AffineMap.Identity, y, variance);
        }

        return
        [
            .. Enumerable
                .Range(0, variance.Length)
                // The outermost cells are not seen whole.
                .Where(block => block % Areas.Shape.Across is > 0 and < 3 && block / Areas.Shape.Across == 1)
                .Select(block =>
                    variance[block] / (double)frames.MaxBy(frame => Mean(frame, block))!.Variance[block]
                ),
        ];
    }

    private static double Mean(LaidFrame frame, int block) =>
        Enumerable
            .Range(0, Focus.Shape.Count)
            .Where(cell =>
                (cell / Focus.Shape.Across / 16 * Areas.Shape.Across) + (cell % Focus.Shape.Across / 16)
                == block
            )
            .Average(cell => (double)frame.Energy[cell]);
}
