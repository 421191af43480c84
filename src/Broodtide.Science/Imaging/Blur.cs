using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>Means over neighbours.</summary>
public static class Blur
{
    /// <summary>Beyond so many standard deviations a Gaussian is cut off: 6e-5 of its weight lies outside.</summary>
    // Sums that slide wait for each other: each costs as much as so many values fetched.
    private const int BoxFetches = 12;

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
        BoxOf(source, shape, radius, null, target);
    }

    /// <summary>The mean over a square of the values or, where a level is given, of the squares of how far they lie from it.</summary>
    internal static void BoxOf(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        float? level,
        Span<float> target
    )
    {
        new Boxes(shape, radius, level).Rows(source, target, 0, shape.Down);
    }

    /// <summary>The same with pauses.</summary>
    internal static IEnumerable<Pause> BoxSteps(
        float[] source,
        GridShape shape,
        int radius,
        float[] target,
        float? level = null
    )
    {
        Finite.Within(radius, 0, 16_000);
        var boxes = new Boxes(shape, radius, level);
        foreach (var (from, to) in Bands.Of(shape, BoxFetches))
        {
            boxes.Rows(source, target, from, to);
            yield return default;
        }
    }

    /// <summary><see cref="Gaussian"/> with pauses.</summary>
    internal static IEnumerable<Pause> GaussianSteps(
        float[] source,
        GridShape shape,
        double sigma,
        float[] target
    )
    {
        var weights = Weights(sigma);
        return Separable.Steps(source, shape, (weights, weights), target);
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

    private sealed class Boxes(GridShape shape, int radius, float? level)
    {
        private readonly float[] _sums = new float[shape.Across];
        private int _first;
        private int _after;

        // From the first row downward, each once.
        public void Rows(ReadOnlySpan<float> source, Span<float> target, int from, int to)
        {
            for (var y = from; y < to; y++)
            {
                var (top, end) = (Math.Max(0, y - radius), Math.Min(shape.Down, y + radius + 1));
                // Now and then from the start, so that the rounding of sums does not pile up.
                if (y % ((2 * radius) + 1) == 0)
                {
                    Array.Clear(_sums);
                    (_first, _after) = (top, top);
                }

                for (; _after < end; _after++)
                {
                    Add(shape.Row(source, _after), 1, level, _sums);
                }

                for (; _first < top; _first++)
                {
                    Add(shape.Row(source, _first), -1, level, _sums);
                }

                AlongRow(_sums, radius, end - top, shape.Row(target, y));
            }
        }
    }

    private static void Add(ReadOnlySpan<float> row, float sign, float? level, Span<float> sums)
    {
        if (level is { } about)
        {
            Lanes.AddSquareApart(row, about, sign, sums);
        }
        else
        {
            Lanes.AddScaled(row, sign, sums);
        }
    }

    // The sum over a window that slides along the row. Four windows slide side by side, each along a quarter of the
    // inner part, because each step has to wait for the one before it.
    private static void AlongRow(ReadOnlySpan<float> sums, int radius, int rows, Span<float> means)
    {
        var (window, inner) = ((2 * radius) + 1, sums.Length - (2 * radius));
        var quarter = inner / 4;
        if (quarter <= 0)
        {
            Slowly(sums, radius, rows, means, 0, sums.Length);
            return;
        }

        var share = 1.0 / ((double)window * rows);
        var (a, b, c, d) = (
            Sum(sums[..window]),
            Sum(sums.Slice(quarter, window)),
            Sum(sums.Slice(2 * quarter, window)),
            Sum(sums.Slice(3 * quarter, window))
        );
        var whole = quarter - 1;
        // Slices of one length, so that the loop knows that no index leaves them.
        var (a0, a1, at) = Parts(sums, means, radius, 0, whole);
        var (b0, b1, bt) = Parts(sums, means, radius, quarter, whole);
        var (c0, c1, ct) = Parts(sums, means, radius, 2 * quarter, whole);
        var (d0, d1, dt) = Parts(sums, means, radius, 3 * quarter, whole);
        for (var i = 0; i < whole; i++)
        {
            at[i] = (float)(a * share);
            bt[i] = (float)(b * share);
            ct[i] = (float)(c * share);
            dt[i] = (float)(d * share);
            a += a1[i] - a0[i];
            b += b1[i] - b0[i];
            c += c1[i] - c0[i];
            d += d1[i] - d0[i];
        }

        var last = radius + whole;
        means[last] = (float)(a * share);
        means[last + quarter] = (float)(b * share);
        means[last + (2 * quarter)] = (float)(c * share);
        means[last + (3 * quarter)] = (float)(d * share);
        Slowly(sums, radius, rows, means, 0, radius);
        Slowly(sums, radius, rows, means, radius + (4 * quarter), sums.Length);
    }

    private static Slide Parts(
        ReadOnlySpan<float> sums,
        Span<float> means,
        int radius,
        int from,
        int length
    ) =>
        new(
            sums.Slice(from, length),
            sums.Slice(from + (2 * radius) + 1, length),
            means.Slice(from + radius, length)
        );

    private static double Sum(ReadOnlySpan<float> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }

    // From one place to before another, with windows cut at the edge.
    private static void Slowly(
        ReadOnlySpan<float> sums,
        int radius,
        int rows,
        Span<float> means,
        int from,
        int end
    )
    {
        var sum = 0.0;
        var (first, after) = (Math.Max(0, from - radius), Math.Max(0, from - radius));
        for (var x = from; x < end; x++)
        {
            for (; after < Math.Min(sums.Length, x + radius + 1); after++)
            {
                sum += sums[after];
            }

            for (; first < x - radius; first++)
            {
                sum -= sums[first];
            }

            means[x] = (float)(sum / ((double)(after - first) * rows));
        }
    }

    // What leaves the window, what enters it, and where its mean goes.
    private readonly ref struct Slide(
        ReadOnlySpan<float> leaving,
        ReadOnlySpan<float> entering,
        Span<float> means
    )
    {
        private readonly ReadOnlySpan<float> _leaving = leaving;
        private readonly ReadOnlySpan<float> _entering = entering;
        private readonly Span<float> _means = means;

        public void Deconstruct(
            out ReadOnlySpan<float> leaving,
            out ReadOnlySpan<float> entering,
            out Span<float> means
        )
        {
            leaving = _leaving;
            entering = _entering;
            means = _means;
        }
    }
}
