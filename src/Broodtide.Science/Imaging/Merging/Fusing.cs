using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>The merged picture while frame after frame is added to it.</summary>
internal sealed class Fusing
{
    /// <summary>Rows that are added at a time.</summary>
    public const int Band = 32;

    private readonly GridShape _shape;
    private readonly CellWeights _cells;
    private readonly float[][] _sums;
    private readonly float[][] _strips =
    [
        [],
        [],
        [],
    ];
    private readonly float[] _weight;
    private readonly float[] _seen;

    public Fusing(GridShape shape, CellGrid cells)
    {
        (_shape, _cells) = (shape, new(cells));
        _sums = [new float[shape.Count], new float[shape.Count], new float[shape.Count]];
        (_weight, _seen) = (new float[shape.Across], new float[shape.Across]);
    }

    /// <summary>Adds a band of a frame where its weight is above 0.</summary>
    public void Add(LaidFrame frame, ReadOnlySpan<byte> colours, float[] weights, int top)
    {
        var end = Math.Min(_shape.Down, top + Band);
        var isOpen = false;
        var strips = default(Strips);
        for (var y = top; y < end; y++)
        {
            foreach (var (from, to) in Weights(weights, y))
            {
                if (!isOpen)
                {
                    strips = new(colours, _shape, Strips.Rows(_shape, frame.Map, top, end), _strips);
                    isOpen = true;
                }

                for (var c = 0; c < 3; c++)
                {
                    var part = _seen.AsSpan(from, to - from);
                    Resampling.CubicRow(strips.Of(c), frame.Map, y, from, part);
                    Lanes.AddProduct(
                        part,
                        _weight.AsSpan(from, to - from),
                        frame.Gains[c],
                        _sums[c].AsSpan((y * _shape.Across) + from, to - from)
                    );
                }
            }
        }
    }

    /// <summary>The colours of a band in whole numbers.</summary>
    public void Write(int top, Span<byte> colours)
    {
        var (from, to) = (top * _shape.Across, Math.Min(_shape.Down, top + Band) * _shape.Across);
        for (var at = from; at < to; at++)
        {
            var pixel = colours.Slice(at * 4, 4);
            for (var c = 0; c < 3; c++)
            {
                pixel[c] = (byte)Math.Clamp(_sums[c][at] + 0.5f, 0, 255);
            }

            pixel[3] = byte.MaxValue;
        }
    }

    // Where the weight of a row is above 0.
    private List<(int From, int To)> Weights(float[] weights, int y)
    {
        var runs = new List<(int From, int To)>();
        if (!_cells.Row(weights, y, 0, _weight))
        {
            return runs;
        }

        var from = -1;
        for (var x = 0; x < _weight.Length; x++)
        {
            if (_weight[x] > 0)
            {
                from = from < 0 ? x : from;
            }
            else if (from >= 0)
            {
                runs.Add((from, x));
                from = -1;
            }
        }

        if (from >= 0)
        {
            runs.Add((from, _weight.Length));
        }

        return runs;
    }
}
