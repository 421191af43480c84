using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>What lies still in a burst.</summary>
internal static class Ground
{
    /// <summary>
    /// What is there in about three of four frames: larvae are bright, so a dark rank shows the ground even where they
    /// crowd. Raised to the brightest neighbour, so that an edge that moved by a pixel is no larva.
    /// </summary>
    public static IEnumerable<Pause> Of(float[][] frames, GridShape shape, float[] still, float[] raised)
    {
        foreach (var (from, to) in Bands.Of(shape, 8 * frames.Length))
        {
            Ranked(frames, still, from * shape.Across, to * shape.Across);
            yield return default;
        }

        Morphology.Dilation(still, shape, 1, raised);
        yield return default;
    }

    private static void Ranked(float[][] frames, float[] still, int first, int end)
    {
        var rank = Math.Max(1, (frames.Length - 1) / 4);
        var lanes = Vector<float>.Count;
        // So many vectors as the rank wants: the darkest so far, in order.
        var darkest = new Vector<float>[rank + 1];
        Span<float> last = stackalloc float[lanes];
        for (var from = first; from < end; from += lanes)
        {
            Array.Fill(darkest, new Vector<float>(float.MaxValue));
            var many = Math.Min(lanes, end - from);
            foreach (var frame in frames)
            {
                frame.AsSpan(from, many).CopyTo(last);
                var value = MemoryMarshal.Read<Vector<float>>(MemoryMarshal.AsBytes(last));
                for (var i = 0; i < darkest.Length; i++)
                {
                    (darkest[i], value) = (Vector.Min(darkest[i], value), Vector.Max(darkest[i], value));
                }
            }

            darkest[rank].CopyTo(last);
            last[..many].CopyTo(still.AsSpan(from));
        }
    }
}
