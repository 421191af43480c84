using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>A count in a photo or by an eye that misses some.</summary>
/// <param name="Seen">How many were counted, 0 or more.</param>
/// <param name="Detection">
/// The chance that one is counted, learned from dishes with a known number at a similar density:
/// <see cref="BetaBelief.Flat"/> after the number found of the number known. It falls where larvae crowd.
/// </param>
/// <param name="FalseHits">Mean number of things counted that are no larvae, 0 or more, Poisson.</param>
public sealed record PhotoSeen(int Seen, BetaBelief Detection, double FalseHits = 0);

/// <summary>
/// The number behind a photo: n is beta-binomial in N with the learned chance of being counted, convolved with a
/// Poisson background of false hits; on a grid of N.
/// </summary>
public static class PhotoCount
{
    // A background this far above its mean no longer happens.
    private const double FarOut = 12;

    /// <summary>What is believed of the number afterwards.</summary>
    /// <param name="photo">The count.</param>
    /// <param name="prior">What is believed before.</param>
    /// <param name="most">The largest number thought possible: the tail reaches far where detection is hardly known.</param>
    /// <exception cref="ArgumentException">None were seen and the prior is 1/N.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A negative count, a background that is not finite or negative, or a largest number below the count or above ten
    /// million.
    /// </exception>
    public static NumberPosterior Posterior(PhotoSeen photo, CountPrior prior, int most)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(photo.Seen, nameof(photo));
        Finite.Within(photo.FalseHits, 0, 1e6, nameof(photo));
        Finite.Within(most, Math.Max(1, photo.Seen), 1e7);
        prior.MustAnswer(photo.Seen > 0);
        // With a background a number of none is possible too, to which 1/N gives no weight.
        var least = photo.FalseHits > 0 ? 0 : photo.Seen;
        least = prior == CountPrior.Flat ? least : Math.Max(1, least);
        var weights = new double[most - least + 1];
        Array.Fill(weights, double.NegativeInfinity);
        var falseMost =
            photo.FalseHits > 0
                ? (int)Math.Min(photo.Seen, photo.FalseHits + (FarOut * Math.Sqrt(photo.FalseHits)) + FarOut)
                : 0;
        for (var falseHits = 0; falseHits <= falseMost; falseHits++)
        {
            Add(weights, least, photo, falseHits);
        }

        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] += (prior.Shape() - 1) * Math.Log(Math.Max(0.5, least + i));
        }

        return NumberPosterior.Over(least, weights);
    }

    // Adds what N explains if so many hits were false, going from one N to the next by the ratio
    // P(n | N + 1) / P(n | N) = (N + 1)/(N + 1 - n) (b + N - n)/(a + b + N).
    private static void Add(double[] logWeights, int least, PhotoSeen photo, int falseHits)
    {
        var seen = photo.Seen - falseHits;
        var (a, b) = (photo.Detection.A, photo.Detection.B);
        var first = Math.Max(least, seen);
        var log =
            LogProbability.Poisson(falseHits, photo.FalseHits)
            + LogProbability.BetaBinomial(seen, first, photo.Detection);
        for (var n = first; n - least < logWeights.Length; n++)
        {
            var here = logWeights[n - least];
            var top = Math.Max(here, log);
            logWeights[n - least] = top + Math.Log(Math.Exp(here - top) + Math.Exp(log - top));
            log += Math.Log((n + 1.0) / (n + 1.0 - seen) * (b + n - seen) / (a + b + n));
        }
    }
}
