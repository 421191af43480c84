using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>What is usual in a picture, and where bright begins.</summary>
public static class Levels
{
    // The median of the absolute deviation from the median is so much of a normal standard deviation: the 75 % point
    // of the standard normal distribution (Abramowitz and Stegun, table 26.1).
    private const double MedianDeviation = 0.6744897501960817;

    // From so many values on counting them by their bits takes less time than sorting.
    private const int ManyValues = 50_000;
    private const int BentFetches = 12;

    /// <summary>The value below which a share of all values lies, in the unit of the grid.</summary>
    /// <param name="grid">One value or more, none of them NaN.</param>
    /// <param name="share">0 to 1.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The share is not from 0 to 1.</exception>
    public static float Quantile(ReadOnlySpan<float> grid, double share)
    {
        Finite.Within(share, 0, 1);
        if (grid.IsEmpty)
        {
            throw new ArgumentException("One value at least is needed.", nameof(grid));
        }

        var rank = (int)Math.Round(share * (grid.Length - 1));
        if (grid.Length >= ManyValues)
        {
            return Ranks.Of(grid, rank);
        }

        var sorted = grid.ToArray();
        Array.Sort(sorted);
        return sorted[rank];
    }

    /// <summary><see cref="Quantile"/> with pauses: the last is the answer.</summary>
    internal static IEnumerable<float> QuantileSteps(float[] grid, double share) =>
        grid.Length >= ManyValues
            ? Ranks.ValuesOf(grid, (int)Math.Round(share * (grid.Length - 1)))
            : [Quantile(grid, share)];

    /// <summary>
    /// Standard deviation of the noise from pixel to pixel, in the unit of the grid, by the median of the absolute
    /// response to a mask that is blind to planes (the mask of Immerkaer 1996, Comput. Vis. Image Underst. 64:300; the
    /// median in place of its mean so that edges do not count). 0 where the picture is smaller than 3 by 3.
    /// </summary>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    public static double Noise(ReadOnlySpan<float> grid, GridShape shape)
    {
        shape.MustFit(grid);
        if (shape.Across < 3 || shape.Down < 3)
        {
            return 0;
        }

        var found = new float[(shape.Across - 2) * (shape.Down - 2)];
        Bend(grid, shape, 1, shape.Down - 1, found);
        return OfBent(Quantile(found, 0.5));
    }

    /// <summary><see cref="Noise"/> with pauses: the last is the answer.</summary>
    internal static IEnumerable<double> NoiseSteps(float[] grid, GridShape shape)
    {
        if (shape.Across < 3 || shape.Down < 3)
        {
            yield return 0;
            yield break;
        }

        var inner = new GridShape(shape.Across - 2, shape.Down - 2);
        var found = new float[inner.Count];
        foreach (var (from, to) in Bands.Of(inner, BentFetches))
        {
            Bend(grid, shape, from + 1, to + 1, found);
            yield return 0;
        }

        foreach (var middle in QuantileSteps(found, 0.5))
        {
            yield return OfBent(middle);
        }
    }

    // The squares of the nine weights sum to 36.
    private static double OfBent(float middle) => middle / MedianDeviation / 6;

    private static void Bend(ReadOnlySpan<float> grid, GridShape shape, int first, int end, Span<float> found)
    {
        var at = (first - 1) * (shape.Across - 2);
        var bent = new float[shape.Across];
        for (var y = first; y < end; y++)
        {
            Lanes.Bent(shape.Row(grid, y - 1), shape.Row(grid, y), shape.Row(grid, y + 1), bent);
            var row = found.Slice(at, shape.Across - 2);
            Lanes.Bent(bent.AsSpan(0, row.Length), bent.AsSpan(1, row.Length), bent.AsSpan(2), row);
            Lanes.Absolute(row, row);
            at += row.Length;
        }
    }

    /// <summary>
    /// The level that parts the values into two heaps with the largest variance between them (Otsu 1979, IEEE Trans.
    /// Syst. Man Cybern. 9:62), over 256 steps from the smallest to the largest value. Above it is bright.
    /// </summary>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static float Otsu(ReadOnlySpan<float> grid)
    {
        const int Steps = Ranks.Steps;
        if (grid.IsEmpty)
        {
            throw new ArgumentException("One value at least is needed.", nameof(grid));
        }

        var (low, high) = Ranks.Extremes(grid);
        if (high <= low)
        {
            return high;
        }

        var heap = Ranks.Heaped(grid, low, high);
        var (best, bestVariance) = (0, -1.0);
        var (below, sumBelow) = (0.0, 0.0);
        var sum = heap.Select((number, step) => (double)number * step).Sum();
        for (var step = 0; step < Steps - 1; step++)
        {
            below += heap[step];
            sumBelow += (double)heap[step] * step;
            var above = grid.Length - below;
            if (below > 0 && above > 0)
            {
                var apart = (sumBelow / below) - ((sum - sumBelow) / above);
                var variance = below * above * apart * apart;
                (best, bestVariance) = variance > bestVariance ? (step, variance) : (best, bestVariance);
            }
        }

        return low + ((high - low) * (best + 1) / Steps);
    }

    /// <summary>The mean and the standard deviation over the square about each pixel.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape; at the edge the square is cut.</param>
    /// <param name="radius">Pixels from the middle of the square to its side, 0 to 16,000.</param>
    /// <param name="mean">The means.</param>
    /// <param name="deviation">The standard deviations, 0 or more.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The radius is outside its range.</exception>
    public static void Local(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> mean,
        Span<float> deviation
    )
    {
        Variance(source, shape, radius, mean, deviation);
        Lanes.Root(deviation, deviation);
    }

    /// <summary><see cref="Local"/> with pauses.</summary>
    internal static IEnumerable<Pause> LocalSteps(
        float[] source,
        GridShape shape,
        int radius,
        float[] mean,
        float[] deviation
    )
    {
        var middle = (float)Lanes.Mean(source);
        foreach (var pause in Blur.BoxSteps(source, shape, radius, mean))
        {
            yield return pause;
        }

        foreach (var pause in Blur.BoxSteps(source, shape, radius, deviation, middle))
        {
            yield return pause;
        }

        Lanes.LessSquareApart(mean, middle, deviation);
        Lanes.Root(deviation, deviation);
    }

    /// <inheritdoc cref="Local"/>
    internal static void Variance(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> mean,
        Span<float> variance
    )
    {
        Blur.Box(source, shape, radius, mean);
        shape.MustFit<float>(variance);
        // About the overall mean, so that the squares are small and their difference loses few digits.
        var middle = (float)Lanes.Mean(source);
        Blur.BoxOf(source, shape, radius, middle, variance);
        Lanes.LessSquareApart(mean, middle, variance);
    }
}
