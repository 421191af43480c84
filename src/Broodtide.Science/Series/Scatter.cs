using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>How much readings of a series scatter about whatever they follow.</summary>
public static class Scatter
{
    // Mean of the absolute difference of two standard normals, 2/sqrt(pi).
    private static readonly double MeanDifference = 2 / Math.Sqrt(Math.PI);

    // Ratio of the standard deviation of a normal to the median of its absolute deviations, 1/quantile(3/4).
    internal const double DeviationOfMedian = 1.4826;

    /// <summary>
    /// Standard deviation of a reading from differences of neighbours, so that a slow course does not count as scatter
    /// (moving range; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). Remove spikes first.
    /// </summary>
    /// <param name="readings">Two or more, in order of time.</param>
    /// <returns>0 or above, in the unit of the readings.</returns>
    /// <exception cref="ArgumentException">Fewer than two.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double FromNeighbours(ReadOnlySpan<double> readings)
    {
        if (readings.Length < 2)
        {
            throw new ArgumentException("Two readings at least have a difference.", nameof(readings));
        }

        var sum = 0.0;
        for (var i = 1; i < readings.Length; i++)
        {
            sum += Math.Abs(
                Finite.Required(readings[i], nameof(readings))
                    - Finite.Required(readings[i - 1], nameof(readings))
            );
        }

        return sum / (readings.Length - 1) / MeanDifference;
    }

    /// <summary>The middle of what lies in a span, which is put in order by this.</summary>
    internal static double MedianOf(Span<double> values)
    {
        values.Sort();
        var half = values.Length / 2;
        return values.Length % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }
}
