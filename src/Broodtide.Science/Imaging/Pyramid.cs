namespace Broodtide.Science.Imaging;

/// <summary>
/// Pictures of half the size and back (Burt and Adelson 1983, IEEE Trans. Commun. 31:532) with the weights 1, 4, 6, 4,
/// 1 sixteenths. Beyond the edge lies the mirror image.
/// </summary>
public static class Pyramid
{
    private static readonly float[] Weights = [1 / 16f, 4 / 16f, 6 / 16f, 4 / 16f, 1 / 16f];
    private static readonly float[] Beside = [1 / 8f, 6 / 8f, 1 / 8f];

    /// <summary>Blurred and every second pixel kept.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="target">A grid of the shape <see cref="GridShape.Halved"/>.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static void Reduce(ReadOnlySpan<float> source, GridShape shape, Span<float> target)
    {
        shape.MustFit(source);
        var half = shape.Halved();
        half.MustFit<float>(target);
        // Down first, because there all values of a row are summed at once, and only of the rows that are kept.
        var padded = new float[shape.Across + 4];
        var evens = (padded.Length + 1) / 2;
        var parts = new float[padded.Length + 2];
        // Where the five neighbours lie once even and odd places are parted.
        ReadOnlySpan<int> columns = [0, evens, 1, evens + 1, 2];
        Span<int> rows = stackalloc int[5];
        for (var y = 0; y < half.Down; y++)
        {
            for (var k = 0; k < rows.Length; k++)
            {
                rows[k] = Separable.Mirrored((2 * y) + k - 2, shape.Down) * shape.Across;
            }

            var summed = padded.AsSpan(2, shape.Across);
            Separable.Weighted(source, rows, Weights, summed);
            (padded[0], padded[1]) = (summed[Separable.Mirrored(-2, shape.Across)], summed[0]);
            padded[^2] = summed[^1];
            padded[^1] = summed[Separable.Mirrored(shape.Across + 1, shape.Across)];
            var to = half.Row(target, y);
            Lanes.Part(padded, parts.AsSpan(0, evens), parts.AsSpan(evens, padded.Length / 2));
            Separable.Weighted(parts, columns, Weights, to);
        }
    }

    /// <summary>Back to a shape of twice the size: each pixel the weighted mean of those that stand for its surroundings.</summary>
    /// <param name="source">A grid of the shape <see cref="GridShape.Halved"/> of <paramref name="shape"/>.</param>
    /// <param name="shape">The shape that is wanted.</param>
    /// <param name="target">The larger grid.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static void Expand(ReadOnlySpan<float> source, GridShape shape, Span<float> target)
    {
        shape.MustFit<float>(target);
        var half = shape.Halved();
        half.MustFit(source);
        // Three widened rows are held, the ones about the rows that are written, so that they stay near the processor.
        const int Held = 3;
        var held = new float[Held * shape.Across];
        var (padded, parts) = (new float[half.Across + 2], new float[2 * half.Across]);
        Span<int> rows = stackalloc int[Held];
        for (var y = -1; y < half.Down; y++)
        {
            if (y + 1 < half.Down)
            {
                var next = held.AsSpan((y + 1) % Held * shape.Across, shape.Across);
                Widened(half.Row(source, y + 1), padded, parts, next);
            }

            for (var to = 2 * y; y >= 0 && to < Math.Min(shape.Down, (2 * y) + 2); to++)
            {
                var (before, here, after) = Around(to, half.Down);
                rows[0] = before % Held * shape.Across;
                rows[1] = here % Held * shape.Across;
                rows[2] = after % Held * shape.Across;
                if (to % 2 == 0)
                {
                    Separable.Weighted(held, rows, Beside, shape.Row(target, to));
                }
                else
                {
                    Lanes.Mean(
                        held.AsSpan(rows[1], shape.Across),
                        held.AsSpan(rows[2], shape.Across),
                        shape.Row(target, to)
                    );
                }
            }
        }
    }

    // Even places lie on a pixel of the row, odd ones between two.
    private static void Widened(
        ReadOnlySpan<float> row,
        Span<float> padded,
        Span<float> parts,
        Span<float> wide
    )
    {
        row.CopyTo(padded[1..]);
        (padded[0], padded[^1]) = (row[0], row[^1]);
        var even = parts[..row.Length];
        var odd = parts.Slice(row.Length, wide.Length / 2);
        Separable.Weighted(padded, [0, 1, 2], Beside, even);
        Lanes.Mean(row, padded[2..], parts.Slice(row.Length, row.Length));
        Lanes.Join(even, odd, wide);
    }

    private static (int Before, int Here, int After) Around(int at, int length) =>
        (Math.Max(0, (at / 2) - 1), at / 2, Math.Min(length - 1, (at / 2) + 1));
}
