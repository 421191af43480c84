using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>The rows of a frame that a band of the merged picture looks at, colour by colour.</summary>
internal readonly ref struct Strips
{
    private readonly GridShape _shape;
    private readonly int _top;
    private readonly float[][] _values;

    public Strips(ReadOnlySpan<byte> colours, GridShape shape, AffineMap map, int top, int end)
    {
        double[] rows =
        [
            map.At(0, top).Y,
            map.At(shape.Across - 1, top).Y,
            map.At(0, end - 1).Y,
            map.At(shape.Across - 1, end - 1).Y,
        ];
        var last = shape.Down - 1;
        _shape = shape;
        _top = (int)Math.Clamp(Math.Floor(rows.Min()) - 1, 0, last);
        var bottom = (int)Math.Clamp(Math.Floor(rows.Max()) + 2, 0, last);
        var part = colours.Slice(_top * shape.Across * 4, (bottom - _top + 1) * shape.Across * 4);
        _values = [new float[part.Length / 4], new float[part.Length / 4], new float[part.Length / 4]];
        Channels.Each(part, _values[0], _values[1], _values[2]);
    }

    public Strip Of(int colour) => new(_values[colour], _shape, _top);
}
