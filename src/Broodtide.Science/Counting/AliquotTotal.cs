using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>
/// How many there are in a vessel by aliquots, each with its own number and volume, when it is not known how clumped
/// they are. Each count is negative binomial with mean density times volume and one clumping k, which is integrated
/// out; the density has a prior of its own; what stayed in the vessel varies about its mean as so many more such
/// aliquots would. When all the water was sampled, the number is known.
/// </summary>
public static class AliquotTotal
{
    /// <summary>What is believed of the number in the vessel before the aliquots were taken, larvae.</summary>
    /// <param name="aliquots">One aliquot or more.</param>
    /// <param name="whole">Water in the vessel before they were taken.</param>
    /// <param name="clumping">What is believed of the clumping; the usual prior if none is given.</param>
    /// <param name="prior">What is believed of the density.</param>
    /// <exception cref="ArgumentException">No aliquot, or none seen with the prior 1/N.</exception>
    /// <exception cref="ArgumentOutOfRangeException">More water sampled than the vessel held.</exception>
    public static AliquotTotalPosterior Posterior(
        IReadOnlyList<AliquotSeen> aliquots,
        Volume whole,
        ClumpingPrior? clumping = null,
        CountPrior prior = CountPrior.InverseRoot
    )
    {
        var sampled = AliquotScaling.SampledLitres(aliquots, whole);
        var seen = aliquots.Sum(aliquot => (double)aliquot.Seen);
        prior.MustAnswer(seen > 0);
        var density = DensityBelief.After(aliquots, clumping ?? ClumpingPrior.Usual, prior);
        var rest = Math.Max(0, whole.Litres - sampled);
        // Rest litres that are only rounding hold nobody.
        rest = rest <= 1e-9 * whole.Litres ? 0 : rest;
        return new(seen, rest, sampled / aliquots.Count, density);
    }
}
