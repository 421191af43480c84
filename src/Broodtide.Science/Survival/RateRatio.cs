using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Survival;

/// <summary>
/// The ratio of two rates of counted events, with exact limits: given their sum, the first count is binomial
/// (Clopper-Pearson limits of its share, turned into a ratio). Central limits, half of the misses on each side.
/// </summary>
public static class RateRatio
{
    /// <summary>Limits of rate 1 over rate 2.</summary>
    /// <param name="events1">Whole number of events, 0 or more.</param>
    /// <param name="exposure1">What they were counted in (time, volume, fraction), above zero.</param>
    /// <param name="events2">Whole number of events, above zero: without any there is no upper limit.</param>
    /// <param name="exposure2">What they were counted in, above zero.</param>
    /// <param name="level">Nominal level, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public static CentralInterval Exact(
        int events1,
        double exposure1,
        int events2,
        double exposure2,
        Probability level
    )
    {
        Finite.NotNegative(events1);
        Finite.Positive(events2);
        var exposures = Finite.Positive(exposure2) / Finite.Positive(exposure1);
        var tail = 0.5 * Finite.Within(level.Opposite, double.Epsilon, Math.BitDecrement(1), nameof(level));
        var lower = events1 == 0 ? 0 : Beta.InvCDF(events1, events2 + 1, tail);
        var upper = Beta.InvCDF(events1 + 1, events2, 1 - tail);
        return new(lower / (1 - lower) * exposures, upper / (1 - upper) * exposures, 2 * tail);
    }
}
