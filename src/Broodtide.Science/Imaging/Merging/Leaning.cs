namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// Weights that keep each block near its sharpest frame. Where the variance of a block of the merged picture lies under or
/// over that of the frame which is the sharpest in it (grain that was averaged away; grain, rings or shades of several
/// frames put side by side), that frame's sharpness counts for more there, step by step, until the block holds what the
/// frame showed. Something far sharper in another frame still prevails.
/// </summary>
internal sealed class Leaning
{
    // The variance may be so many times that of the sharpest frame: 0.95 and 1.15 are what a merged picture is judged by,
    // the rest is for rounding to whole levels.
    private const double Least = 0.97;
    private const double Most = 1.12;

    // How far the logarithm of the sharpness is raised at a step. After the last the frame counts as five times as sharp:
    // what is sharper than that elsewhere is a thing at another depth, and is not given up for the sake of a measure.
    private const double Step = 0.4;
    private const int MostSteps = 4;

    // Cells beside the edge of a block over which the change fades.
    private const int Fade = 4;
    private const int CellsOfBlock = Blocks.Side / FocusCells.Side;

    private readonly IReadOnlyList<LaidFrame> _frames;
    private readonly IReadOnlyList<float[]> _sharpness;
    private readonly CellGrid _focus;
    private readonly CellGrid _blocks;
    private readonly CellWeights _pixels;
    private readonly int[] _sharpest;
    private readonly int[] _steps;

    public Leaning(
        IReadOnlyList<LaidFrame> frames,
        IReadOnlyList<float[]> sharpness,
        CellGrid focus,
        CellGrid blocks
    )
    {
        (_frames, _sharpness, _focus, _blocks) = (frames, sharpness, focus, blocks);
        _pixels = new(focus);
        _sharpest = [.. Enumerable.Range(0, blocks.Shape.Count).Select(Sharpest)];
        _steps = new int[blocks.Shape.Count];
        Weights = [.. sharpness.Select(_ => new float[focus.Shape.Count])];
    }

    /// <summary>How much of each frame goes into each cell; sums to 1 over the frames.</summary>
    public IReadOnlyList<float[]> Weights { get; }

    /// <summary>Settles the weights; some blocks a step.</summary>
    public IEnumerable<int> Settle()
    {
        var shape = _blocks.Shape;
        var changed = Enumerable.Range(0, shape.Count).ToList();
        for (var round = 0; round <= MostSteps && changed.Count > 0; round++)
        {
            for (var at = 0; at < changed.Count; at++)
            {
                SettleAbout(changed[at]);
                if (at % shape.Across == 0)
                {
                    yield return round;
                }
            }

            var near = changed.SelectMany(About).Distinct().Order().ToList();
            changed = [];
            for (var at = 0; at < near.Count && round < MostSteps; at++)
            {
                if (IsOff(near[at]))
                {
                    _steps[near[at]]++;
                    changed.Add(near[at]);
                }

                if (at % shape.Across == 0)
                {
                    yield return round;
                }
            }
        }
    }

    // The frame of the largest mean sharpness; -1 where it does not see all of the block, so that it cannot be compared.
    private int Sharpest(int block)
    {
        var (left, top, right, bottom) = Cells(block);
        var best = Enumerable.Range(0, _frames.Count).MaxBy(SharpnessOf);
        var across = _focus.Shape.Across;
        int[] corners =
        [
            (top * across) + left,
            (top * across) + right - 1,
            ((bottom - 1) * across) + left,
            ((bottom - 1) * across) + right - 1,
        ];
        return corners.All(cell => _focus.IsSeen(_frames[best].Map, cell)) ? best : -1;

        double SharpnessOf(int frame)
        {
            var sum = 0.0;
            for (var row = top; row < bottom; row++)
            {
                sum += Lanes.Sum(_focus.Shape.Row<float>(_frames[frame].Energy, row)[left..right]);
            }

            return sum * _frames[frame].Gain * _frames[frame].Gain;
        }
    }

