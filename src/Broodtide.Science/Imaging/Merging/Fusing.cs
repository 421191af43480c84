using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>The merged picture while frame after frame is added to it.</summary>
internal sealed class Fusing
{
    /// <summary>Rows that are added at a time.</summary>
    public const int Band = 32;

    private readonly GridShape _shape;
    private readonly CellGrid _cells;
    private readonly float[][] _sums;
    private readonly float[][] _strips =
    [
        [],
        [],
        [],
    ];
    private readonly float[] _weight;
    private readonly float[] _seen;
    private readonly float[] _row;
    private readonly (int Cell, float Part)[] _columns;

    public Fusing(GridShape shape, CellGrid cells)
    {
        (_shape, _cells) = (shape, cells);
        _sums = [new float[shape.Count], new float[shape.Count], new float[shape.Count]];
        (_weight, _seen, _row) = (
            new float[shape.Across],
            new float[shape.Across],
            new float[cells.Shape.Across]
        );
        _columns = [.. Enumerable.Range(0, shape.Across).Select(x => Between(x, cells.Shape.Across))];
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

    // The weight of each pixel of a row, by straight lines between the middles of the _cells; and where it is above 0.
    private List<(int From, int To)> Weights(float[] weights, int y)
    {
        var (first, down) = Between(y, _cells.Shape.Down);
        var above = _cells.Shape.Row<float>(weights, first);
        var below = _cells.Shape.Row<float>(weights, Math.Min(first + 1, _cells.Shape.Down - 1));
        for (var column = 0; column < _row.Length; column++)
        {
            _row[column] = above[column] + (down * (below[column] - above[column]));
        }

        var runs = new List<(int From, int To)>();
        if (!_row.AsSpan().ContainsAnyExcept(0f))
        {
            return runs;
        }

        var from = -1;
        for (var x = 0; x < _weight.Length; x++)
        {
            var (column, right) = _columns[x];
            var next = Math.Min(column + 1, _row.Length - 1);
            _weight[x] = _row[column] + (right * (_row[next] - _row[column]));
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

    private (int Cell, float Part) Between(int at, int many)
    {
        var place = Math.Clamp(((at + 0.5f) / _cells.Side) - 0.5f, 0, many - 1);
        return ((int)place, place - (int)place);
    }
}
