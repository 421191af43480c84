using Broodtide.Science.Imaging.Registration;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// Looks at a merged picture: whether it is sharper than its sharpest frame, whether it shows somewhere more than any of
/// its frames (a halo), and whether something moved while the frames were taken.
/// </summary>
internal sealed class MergeCheck(
    IReadOnlyList<LaidFrame> frames,
    CellGrid focus,
    CellGrid light,
    CellGrid blocks
)
{
    // A block that holds two depths may well have a little more variance than any frame had of it.
    private const double Halo = 1.15;
    private const double HaloWorthSaying = 0.05;

    // Levels of 0 to 255 and a share of the contrast about: what being out of focus may change in the mean of a cell.
    private const double MovedLevels = 10;
    private const double MovedShare = 0.7;
    private const double MovedWorthSaying = 0.002;

    private readonly List<int> _common = Equalising.Common(frames, focus);
    private readonly float[] _variance = new float[blocks.Shape.Count];

    /// <summary>Mean sharpness of the merged picture where all frames see.</summary>
    public double Sharpness { get; private set; }

    /// <summary>Share of blocks whose variance is well above that of any frame.</summary>
    public double ShareOfHalo { get; private set; }

    /// <summary>Share of the picture where neighbouring frames disagree.</summary>
    public double ShareMoved { get; private set; }

    /// <summary>The frame that is the sharpest on the whole.</summary>
    public LaidFrame Sharpest => frames.MaxBy(SharpnessOf)!;

    /// <summary>Mean sharpness of a frame where all frames see.</summary>
    public double SharpnessOf(LaidFrame frame) => Mean(frame.Energy) * frame.Gain * frame.Gain;

    /// <summary>Looks at the picture; how much of it is done, step by step.</summary>
    public IEnumerable<double> Look(byte[] colours)
    {
        var grey = new float[focus.Picture.Count];
        Channels.Grey(colours, grey);
        var energy = new float[focus.Shape.Count];
        const int Rows = 16;
        for (var row = 0; row < focus.Shape.Down; row += Rows)
        {
            FocusCells.Measure(grey, focus, row, Math.Min(Rows, focus.Shape.Down - row), energy);
            yield return 0.5 * row / focus.Shape.Down;
        }

        Sharpness = Mean(energy);
        for (var row = 0; row < blocks.Shape.Down; row++)
        {
            Blocks.Measure(grey, blocks, AffineMap.Identity, row, _variance);
            yield return 0.5 + (0.5 * row / blocks.Shape.Down);
        }

        ShareOfHalo =
            Enumerable.Range(0, _variance.Length).Count(block => _variance[block] > (Halo * Most(block)) + 1)
            / (double)_variance.Length;
        ShareMoved = Moved().Count(moved => moved) / (double)light.Shape.Count;
    }

    /// <summary>What of this is worth saying.</summary>
    public IEnumerable<Remark> Remarks(bool isMerged)
    {
        if (isMerged && ShareOfHalo > HaloWorthSaying)
        {
            yield return new("merge-may-have-halos", Percent(ShareOfHalo));
        }

        if (ShareMoved > MovedWorthSaying)
        {
            yield return new("merge-something-moved", Percent(ShareMoved));
        }
    }

    private static Argument Percent(double share) => new("sharePercent", Math.Round(100 * share, 1));

    private float Most(int block) => frames.Max(frame => frame.Variance[block] * frame.Gain * frame.Gain);

    private double Mean(float[] cells) =>
        _common.Count == 0 ? Lanes.Sum(cells) / cells.Length : _common.Average(cell => (double)cells[cell]);

    private bool[] Moved()
    {
        var moved = new bool[light.Shape.Count];
        var before = Grey(frames[0]);
        for (var i = 1; i < frames.Count; i++)
        {
            var here = Grey(frames[i]);
            for (var cell = 0; cell < moved.Length; cell++)
            {
                var contrast = Math.Max(Contrast(before, cell), Contrast(here, cell));
                moved[cell] |=
                    light.IsSeen(frames[i].Map, cell)
                    && light.IsSeen(frames[i - 1].Map, cell)
                    && Math.Abs(here[cell] - before[cell]) > MovedLevels + (MovedShare * contrast);
            }

            before = here;
        }

        return moved;
    }

    private static float[] Grey(LaidFrame frame)
    {
        var grey = new float[frame.Light[0].Length];
        for (var cell = 0; cell < grey.Length; cell++)
        {
            grey[cell] = (float)
                Equalising.Grey([
                    frame.Light[0][cell] * frame.Gains[0],
                    frame.Light[1][cell] * frame.Gains[1],
                    frame.Light[2][cell] * frame.Gains[2],
                ]);
        }

        return grey;
    }

    // The range over the cell and its neighbours.
    private float Contrast(float[] grey, int cell)
    {
        var (row, column) = Math.DivRem(cell, light.Shape.Across);
        var (least, most) = (float.MaxValue, float.MinValue);
        for (var y = Math.Max(0, row - 1); y <= Math.Min(light.Shape.Down - 1, row + 1); y++)
        {
            for (var x = Math.Max(0, column - 1); x <= Math.Min(light.Shape.Across - 1, column + 1); x++)
            {
                var value = grey[(y * light.Shape.Across) + x];
                (least, most) = (Math.Min(least, value), Math.Max(most, value));
            }
        }

        return most - least;
    }
}
