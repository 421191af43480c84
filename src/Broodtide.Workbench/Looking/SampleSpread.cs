using Broodtide.Science.Counting;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Workbench.Looking;

/// <summary>How far the samples of one count lie apart, against what chance does in evenly stirred water.</summary>
public enum Apart
{
    /// <summary>Too few larvae were seen to tell.</summary>
    TooFew,

    /// <summary>No further apart than chance brings.</summary>
    AsChance,

    /// <summary>Further apart than chance brings in thirty-nine of forty counts.</summary>
    Wider,
}

/// <summary>The samples of one count beside each other. It says nothing of how many are alive.</summary>
/// <param name="Seen">Larvae seen in all samples.</param>
/// <param name="Volume">Volume of all samples.</param>
/// <param name="LeastPerLitre">Larvae a litre in the poorest sample.</param>
/// <param name="MostPerLitre">Larvae a litre in the richest sample.</param>
/// <param name="ByChance">How often chance alone brings samples of evenly stirred water at least this far apart.</param>
/// <param name="Apart">The same in words.</param>
public sealed record SampleSpread(
    int Seen,
    Volume Volume,
    double LeastPerLitre,
    double MostPerLitre,
    Probability ByChance,
    Apart Apart
)
{
    // Below one expected larva in a sample the test below is not to be relied on (Cochran 1954, from memory).
    private const double LeastExpected = 1;

    // A chance this small is pointed out, as wherever samples are told.
    private const double Unlikely = 0.025;

    /// <summary>Larvae a litre over all samples.</summary>
    public double PerLitre => Seen / Volume.Litres;

    /// <summary>
    /// Compares samples by Fisher's index of dispersion: the sum of (seen - expected)^2 / expected, where what is
    /// expected is in proportion to volume (in one volume it is <see cref="Dispersion"/>), against chi-square with one degree of freedom less than samples
    /// (R. A. Fisher, Statistical Methods for Research Workers, small samples of the Poisson series).
    /// </summary>
    /// <param name="samples">Larvae seen, 0 or more, and volume, above 0, of each.</param>
    /// <returns>The comparison; none for fewer than two samples.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is negative or a volume not above 0.</exception>
    public static SampleSpread? Of(IReadOnlyList<(int Seen, Volume Volume)> samples)
    {
        foreach (var (seen, volume) in samples)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(seen, nameof(samples));
            Finite.Positive(volume.Litres);
        }

        if (samples.Count < 2)
        {
            return null;
        }

        var litres = samples.Sum(sample => sample.Volume.Litres);
        var all = samples.Sum(sample => (double)sample.Seen);
        var index = 0.0;
        var leastExpected = double.MaxValue;
        foreach (var (seen, volume) in samples)
        {
            var expected = all * volume.Litres / litres;
            leastExpected = Math.Min(leastExpected, expected);
            index += expected > 0 ? (seen - expected) * (seen - expected) / expected : 0;
        }

        var byChance = Math.Clamp(1 - ChiSquared.CDF(samples.Count - 1, index), 0, 1);
        return new(
            (int)Math.Min(int.MaxValue, all),
            Volume.FromLitres(litres),
            samples.Min(sample => sample.Seen / sample.Volume.Litres),
            samples.Max(sample => sample.Seen / sample.Volume.Litres),
            Probability.FromFraction(byChance),
            leastExpected < LeastExpected ? Apart.TooFew
                : byChance < Unlikely ? Apart.Wider
                : Apart.AsChance
        );
    }
}
