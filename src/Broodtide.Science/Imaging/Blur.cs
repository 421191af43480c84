using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>Means over neighbours.</summary>
public static class Blur
{
    /// <summary>Beyond so many standard deviations a Gaussian is cut off: 6e-5 of its weight lies outside.</summary>
    private const double CutAt = 4;

    /// <summary>
    /// The plain mean over a square of 2 <paramref name="radius"/> + 1 pixels a side; at the edge over the part of the
    /// square that lies in the picture.
    /// </summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="radius">Pixels from the middle of the square to its side, 0 to 16,000.</param>
    /// <param name="target">The means; not the picture itself.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The radius is outside its range.</exception>
    public static void Box(ReadOnlySpan<float> source, GridShape shape, int radius, Span<float> target)
    {
        shape.MustFit(source);
        shape.MustFit<float>(target);
        Finite.Within(radius, 0, 16_000);
        var between = new float[shape.Count];
        for (var y = 0; y < shape.Down; y++)
        {
            AlongRow(shape.Row(source, y), radius, shape.Row(between.AsSpan(), y));
        }

        var sums = new float[shape.Across];
        var (first, after) = (0, 0);
        for (var y = 0; y < shape.Down; y++)
        {
            var (top, end) = (Math.Max(0, y - radius), Math.Min(shape.Down, y + radius + 1));
            // Now and then from the start, so that the rounding of sums does not pile up.
            if (y % ((2 * radius) + 1) == 0)
            {
                Array.Clear(sums);
                (first, after) = (top, top);
            }

            for (; after < end; after++)
            {
                Lanes.AddScaled(shape.Row<float>(between, after), 1, sums);
            }

            for (; first < top; first++)
            {
                Lanes.AddScaled(shape.Row<float>(between, first), -1, sums);
            }

            Lanes.Scale(sums, 1f / (end - top), shape.Row(target, y));
        }
    }

    /// <summary>The mean with Gaussian weights.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape; beyond the edge lies the mirror image.</param>
    /// <param name="sigma">Standard deviation in pixels, 0.1 to 1,000.</param>
    /// <param name="target">The means; not the picture itself.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Sigma is not finite or outside its range.</exception>
    public static void Gaussian(ReadOnlySpan<float> source, GridShape shape, double sigma, Span<float> target)
    {
        shape.MustFit(source);
        shape.MustFit<float>(target);
        var weights = Weights(sigma);
        Separable.Sum(source, shape, (weights, weights), target);
    }

    internal static float[] Weights(double sigma)
    {
        Finite.Within(sigma, 0.1, 1_000);
        var reach = (int)Math.Ceiling(CutAt * sigma);
        var weights = new double[(2 * reach) + 1];
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] = Math.Exp(-0.5 * (i - reach) * (i - reach) / (sigma * sigma));
        }

        var sum = weights.Sum();
        return Array.ConvertAll(weights, weight => (float)(weight / sum));
    }

    private static void AlongRow(ReadOnlySpan<float> row, int radius, Span<float> means)
    {
        var sum = 0.0;
        var (first, after) = (0, 0);
        for (var x = 0; x < row.Length; x++)
        {
            for (; after < Math.Min(row.Length, x + radius + 1); after++)
            {
                sum += row[after];
            }

            for (; first < x - radius; first++)
            {
                sum -= row[first];
            }

            means[x] = (float)(sum / (after - first));
        }
    }
}
