namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// Frames of one thing with the focus at different depths, from front to back or back to front. They are asked for one at
/// a time, each of them more than once, and none is held longer than it is worked on.
/// </summary>
/// <param name="Shapes">The shape of each.</param>
/// <param name="Colours">The colours of a frame by its number from 0: four bytes a pixel, red, green, blue, one unused.</param>
public sealed record FocusFrames(IReadOnlyList<GridShape> Shapes, Func<int, ReadOnlyMemory<byte>> Colours)
{
    internal ReadOnlyMemory<byte> Open(int frame)
    {
        var colours = Colours(frame);
        return colours.Length == Shapes[frame].Count * 4L
            ? colours
            : throw new ArgumentException(
                $"Frame {frame} has not four bytes a pixel of its shape.",
                nameof(frame)
            );
    }
}
