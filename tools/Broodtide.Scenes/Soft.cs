using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Scenes;

/// <summary>Gaussian blur of a picture, the edge repeated.</summary>
internal static class Soft
{
    public static float[] Blurred(float[] picture, int width, int height, double sigma)
    {
        var reach = (int)Math.Ceiling(3.5 * sigma);
        var weights = Enumerable
            .Range(-reach, (2 * reach) + 1)
            .Select(i => Math.Exp(-i * i / (2 * sigma * sigma)))
            .ToArray();
        var sum = weights.Sum();
        var across = new float[picture.Length];
        var padded = new float[width + (2 * reach)];
        for (var y = 0; y < height; y++)
        {
            var row = picture.AsSpan(y * width, width);
            padded.AsSpan(0, reach).Fill(row[0]);
            row.CopyTo(padded.AsSpan(reach));
            padded.AsSpan(reach + width).Fill(row[^1]);
            for (var k = 0; k < weights.Length; k++)
            {
                Add(padded.AsSpan(k, width), (float)(weights[k] / sum), across.AsSpan(y * width, width));
            }
        }

        var down = new float[picture.Length];
        for (var y = 0; y < height; y++)
        {
            for (var k = 0; k < weights.Length; k++)
            {
                var from = Math.Clamp(y + k - reach, 0, height - 1);
                Add(
                    across.AsSpan(from * width, width),
                    (float)(weights[k] / sum),
                    down.AsSpan(y * width, width)
                );
            }
        }

        return down;
    }

    public static void Add(ReadOnlySpan<float> from, float weight, Span<float> to)
    {
        var many = MemoryMarshal.Cast<float, Vector<float>>(from);
        var sums = MemoryMarshal.Cast<float, Vector<float>>(to);
        var factor = new Vector<float>(weight);
        for (var i = 0; i < sums.Length; i++)
        {
            sums[i] += many[i] * factor;
        }

        for (var i = sums.Length * Vector<float>.Count; i < to.Length; i++)
        {
            to[i] += from[i] * weight;
        }
    }
}
