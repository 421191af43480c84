using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>How sharp a picture is, place by place.</summary>
public static class Focus
{
    /// <summary>The variance over the square about each pixel, in squared units of the picture.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape; at the edge the square is cut.</param>
    /// <param name="radius">Pixels from the middle of the square to its side, 1 to 1,000.</param>
    /// <param name="target">The measure.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The radius is outside its range.</exception>
    public static void LocalVariance(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> target
    )
    {
        Finite.Within(radius, 1, 1_000);
        var mean = new float[shape.Count];
        Levels.Local(source, shape, radius, mean, target);
        Lanes.Multiply(target, target, target);
    }

    /// <summary>
    /// The mean over the square about each pixel of |2 I - left - right| + |2 I - above - below|, in the unit of the
    /// picture (the sum-modified Laplacian of Nayar and Nakagawa 1994, IEEE Trans. Pattern Anal. Mach. Intell. 16:824,
    /// with step 1, as a mean). Beyond the edge lies the mirror image.
    /// </summary>
    /// <inheritdoc cref="LocalVariance"/>
    public static void ModifiedLaplacian(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> target
    )
    {
        shape.MustFit(source);
        Finite.Within(radius, 1, 1_000);
        var bent = new float[shape.Count];
        for (var y = 0; y < shape.Down; y++)
        {
            var row = shape.Row(source, y);
            var above = shape.Row(source, Math.Max(0, y - 1));
            var below = shape.Row(source, Math.Min(shape.Down - 1, y + 1));
            var to = shape.Row(bent.AsSpan(), y);
            for (var x = 0; x < row.Length; x++)
            {
                var (left, right) = (row[Math.Max(0, x - 1)], row[Math.Min(row.Length - 1, x + 1)]);
                to[x] = Math.Abs((2 * row[x]) - left - right) + Math.Abs((2 * row[x]) - above[x] - below[x]);
            }
        }

        Blur.Box(bent, shape, radius, target);
    }
}
