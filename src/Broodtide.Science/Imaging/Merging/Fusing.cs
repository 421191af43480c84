using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>The merged picture while frame after frame is added to it.</summary>
internal sealed class Fusing(GridShape shape, CellGrid cells)
{
    /// <summary>Rows that are added at a time.</summary>
    public const int Band = 32;

    private readonly float[][] _sums =
    [
        new float[shape.Count],
        new float[shape.Count],
        new float[shape.Count],
    ];

    /// <summary>Adds a band of a frame where its weight is above 0.</summary>
    public void Add(LaidFrame frame, ReadOnlySpan<byte> colours, float[] weights, int top)
    {
        var end = Math.Min(shape.Down, top + Band);
        var strips = new Strips(colours, shape, frame.Map, top, end);
        var (weight, seen) = (new float[shape.Across], new float[shape.Across]);
        for (var y = top; y < end; y++)
        {
            foreach (var (from, to) in Weights(weights, y, weight))
            {
                for (var c = 0; c < 3; c++)
                {
                    var part = seen.AsSpan(from, to - from);
                    Resampling.CubicRow(strips.Of(c), frame.Map, y, from, part);
                    Lanes.AddProduct(
                        part,
                        weight.AsSpan(from, to - from),
                        frame.Gains[c],
                        _sums[c].AsSpan((y * shape.Across) + from, to - from)
                    );
                }
            }
        }
    }

    /// <summary>The colours of a band in whole numbers.</summary>
    public void Write(int top, Span<byte> colours)
    {
        var (from, to) = (top * shape.Across, Math.Min(shape.Down, top + Band) * shape.Across);
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

    // The weight of each pixel of a row, by straight lines between the middles of the cells; and where it is above 0.
    private List<(int From, int To)> Weights(float[] weights, int y, float[] weight)
    {
        var (first, down) = Between(y, cells.Shape.Down);
        var above = cells.Shape.Row<float>(weights, first);
        var below = cells.Shape.Row<float>(weights, Math.Min(first + 1, cells.Shape.Down - 1));
        var runs = new List<(int From, int To)>();
        for (var x = 0; x < weight.Length; x++)
        {
            var (column, right) = Between(x, cells.Shape.Across);
            var next = Math.Min(column + 1, cells.Shape.Across - 1);
            var left = above[column] + (down * (below[column] - above[column]));
            var other = above[next] + (down * (below[next] - above[next]));
            weight[x] = left + (right * (other - left));
            if (weight[x] > 0)
            {
                if (runs.Count > 0 && runs[^1].To == x)
                {
                    runs[^1] = (runs[^1].From, x + 1);
                }
                else
                {
                    runs.Add((x, x + 1));
                }
            }
        }

        return runs;
    }

    private (int Cell, float Part) Between(int at, int many)
    {
        var place = Math.Clamp((at + 0.5f) / cells.Side - 0.5f, 0, many - 1);
        return ((int)place, place - (int)place);
    }
}
