using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>
/// Fewer points that draw the same line. For drawing only: nothing is computed from what is left. Alarm spans are added
/// whole by whoever draws.
/// </summary>
public static class Thinning
{
    /// <summary>
    /// Places, from 0, of the points to keep: the first, the last, and of each bucket between them the point that makes the
    /// largest triangle with the point kept before and the mean of the bucket after (Steinarsson 2013, thesis, University
    /// of Iceland, largest triangle three buckets).
    /// </summary>
    /// <param name="x">Times, rising.</param>
    /// <param name="y">Readings, as many.</param>
    /// <param name="keep">How many to keep, at least 3; all are kept where there are no more.</param>
    /// <exception cref="ArgumentException">Other numbers of x than of y.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 3 to keep, or a point is not finite.</exception>
    public static int[] ByTriangles(ReadOnlySpan<double> x, ReadOnlySpan<double> y, int keep)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(keep, 3);
        Check(x, y);
        var count = x.Length;
        if (count <= keep)
        {
            return [.. Enumerable.Range(0, count)];
        }

        int Edge(int bucket) => (int)((long)bucket * (count - 2) / (keep - 2)) + 1;

        var kept = new int[keep];
        kept[keep - 1] = count - 1;
        for (var bucket = 0; bucket < keep - 2; bucket++)
        {
            var (first, next) = (Edge(bucket), Edge(bucket + 1));
            var after = bucket == keep - 3 ? count - 1 : next;
            var end = bucket == keep - 3 ? count : Edge(bucket + 2);
            var (meanX, meanY) = (Mean(x[after..end]), Mean(y[after..end]));
            var (fromX, fromY) = (x[kept[bucket]], y[kept[bucket]]);
            var largest = -1.0;
            for (var i = first; i < next; i++)
            {
                var area = Math.Abs(((fromX - meanX) * (y[i] - fromY)) - ((fromX - x[i]) * (meanY - fromY)));
                if (area > largest)
                {
                    (largest, kept[bucket + 1]) = (area, i);
                }
            }
        }

        return kept;
    }

    /// <summary>
    /// Places, rising, of the triangle points together with the lowest and the highest point of each of so many equal
    /// numbers of points, so that no extreme is lost in a drawing.
    /// </summary>
    /// <param name="x">Times, rising.</param>
    /// <param name="y">Readings, as many.</param>
    /// <param name="keep">How many triangle points, at least 3.</param>
    /// <param name="spans">In how many stretches the extremes are kept, at least 1.</param>
    /// <exception cref="ArgumentException">Other numbers of x than of y.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Too few to keep, or a point is not finite.</exception>
    public static int[] WithExtremes(ReadOnlySpan<double> x, ReadOnlySpan<double> y, int keep, int spans)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(spans, 1);
        var kept = new SortedSet<int>(ByTriangles(x, y, keep));
        for (var span = 0; span < spans; span++)
        {
            var first = (int)((long)span * y.Length / spans);
            var end = (int)((long)(span + 1) * y.Length / spans);
            if (first == end)
            {
                continue;
            }

            var (lowest, highest) = (first, first);
            for (var i = first + 1; i < end; i++)
            {
                lowest = y[i] < y[lowest] ? i : lowest;
                highest = y[i] > y[highest] ? i : highest;
            }

            kept.Add(lowest);
            kept.Add(highest);
        }

        return [.. kept];
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }

    private static void Check(ReadOnlySpan<double> x, ReadOnlySpan<double> y)
    {
        if (x.Length != y.Length)
        {
            throw new ArgumentException("As many readings as times.", nameof(y));
        }

        for (var i = 0; i < x.Length; i++)
        {
            Finite.Required(x[i], nameof(x));
            Finite.Required(y[i], nameof(y));
        }
    }
}
