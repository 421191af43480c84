using Broodtide.Science.Imaging;

namespace Broodtide.Photos;

/// <summary>A picture as it is looked at: turned upright, without transparency.</summary>
/// <param name="Shape">Its shape in pixels.</param>
/// <param name="Colours">Four bytes a pixel, row after row: red, green, blue, one unused.</param>
public sealed record Picture(GridShape Shape, ReadOnlyMemory<byte> Colours)
{
    /// <summary>Brightness, 0 to 255 (<see cref="Channels.Grey"/>).</summary>
    public float[] ToGrey()
    {
        var grey = new float[Shape.Count];
        Channels.Grey(Colours.Span, grey);
        return grey;
    }

    /// <summary>The smallest colour channel, 0 to 255 (<see cref="Channels.Smallest"/>).</summary>
    public float[] ToSmallest()
    {
        var smallest = new float[Shape.Count];
        Channels.Smallest(Colours.Span, smallest);
        return smallest;
    }
}
