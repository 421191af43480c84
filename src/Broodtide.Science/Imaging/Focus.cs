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
        Levels.Variance(source, shape, radius, mean, target);
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
        var (padded, aside) = (new float[shape.Across + 2], new float[shape.Across]);
        for (var y = 0; y < shape.Down; y++)
        {
            var row = shape.Row(source, y);
            var above = shape.Row(source, Math.Max(0, y - 1));
            var below = shape.Row(source, Math.Min(shape.Down - 1, y + 1));
            var to = shape.Row(bent.AsSpan(), y);
            row.CopyTo(padded.AsSpan(1));
            (padded[0], padded[^1]) = (row[0], row[^1]);
            Lanes.Bent(padded.AsSpan(0, row.Length), row, padded.AsSpan(2), aside);
            Lanes.Bent(above, row, below, to);
            Lanes.Absolute(aside, aside);
            Lanes.Absolute(to, to);
            Lanes.AddScaled(aside, 1, to);
        }

        Blur.Box(bent, shape, radius, target);
    }
}
