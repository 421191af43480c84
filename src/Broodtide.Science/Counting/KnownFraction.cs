using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Counting;

/// <summary>
/// A count in a known fraction of well mixed water: x of N, each in the sample with probability f. Also a count by an
/// eye that sees each with a known probability.
/// </summary>
public sealed record KnownFraction
{
    /// <summary>So many in such a fraction.</summary>
    /// <param name="seen">The count, 0 to 100 million.</param>
    /// <param name="fraction">Fraction of the whole, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count outside these limits, or a fraction of 0.</exception>
    public KnownFraction(int seen, Probability fraction)
    {
        Finite.Within(seen, 0, 1e8);
        Finite.Within(fraction.Value, 1e-9, 1, nameof(fraction));
        Seen = seen;
        Fraction = fraction;
    }

    /// <summary>The count.</summary>
    public int Seen { get; }

    /// <summary>Fraction of the whole.</summary>
    public Probability Fraction { get; }

    /// <summary>The plain estimate, count over fraction.</summary>
    public double Estimate => Seen / Fraction.Value;

    /// <summary>Standard deviation of the plain estimate, sqrt(x (1 - f)) / f.</summary>
    public double StandardDeviation => Math.Sqrt(Seen * Fraction.Opposite) / Fraction.Value;

    /// <summary>
    /// Exact limits: the smallest and the largest N at which both tails of the binomial exceed half the risk. The
    /// Poisson limits of <see cref="PoissonCount.Garwood"/> are nearly the same up to a fraction of about 2 %, and far
    /// too wide when most of the water was searched.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public Limits Limits(Probability level)
    {
        var tail = Statistics.Limits.Tail(level);
        if (Fraction.Value >= 1)
        {
            return new(Seen, Seen, level);
        }

        // P(X >= x | N) = I_f(x, N - x + 1) rises with N; P(X <= x | N) = I_(1-f)(N - x, x + 1) falls.
        var lower =
            Seen == 0
                ? 0
                : WholeNumbers.First(
                    Seen,
                    n => SpecialFunctions.BetaRegularized(Seen, n - Seen + 1, Fraction.Value) > tail
                );
        var beyond = WholeNumbers.First(
            Seen + 1.0,
            n => SpecialFunctions.BetaRegularized(n - Seen, Seen + 1.0, Fraction.Opposite) <= tail
        );
        return new(lower, beyond - 1, level);
    }

    /// <summary>What is believed of N afterwards.</summary>
    /// <exception cref="ArgumentException">None were seen and the prior is 1/N.</exception>
    public KnownFractionPosterior Posterior(CountPrior prior)
    {
        prior.MustAnswer(Seen > 0);
        return new(this, prior);
    }
}

/// <summary>
/// The belief after a count in a known fraction: N - x is negative binomial with x (prior 1/N), x + 1 (flat) or
/// x + 1/2 (inverse root) and f, since the sum of C(N, x) f^x (1 - f)^(N - x) over N is that of a negative binomial.
/// </summary>
public sealed record KnownFractionPosterior
{
    private readonly double _size;

    internal KnownFractionPosterior(KnownFraction count, CountPrior prior)
    {
        Count = count;
        Prior = prior;
        _size = count.Seen + prior.Shape();
    }

    /// <summary>The count.</summary>
    public KnownFraction Count { get; }

    /// <summary>What was believed before.</summary>
    public CountPrior Prior { get; }

    /// <summary>Mean number in the whole.</summary>
    public double Mean => Count.Seen + (_size * Count.Fraction.Opposite / Count.Fraction.Value);

    /// <summary>Standard deviation of the number in the whole.</summary>
    public double StandardDeviation => Math.Sqrt(_size * Count.Fraction.Opposite) / Count.Fraction.Value;

    /// <summary>The smallest number whose cumulative probability reaches a probability.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A probability of 1.</exception>
    public double Quantile(Probability probability)
    {
        Finite.Within(probability.Value, 0, 1 - 1e-12, nameof(probability));
        return Count.Fraction.Value >= 1
            ? Count.Seen
            : Count.Seen
                + WholeNumbers.First(
                    0,
                    m =>
                        SpecialFunctions.BetaRegularized(_size, m + 1, Count.Fraction.Value)
                        >= probability.Value
                );
    }

    /// <summary>The 5, 50 and 95 % points.</summary>
    public Interval ToInterval() => WholeNumbers.ToInterval(Quantile);
}
