using System.Numerics;

namespace Broodtide.Science.Imaging;

/// <summary>What stays the same over the frames of a burst.</summary>
public static class FrameMedian
{
    /// <summary>The most frames at a time.</summary>
    public const int MostFrames = 64;

    /// <summary>
    /// Of each pixel the median over the frames; of an even number the mean of the two in the middle. All frames are
    /// sorted side by side, as many pixels at a time as the machine has lanes (odd-even transposition, Knuth 1998, The
    /// Art of Computer Programming 3, section 5.3.4).
    /// </summary>
    /// <param name="frames">1 to <see cref="MostFrames"/> pictures of one length, no value NaN.</param>
    /// <param name="median">One value a pixel.</param>
    /// <exception cref="ArgumentException">No frames, too many, or another length.</exception>
    public static void Of(IReadOnlyList<float[]> frames, Span<float> median)
    {
        var length = median.Length;
        if (frames.Count is 0 or > MostFrames || frames.Any(frame => frame.Length != length))
        {
            throw new ArgumentException("Between 1 and 64 frames of one length are needed.", nameof(frames));
        }

        var lanes = Vector<float>.Count;
        var held = new Vector<float>[frames.Count];
        Span<float> last = stackalloc float[lanes];
        for (var from = 0; from < length; from += lanes)
        {
            var many = Math.Min(lanes, length - from);
            for (var i = 0; i < held.Length; i++)
            {
                if (many == lanes)
                {
                    held[i] = new(frames[i], from);
                }
                else
                {
                    frames[i].AsSpan(from, many).CopyTo(last);
                    held[i] = new(last);
                }
            }

            Sort(held);
            var middle = (held[(held.Length - 1) / 2] + held[held.Length / 2]) * 0.5f;
            if (many == lanes)
            {
                middle.CopyTo(median[from..]);
            }
            else
            {
                middle.CopyTo(last);
                last[..many].CopyTo(median[from..]);
            }
        }
    }

    private static void Sort(Vector<float>[] held)
    {
        for (var round = 0; round < held.Length; round++)
        {
            for (var i = round % 2; i + 1 < held.Length; i += 2)
            {
                (held[i], held[i + 1]) = (Vector.Min(held[i], held[i + 1]), Vector.Max(held[i], held[i + 1]));
            }
        }
    }
}