    // The weights of the cells of a block and of those beside it.
    private void SettleAbout(int block)
    {
        var (left, top, right, bottom) = Cells(block);
        (left, top) = (Math.Max(0, left - Fade), Math.Max(0, top - Fade));
        right = Math.Min(_focus.Shape.Across, right + Fade);
        bottom = Math.Min(_focus.Shape.Down, bottom + Fade);
        Span<double> leant = stackalloc double[_frames.Count];
        for (var row = top; row < bottom; row++)
        {
            for (var column = left; column < right; column++)
            {
                Leant(row, column, leant);
                var cell = (row * _focus.Shape.Across) + column;
                for (var i = 0; i < leant.Length; i++)
                {
                    var much = leant[i] == 0 ? 1 : (float)Math.Exp(leant[i]);
                    Weights[i][cell] = _sharpness[i][cell] * much;
                }
            }

            var from = row * _focus.Shape.Across;
            Weighing.Settle(Weights, from + left, from + right);
        }
    }

    // The steps of each frame at a cell: the mean over the cells about it.
    private void Leant(int row, int column, Span<double> leant)
    {
        leant.Clear();
        const double Share = 1.0 / ((2 * Fade) + 1);
        for (var v = row - Fade; v <= row + Fade; v++)
        {
            var down = Math.Clamp(v, 0, _focus.Shape.Down - 1) / CellsOfBlock * _blocks.Shape.Across;
            for (var u = column - Fade; u <= column + Fade; u++)
            {
                var block = down + (Math.Clamp(u, 0, _focus.Shape.Across - 1) / CellsOfBlock);
                if (_steps[block] > 0)
                {
                    leant[_sharpest[block]] += _steps[block] * Step * Share * Share;
                }
            }
        }
    }

    private bool IsOff(int block)
    {
        if (_sharpest[block] < 0)
        {
            return false;
        }

        var frame = _frames[_sharpest[block]];
        var share = Variance(block) / Math.Max(1e-9, frame.Variance[block] * frame.Gain * frame.Gain);
        return share is < Least or > Most;
    }

    // As it would be in the merged picture.
    private float Variance(int block)
    {
        var picture = _focus.Picture;
        var (row, column) = Math.DivRem(block, _blocks.Shape.Across);
        var (left, top) = (column * Blocks.Side, row * Blocks.Side);
        var (right, bottom) = (
            Math.Min(picture.Across, left + Blocks.Side),
            Math.Min(picture.Down, top + Blocks.Side)
        );
        var (from, begin) = (Math.Max(0, left - Blocks.Margin), Math.Max(0, top - Blocks.Margin));
        var shape = new GridShape(
            Math.Min(picture.Across, right + Blocks.Margin) - from,
            Math.Min(picture.Down, bottom + Blocks.Margin) - begin
        );
        var merged = new float[shape.Count];
        var (weight, seen) = (new float[shape.Across], new float[shape.Across]);
        for (var i = 0; i < _frames.Count; i++)
        {
            for (var y = 0; y < shape.Down; y++)
            {
                if (_pixels.Row(Weights[i], begin + y, from, weight))
                {
                    WholeLevels.Back(
                        picture.Row<byte>(_frames[i].Grey, begin + y).Slice(from, shape.Across),
                        seen
                    );
                    Lanes.AddProduct(seen, weight, _frames[i].Gain, shape.Row(merged.AsSpan(), y));
                }
            }
        }

        var soft = FocusCells.Softened(merged, shape, top - begin, bottom - begin);
        var variance = Blocks.Variance(
            soft.AsSpan(1 + left - from),
            shape.Across + 2,
            right - left,
            bottom - top
        );
        FocusCells.GiveBack(soft);
        return variance;
    }

    private IEnumerable<int> About(int block)
    {
        var (row, column) = Math.DivRem(block, _blocks.Shape.Across);
        for (var v = Math.Max(0, row - 1); v <= Math.Min(_blocks.Shape.Down - 1, row + 1); v++)
        {
            for (var u = Math.Max(0, column - 1); u <= Math.Min(_blocks.Shape.Across - 1, column + 1); u++)
            {
                yield return (v * _blocks.Shape.Across) + u;
            }
        }
    }

    private (int Left, int Top, int Right, int Bottom) Cells(int block)
    {
        var (row, column) = Math.DivRem(block, _blocks.Shape.Across);
        return (
            column * CellsOfBlock,
            row * CellsOfBlock,
            Math.Min(_focus.Shape.Across, (column + 1) * CellsOfBlock),
            Math.Min(_focus.Shape.Down, (row + 1) * CellsOfBlock)
        );
    }
}
