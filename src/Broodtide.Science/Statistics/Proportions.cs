using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Limits for a proportion. They hold for individuals that respond independently, that is inside one vessel; between
/// vessels see <see cref="Overdispersion"/>. Which one: Brown, Cai and DasGupta 2001, Statist. Sci. 16:101.
/// </summary>
public static class Proportions
{
    /// <summary>Wilson 1927, J. Am. Stat. Assoc. 22:209: the score test turned round. For showing.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public static Limits Wilson(Tally tally, Probability level)
    {
        var z = -Normal.InvCDF(0, 1, Limits.Tail(level));
        var (n, p) = (tally.Trials, tally.Share);
        var middle = (p + (z * z / (2 * n))) / (1 + (z * z / n));
        var reach = z * Math.Sqrt((p * (1 - p) / n) + (z * z / (4.0 * n * n))) / (1 + (z * z / n));
        // At none and at all a limit is exactly 0 or 1; only rounding says otherwise.
        return new(
            tally.Happened == 0 ? 0 : Math.Max(0, middle - reach),
            tally.Happened == tally.Trials ? 1 : Math.Min(1, middle + reach),
            level
        );
    }

    /// <summary>
    /// Clopper and Pearson 1934, Biometrika 26:404: both tails of the binomial turned round. Never too narrow.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public static Limits ClopperPearson(Tally tally, Probability level)
    {
        var tail = Limits.Tail(level);
        var (x, n) = (tally.Happened, tally.Trials);
        return new(
            x == 0 ? 0 : Beta.InvCDF(x, n - x + 1, tail),
            x == n ? 1 : Beta.InvCDF(x + 1, n - x, 1 - tail),
            level
        );
    }

    /// <summary>
    /// Quantiles of the posterior under Jeffreys' prior, Beta(x + 1/2, n - x + 1/2), with equal tails also at none
    /// and at all. Links to beliefs.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public static Limits Jeffreys(Tally tally, Probability level)
    {
        var tail = Limits.Tail(level);
        var belief = new BetaBelief(0.5, 0.5).After(tally);
        return new(
            belief.Quantile(Probability.FromFraction(tail)),
            belief.Quantile(Probability.FromFraction(1 - tail)),
            level
        );
    }
}
