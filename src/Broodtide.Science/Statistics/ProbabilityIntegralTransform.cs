using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Where what happened fell in each forecast, as probabilities: even between 0 and 1 if the forecasts are honest.
/// </summary>
public static class ProbabilityIntegralTransform
{
    /// <summary>Largest gap between the values' steps and the even line (Kolmogorov and Smirnov's D).</summary>
    /// <param name="values">Values from 0 to 1 in any order, at least one.</param>
    /// <returns>A gap, above 0 to 1.</returns>
    /// <exception cref="ArgumentException">There is no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside 0 to 1.</exception>
    public static double DistanceFromEven(ReadOnlySpan<double> values)
    {
        if (values.IsEmpty)
        {
            throw new ArgumentException("At least one value is needed.", nameof(values));
        }

        var sorted = values.ToArray();
        Array.Sort(sorted);
        var largest = 0.0;
        for (var i = 0; i < sorted.Length; i++)
        {
            var value = Finite.Within(sorted[i], 0, 1, nameof(values));
            largest = Math.Max(
                largest,
                Math.Max(((i + 1.0) / sorted.Length) - value, value - ((double)i / sorted.Length))
            );
        }

        return largest;
    }
}
