using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Trials;

/// <summary>The chance of finding something, as simulated.</summary>
/// <param name="Power">Share of the simulated trials that found it.</param>
/// <param name="Within">Where that chance lies after so many simulated trials, nine in ten sure.</param>
/// <param name="SmallestP">The smallest p that so many vessels can bring: above the level wanted, nothing can be found.</param>
/// <param name="Trials">How many trials were simulated.</param>
public sealed record SimulatedPower(Probability Power, Limits Within, Probability SmallestP, int Trials);

/// <summary>
/// The chance that a trial finds a difference, by simulating the trial and the analysis it will get: vessels whose true
/// shares scatter as a beta distribution about that of their treatment, larvae that live or die in them, and the
/// permutation test between vessels.
/// </summary>
public static class TrialPower
{
    /// <summary>Simulates trials.</summary>
    /// <param name="wanted">The shares that are true, the level of the test; its power is not asked.</param>
    /// <param name="vessels">Vessels in each arm, 1 to 50.</param>
    /// <param name="larvae">Larvae in a vessel, 1 or more.</param>
    /// <param name="correlation">Correlation between larvae of one vessel, 0 and below 1.</param>
    /// <param name="seed">The same seed gives the same answer.</param>
    /// <param name="trials">How many, 100 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static SimulatedPower Of(
        WantedFind wanted,
        int vessels,
        int larvae,
        Probability correlation,
        int seed,
        int trials = 1000
    )
    {
        Finite.Within(vessels, 1, 50);
        ArgumentOutOfRangeException.ThrowIfLessThan(larvae, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(trials, 100);
        Finite.Positive(correlation.Opposite, nameof(correlation));
        var random = new Random(seed);
        var found = 0;
        for (var trial = 0; trial < trials; trial++)
        {
            var first = Arm(wanted.First, vessels, larvae, correlation, random);
            var second = Arm(wanted.Second, vessels, larvae, correlation, random);
            found += VesselPermutation.OfGroups(first, second, seed).P <= wanted.FalseFind ? 1 : 0;
        }

        return new(
            Probability.FromFraction((double)found / trials),
            Proportions.Wilson(new(found, trials), Probability.FromFraction(0.9)),
            VesselPermutation.SmallestP(vessels, vessels),
            trials
        );
    }

    private static double[] Arm(
        Probability share,
        int vessels,
        int larvae,
        Probability correlation,
        Random random
    )
    {
        var shares = new double[vessels];
        var size = correlation.Value > 0 ? correlation.Opposite / correlation.Value : double.PositiveInfinity;
        for (var vessel = 0; vessel < vessels; vessel++)
        {
            var truth =
                double.IsFinite(size) && share.Value is > 0 and < 1
                    ? Beta.Sample(random, share.Value * size, share.Opposite * size)
                    : share.Value;
            shares[vessel] = (double)Binomial.Sample(random, truth, larvae) / larvae;
        }

        return shares;
    }
}
