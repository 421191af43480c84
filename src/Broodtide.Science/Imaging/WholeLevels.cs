using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>Brightness in whole numbers from 0 to 255: a quarter of the memory.</summary>
internal static class WholeLevels
{
    /// <summary>Rounded, and cut to 0 to 255.</summary>
    public static void Of(ReadOnlySpan<float> values, Span<byte> levels)
    {
        var (lanes, at) = (Vector<float>.Count, 0);
        var (half, most) = (new Vector<float>(0.5f), new Vector<int>(byte.MaxValue));
        Span<int> whole = stackalloc int[lanes];
        for (; at + lanes <= levels.Length; at += lanes)
        {
            var rounded = Vector.ConvertToInt32(new Vector<float>(values.Slice(at, lanes)) + half);
            Vector.Min(most, Vector.Max(Vector<int>.Zero, rounded)).CopyTo(whole);
            for (var lane = 0; lane < whole.Length; lane++)
            {
                levels[at + lane] = (byte)whole[lane];
            }
        }

        for (; at < levels.Length; at++)
        {
            levels[at] = (byte)Math.Clamp((int)(values[at] + 0.5f), 0, byte.MaxValue);
        }
    }

    /// <summary>The same numbers as floats.</summary>
    public static void Back(ReadOnlySpan<byte> levels, Span<float> values)
    {
        var many = MemoryMarshal.Cast<byte, Vector<byte>>(levels);
        var to = MemoryMarshal.Cast<float, Vector<float>>(values[..levels.Length]);
        for (var i = 0; i < many.Length; i++)
        {
            Vector.Widen(many[i], out var low, out var high);
            Vector.Widen(low, out var first, out var second);
            Vector.Widen(high, out var third, out var fourth);
            to[4 * i] = Vector.ConvertToSingle(Vector.AsVectorInt32(first));
            to[(4 * i) + 1] = Vector.ConvertToSingle(Vector.AsVectorInt32(second));
            to[(4 * i) + 2] = Vector.ConvertToSingle(Vector.AsVectorInt32(third));
            to[(4 * i) + 3] = Vector.ConvertToSingle(Vector.AsVectorInt32(fourth));
        }

        for (var at = many.Length * Vector<byte>.Count; at < levels.Length; at++)
        {
            values[at] = levels[at];
        }
    }
}
