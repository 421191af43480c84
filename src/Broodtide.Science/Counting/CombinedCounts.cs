using Broodtide.Science.Statistics;

namespace Broodtide.Science.Counting;

/// <summary>
/// Several counts of one number, independent of each other: the likelihoods are multiplied on one grid of N. Two
/// counts of one poured beaker are not two samples, and counts of different days are not counts of one number.
/// </summary>
public static class CombinedCounts
{
    /// <summary>What is believed of the number afterwards; it is not below the largest count.</summary>
    /// <param name="counts">The counts, each with its fraction or chance of being seen.</param>
    /// <param name="prior">What is believed before.</param>
    /// <exception cref="ArgumentException">
    /// There is no count, or none were seen at all and the prior is 1/N, or whole counts differ.
    /// </exception>
    public static NumberPosterior Posterior(IReadOnlyList<KnownFraction> counts, CountPrior prior)
    {
        if (counts.Count == 0)
        {
            throw new ArgumentException("There is no count.", nameof(counts));
        }

        var seen = counts.Sum(count => (double)count.Seen);
        prior.MustAnswer(seen > 0);
        var weight = prior.Shape() - 1;
        var certain = counts
            .Where(count => count.Fraction.Value >= 1)
            .Select(count => (double)count.Seen)
            .Distinct();
        double[] known = [.. certain];
        var least = counts.Max(count => (double)count.Seen);
        if (known.Length > 0)
        {
            return known.Length == 1 && known[0] >= least
                ? NumberPosterior.Over((int)known[0], [0])
                : throw new ArgumentException("A whole count contradicts another.", nameof(counts));
        }

        return NumberPosterior.Around(
            least,
            seen / counts.Sum(count => count.Fraction.Value),
            n =>
                counts.Sum(count => LogProbability.Binomial(count.Seen, n, count.Fraction))
                + (weight == 0 ? 0 : weight * Math.Log(Math.Max(n, 0.5)))
        );
    }
}
