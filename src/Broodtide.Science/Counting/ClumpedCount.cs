using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Counting;

/// <summary>A negative binomial fitted to counts.</summary>
/// <param name="Clumping">
/// Clumping k: small is clumped, large is even; none where the counts vary no more than by even mixing.
/// </param>
/// <param name="Mean">Mean count.</param>
/// <param name="LogLikelihood">Log likelihood, nat.</param>
public sealed record ClumpedFit(double? Clumping, double Mean, double LogLikelihood);

/// <summary>Counts of clumped individuals: negative binomial, variance m + m^2 / k.</summary>
public static class ClumpedCount
{
    // A clumping beyond this is told from even mixing by no count.
    private const double MostClumping = 1e6;
    private const double FarthestLog = 650;

    /// <summary>
    /// Fits mean and clumping by maximum likelihood; the mean is that of the counts (Bliss and Fisher 1953, Biometrics
    /// 9:176).
    /// </summary>
    /// <exception cref="ArgumentException">Less than two counts, or nothing seen in any.</exception>
    public static ClumpedFit Fit(IReadOnlyList<CountFrequency> table)
    {
        var index = Dispersion.Of(table);
        var even = table.Sum(row => row.Times * LogProbability.Poisson(row.Count, index.Mean));
        // The likelihood has a top at a finite k only where the variance with n exceeds the mean.
        var variance = index.Variance * index.DegreesOfFreedom / (index.DegreesOfFreedom + 1);
        if (variance <= index.Mean)
        {
            return new(null, index.Mean, even);
        }

        var found = Maximum.Find(
            at => LogLikelihood(table, index.Mean, Math.Exp(Math.Clamp(at[0], -20, 20))),
            [Math.Log(index.Mean * index.Mean / (variance - index.Mean))]
        );
        var clumping = Math.Exp(found.At[0]);
        return clumping < MostClumping ? new(clumping, index.Mean, found.Value) : new(null, index.Mean, even);
    }

    /// <summary>
    /// Exact limits of the mean count of an aliquot with k known: the sum of n aliquots is negative binomial with size
    /// n k, whose tails are turned round.
    /// </summary>
    /// <param name="sum">Sum over the aliquots.</param>
    /// <param name="clumping">How many aliquots, and their clumping k.</param>
    /// <param name="level">Level of confidence, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative sum, or a level of 0 or 1.</exception>
    public static Limits MeanLimits(int sum, AliquotClumping clumping, Probability level)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(sum);
        var tail = Limits.Tail(level);
        var size = clumping.Aliquots * clumping.K;
        // P(X <= s) = I_p(size, s + 1) with p = size / (size + n m), so each limit is a beta quantile.
        return new(
            sum == 0 ? 0 : MeanAt(size, sum, 1 - tail) / clumping.Aliquots,
            MeanAt(size, sum + 1, tail) / clumping.Aliquots,
            level
        );
    }

    // The mean of the sum at which the share p of a beta(size, successes) has the probability below it.
    private static double MeanAt(double size, double successes, double probability)
    {
        // Found on the logarithm of mean / size, so that thin tails keep their digits
        // (strong clumping puts an upper limit hundreds of powers of ten away).
        var (low, high) = (-FarthestLog, FarthestLog);
        for (var i = 0; i < 200 && high - low > 1e-13; i++)
        {
            var middle = (low + high) / 2;
            var below = SpecialFunctions.BetaRegularized(size, successes, SpecialFunctions.Logistic(-middle));
            (low, high) = below > probability ? (middle, high) : (low, middle);
        }

        return size * Math.Exp((low + high) / 2);
    }

    private static double LogLikelihood(IReadOnlyList<CountFrequency> table, double mean, double clumping) =>
        table.Sum(row => row.Times * LogProbability.NegativeBinomial(row.Count, mean, clumping));
}

/// <summary>How many aliquots, with the clumping they show.</summary>
public sealed record AliquotClumping
{
    /// <summary>So many aliquots of such clumping.</summary>
    /// <param name="aliquots">How many, 1 or more.</param>
    /// <param name="k">Clumping k of an aliquot, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public AliquotClumping(int aliquots, double k)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(aliquots, 1);
        Aliquots = aliquots;
        K = Finite.Positive(k);
    }

    /// <summary>How many.</summary>
    public int Aliquots { get; }

    /// <summary>Clumping k.</summary>
    public double K { get; }
}
