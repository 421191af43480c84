using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>
/// Sums of neighbours with weights that are a product of one weight across and one down, each the same on both sides of
/// its middle. Outside the picture lies its mirror image, the outermost pixel standing twice.
/// </summary>
internal static class Separable
{
    /// <summary>
    /// Weights across and down, each of odd length, the middle one at the pixel itself; if wanted the sum is added to
    /// what is there.
    /// </summary>
    public static void Sum(
        ReadOnlySpan<float> source,
        GridShape shape,
        (float[] Across, float[] Down) weights,
        Span<float> target,
        bool isAdded = false
    ) => new Sums(shape, weights, isAdded).Rows(source, target, 0, shape.Down);

    /// <summary>The same with pauses.</summary>
    public static IEnumerable<Pause> Steps(
        float[] source,
        GridShape shape,
        (float[] Across, float[] Down) weights,
        float[] target,
        bool isAdded = false
    )
    {
        var sums = new Sums(shape, weights, isAdded);
        foreach (var (from, to) in Bands.Of(shape, weights.Across.Length + weights.Down.Length))
        {
            sums.Rows(source, target, from, to);
            yield return default;
        }
    }

    private sealed class Sums
    {
        private readonly GridShape _shape;
        private readonly (float[] Across, float[] Down) _weights;
        private readonly bool _isAdded;
        private readonly float[] _padded;
        private readonly float[] _held;
        private readonly int[] _columns;
        private readonly int[] _rows;
        private int _done;

        public Sums(GridShape shape, (float[] Across, float[] Down) weights, bool isAdded)
        {
            (_shape, _weights, _isAdded) = (shape, weights, isAdded);
            _padded = new float[shape.Across + (2 * (weights.Across.Length / 2))];
            // Only as many rows as one sum needs are held, so that they stay near the processor.
            _held = new float[weights.Down.Length * shape.Across];
            _columns = [.. Enumerable.Range(0, weights.Across.Length)];
            _rows = new int[weights.Down.Length];
        }

        // From the first row downward, each once.
        public void Rows(ReadOnlySpan<float> source, Span<float> target, int from, int to)
        {
            var (aside, away, across) = (_weights.Across.Length / 2, _weights.Down.Length / 2, _shape.Across);
            for (var y = from; y < to; y++)
            {
                for (; _done < Math.Min(_shape.Down, y + away + 1); _done++)
                {
                    Pad(_shape.Row(source, _done), _padded, aside);
                    var at = _done % _rows.Length * across;
                    Weighted(_padded, _columns, _weights.Across, _held.AsSpan(at, across));
                }

                for (var k = 0; k < _rows.Length; k++)
                {
                    _rows[k] = Mirrored(y + k - away, _shape.Down) % _rows.Length * across;
                }

                Weighted(_held, _rows, _weights.Down, _shape.Row(target, y), _isAdded);
            }
        }
    }

    /// <summary>
    /// Each value of the sum is that of <paramref name="values"/> at its place behind each start, times the weight of
    /// that start, added up (to what is there, if wanted); weights that lie opposite are the same.
    /// </summary>
    public static void Weighted(
        ReadOnlySpan<float> values,
        ReadOnlySpan<int> starts,
        ReadOnlySpan<float> weights,
        Span<float> sum,
        bool isAdded = false
    )
    {
        weights = weights[..starts.Length];
        foreach (var start in starts)
        {
            // Checked once, so that the loop below need not.
            _ = values.Slice(start, sum.Length);
        }

        ref var from = ref MemoryMarshal.GetReference(values);
        ref var to = ref MemoryMarshal.GetReference(sum);
        var (middle, lanes, x) = (starts.Length / 2, Vector<float>.Count, 0);
        for (; x + (2 * lanes) <= sum.Length; x += 2 * lanes)
        {
            var at = (nuint)(starts[middle] + x);
            var one = Vector.LoadUnsafe(ref from, at) * weights[middle];
            var two = Vector.LoadUnsafe(ref from, at + (nuint)lanes) * weights[middle];
            if (isAdded)
            {
                one += Vector.LoadUnsafe(ref to, (nuint)x);
                two += Vector.LoadUnsafe(ref to, (nuint)(x + lanes));
            }

            for (var k = 0; k < middle; k++)
            {
                var (before, after) = ((nuint)(starts[k] + x), (nuint)(starts[^(k + 1)] + x));
                var weight = new Vector<float>(weights[k]);
                one += (Vector.LoadUnsafe(ref from, before) + Vector.LoadUnsafe(ref from, after)) * weight;
                two +=
                    (
                        Vector.LoadUnsafe(ref from, before + (nuint)lanes)
                        + Vector.LoadUnsafe(ref from, after + (nuint)lanes)
                    ) * weight;
            }

            one.StoreUnsafe(ref to, (nuint)x);
            two.StoreUnsafe(ref to, (nuint)(x + lanes));
        }

        for (; x < sum.Length; x++)
        {
            var one = values[starts[middle] + x] * weights[middle];
            for (var k = 0; k < middle; k++)
            {
                one += (values[starts[k] + x] + values[starts[^(k + 1)] + x]) * weights[k];
            }

            sum[x] = isAdded ? sum[x] + one : one;
        }
    }

    /// <summary>The index within the picture that an index outside stands for.</summary>
    public static int Mirrored(int index, int length)
    {
        while (index < 0 || index >= length)
        {
            index = index < 0 ? -1 - index : (2 * length) - 1 - index;
        }

        return index;
    }

    private static void Pad(ReadOnlySpan<float> row, Span<float> padded, int aside)
    {
        row.CopyTo(padded[aside..]);
        for (var i = 0; i < aside; i++)
        {
            padded[i] = row[Mirrored(i - aside, row.Length)];
            padded[aside + row.Length + i] = row[Mirrored(row.Length + i, row.Length)];
        }
    }
}
