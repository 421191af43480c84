using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>Readings that lie far from the middle of their neighbours (Hampel identifier). They are named, never removed.</summary>
public static class Spikes
{
    /// <summary>
    /// Places, from 0, of readings further from the median of their window than so many standard deviations, which are
    /// taken as 1.4826 medians of the absolute deviations in that window (Hampel 1974, J. Am. Stat. Assoc. 69:383).
    /// </summary>
    /// <param name="readings">In order of time, evenly spaced or nearly so.</param>
    /// <param name="halfWidth">Neighbours on each side, at least 1, at most 10,000; fewer at the ends of the series.</param>
    /// <param name="threshold">Standard deviations, above 0; 3 is usual.</param>
    /// <param name="resolution">
    /// The finest step of the instrument, in the unit of the readings: the median of the deviations is taken to be no
    /// smaller, or every flicker of a level series would be a spike. 0 where the readings are not stepped.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given, or a reading is not finite.</exception>
    public static IReadOnlyList<int> In(
        ReadOnlySpan<double> readings,
        int halfWidth,
        double threshold,
        double resolution = 0
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(halfWidth, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(halfWidth, 10_000);
        Finite.Positive(threshold);
        Finite.NotNegative(resolution);
        foreach (var reading in readings)
        {
            Finite.Required(reading, nameof(readings));
        }

        var found = new List<int>();
        var window = new double[(2 * halfWidth) + 1];
        for (var i = 0; i < readings.Length; i++)
        {
            var first = Math.Max(0, i - halfWidth);
            var near = window.AsSpan(0, Math.Min(readings.Length, i + halfWidth + 1) - first);
            readings.Slice(first, near.Length).CopyTo(near);
            var middle = Scatter.MedianOf(near);
            foreach (ref var value in near)
            {
                value = Math.Abs(value - middle);
            }

            var deviation = Scatter.DeviationOfMedian * Math.Max(resolution, Scatter.MedianOf(near));
            if (Math.Abs(readings[i] - middle) > threshold * deviation)
            {
                found.Add(i);
            }
        }

        return found;
    }
}
