using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>The rows of a frame that a band of the merged picture looks at, colour by colour.</summary>
internal readonly ref struct Strips
{
    private readonly GridShape _shape;
    private readonly int _top;
    private readonly float[][] _values;

    /// <summary>These rows of a frame; the arrays are made longer where they are too short.</summary>
    public Strips(ReadOnlySpan<byte> colours, GridShape shape, (int Top, int Bottom) rows, float[][] values)
    {
        (_shape, _top, _values) = (shape, rows.Top, values);
        var length = (rows.Bottom - rows.Top + 1) * shape.Across;
        for (var c = 0; c < values.Length; c++)
        {
            values[c] = values[c].Length < length ? new float[length + (4 * shape.Across)] : values[c];
        }

        Channels.Each(
            colours.Slice(rows.Top * shape.Across * 4, length * 4),
            values[0].AsSpan(0, length),
            values[1].AsSpan(0, length),
            values[2].AsSpan(0, length)
        );
    }

    /// <summary>The rows that a band looks at through a map.</summary>
    public static (int Top, int Bottom) Rows(GridShape shape, AffineMap map, int top, int end)
    {
        double[] rows =
        [
            map.At(0, top).Y,
            map.At(shape.Across - 1, top).Y,
            map.At(0, end - 1).Y,
            map.At(shape.Across - 1, end - 1).Y,
        ];
        var last = shape.Down - 1;
        return (
            (int)Math.Clamp(Math.Floor(rows.Min()) - 1, 0, last),
            (int)Math.Clamp(Math.Floor(rows.Max()) + 2, 0, last)
        );
    }

    public Strip Of(int colour) => new(_values[colour], _shape, _top);
}
