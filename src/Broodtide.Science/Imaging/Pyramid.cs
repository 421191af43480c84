namespace Broodtide.Science.Imaging;

/// <summary>
/// Pictures of half the size and back (Burt and Adelson 1983, IEEE Trans. Commun. 31:532) with the weights 1, 4, 6, 4,
/// 1 sixteenths. Beyond the edge lies the mirror image.
/// </summary>
public static class Pyramid
{
    private static readonly float[] Weights = [1 / 16f, 4 / 16f, 6 / 16f, 4 / 16f, 1 / 16f];

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
        var blurred = new float[shape.Count];
        Separable.Sum(source, shape, (Weights, Weights), blurred);
        for (var y = 0; y < half.Down; y++)
        {
            var from = shape.Row<float>(blurred, 2 * y);
            var to = half.Row(target, y);
            for (var x = 0; x < to.Length; x++)
            {
                to[x] = from[2 * x];
            }
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
        var between = new float[half.Down * shape.Across];
        for (var y = 0; y < half.Down; y++)
        {
            var row = half.Row(source, y);
            for (var x = 0; x < shape.Across; x++)
            {
                var (a, b, c) = Around(x, row.Length);
                between[(y * shape.Across) + x] =
                    x % 2 == 0 ? Even(row[a], row[b], row[c]) : (row[b] + row[c]) / 2;
            }
        }

        for (var y = 0; y < shape.Down; y++)
        {
            var (a, b, c) = Around(y, half.Down);
            for (var x = 0; x < shape.Across; x++)
            {
                var (u, v, w) = (
                    between[(a * shape.Across) + x],
                    between[(b * shape.Across) + x],
                    between[(c * shape.Across) + x]
                );
                target[(y * shape.Across) + x] = y % 2 == 0 ? Even(u, v, w) : (v + w) / 2;
            }
        }
    }

    private static float Even(float before, float here, float after) =>
        ((before + after) / 8) + (here * 0.75f);

    private static (int Before, int Here, int After) Around(int at, int length) =>
        (Math.Max(0, (at / 2) - 1), at / 2, Math.Min(length - 1, (at / 2) + 1));
}
