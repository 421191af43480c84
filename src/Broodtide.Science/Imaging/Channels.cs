using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>
/// From the colours of a picture to one number a pixel. Colours come as four bytes a pixel: red, green, blue and one
/// that is not looked at.
/// </summary>
public static class Channels
{
    private const int Bytes = 4;

    // Recommendation ITU-R BT.601-7, section 2.5.1: 0.299 red, 0.587 green, 0.114 blue; in parts of 16384, sum 16384.
    private const uint RedPart = 4899;
    private const uint GreenPart = 9617;
    private const uint BluePart = 1868;
    private const int PartBits = 14;

    /// <summary>Brightness as an eye weighs the colours (ITU-R BT.601), whole numbers 0 to 255.</summary>
    /// <param name="colours">Four bytes a pixel: red, green, blue, one unused.</param>
    /// <param name="grey">One value a pixel.</param>
    /// <exception cref="ArgumentException">The lengths do not agree.</exception>
    public static void Grey(ReadOnlySpan<byte> colours, Span<float> grey)
    {
        MustFit(colours, grey);
        var pixels = MemoryMarshal.Cast<byte, uint>(colours);
        var (from, to) = (0, Vector<float>.Count);
        var low = new Vector<uint>(0xFF);
        var half = new Vector<uint>(1u << (PartBits - 1));
        for (; to <= grey.Length; (from, to) = (to, to + Vector<float>.Count))
        {
            var four = new Vector<uint>(pixels[from..to]);
            var sum =
                ((four & low) * RedPart)
                + ((Vector.ShiftRightLogical(four, 8) & low) * GreenPart)
                + ((Vector.ShiftRightLogical(four, 16) & low) * BluePart)
                + half;
            Vector
                .ConvertToSingle(Vector.AsVectorInt32(Vector.ShiftRightLogical(sum, PartBits)))
                .CopyTo(grey[from..to]);
        }

        for (; from < grey.Length; from++)
        {
            var pixel = pixels[from];
            var sum =
                ((pixel & 0xFF) * RedPart)
                + (((pixel >> 8) & 0xFF) * GreenPart)
                + (((pixel >> 16) & 0xFF) * BluePart);
            grey[from] = (sum + (1u << (PartBits - 1))) >> PartBits;
        }
    }

    /// <summary>
    /// The smallest of red, green and blue, 0 to 255: what is pale is high in all three, what is coloured is not.
    /// </summary>
    /// <param name="colours">Four bytes a pixel: red, green, blue, one unused.</param>
    /// <param name="smallest">One value a pixel.</param>
    /// <exception cref="ArgumentException">The lengths do not agree.</exception>
    public static void Smallest(ReadOnlySpan<byte> colours, Span<float> smallest)
    {
        MustFit(colours, smallest);
        var pixels = MemoryMarshal.Cast<byte, uint>(colours);
        var (from, to) = (0, Vector<float>.Count);
        var low = new Vector<uint>(0xFF);
        for (; to <= smallest.Length; (from, to) = (to, to + Vector<float>.Count))
        {
            var four = new Vector<uint>(pixels[from..to]);
            var least = Vector.Min(
                four & low,
                Vector.Min(Vector.ShiftRightLogical(four, 8) & low, Vector.ShiftRightLogical(four, 16) & low)
            );
            Vector.ConvertToSingle(Vector.AsVectorInt32(least)).CopyTo(smallest[from..to]);
        }

        for (; from < smallest.Length; from++)
        {
            var pixel = pixels[from];
            smallest[from] = Math.Min(pixel & 0xFF, Math.Min((pixel >> 8) & 0xFF, (pixel >> 16) & 0xFF));
        }
    }

    /// <summary>Red, green and blue apart, 0 to 255.</summary>
    /// <param name="colours">Four bytes a pixel: red, green, blue, one unused.</param>
    /// <param name="red">One value a pixel.</param>
    /// <param name="green">One value a pixel.</param>
    /// <param name="blue">One value a pixel.</param>
    /// <exception cref="ArgumentException">The lengths do not agree.</exception>
    public static void Each(ReadOnlySpan<byte> colours, Span<float> red, Span<float> green, Span<float> blue)
    {
        MustFit(colours, red);
        MustFit(colours, green);
        MustFit(colours, blue);
        var pixels = MemoryMarshal.Cast<byte, uint>(colours);
        var (from, to) = (0, Vector<float>.Count);
        var low = new Vector<uint>(0xFF);
        for (; to <= red.Length; (from, to) = (to, to + Vector<float>.Count))
        {
            var four = new Vector<uint>(pixels[from..to]);
            One(four & low).CopyTo(red[from..to]);
            One(Vector.ShiftRightLogical(four, 8) & low).CopyTo(green[from..to]);
            One(Vector.ShiftRightLogical(four, 16) & low).CopyTo(blue[from..to]);
        }

        for (; from < red.Length; from++)
        {
            var pixel = pixels[from];
            (red[from], green[from], blue[from]) = (pixel & 0xFF, (pixel >> 8) & 0xFF, (pixel >> 16) & 0xFF);
        }
    }

    private static Vector<float> One(Vector<uint> values) =>
        Vector.ConvertToSingle(Vector.AsVectorInt32(values));

    private static void MustFit(ReadOnlySpan<byte> colours, ReadOnlySpan<float> target)
    {
        if (colours.Length != (long)target.Length * Bytes)
        {
            throw new ArgumentException("Four bytes a pixel are needed.", nameof(colours));
        }
    }
}
