using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Un-ionised ammonia, the part of total ammonia that poisons: fraction f = 1 / (1 + 10^(pKa - pH)). The usual
/// constant is Hampson's, which runs from fresh to sea water and goes with NBS/NIST buffers; about 10 % of doubt.
/// </summary>
public static class Ammonia
{
    /// <summary>Relative doubt of a fraction, both ways: the spread between the published constants.</summary>
    public const double RelativeDoubt = 0.10;

    // IUPAC standard atomic weights: NH3 17.031, N 14.007.
    private const double AmmoniaPerNitrogen = 17.031 / 14.007;

    /// <summary>Fraction of total ammonia that is un-ionised, by Hampson's constant.</summary>
    /// <param name="salinity">Practical salinity, published 0 to 40.</param>
    /// <param name="temperature">Published 0 to 35 degC.</param>
    /// <param name="pHNbs">pH by an electrode set in NBS/NIST buffers, 0 to 14.</param>
    /// <returns>A fraction, 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static Computed<Probability> Fraction(Salinity salinity, Temperature temperature, double pHNbs) =>
        At(AmmoniaDissociation.Hampson(salinity, temperature), pHNbs);

    /// <summary>Fraction in fresh water, by Emerson's constant.</summary>
    /// <param name="temperature">Published 0 to 50 degC.</param>
    /// <param name="pH">pH, 0 to 14.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static Computed<Probability> FractionInFreshWater(Temperature temperature, double pH) =>
        At(AmmoniaDissociation.Emerson(temperature), pH);

    /// <summary>Fraction in full sea water, by the table of Bower and Bidwell.</summary>
    /// <param name="salinity">Practical salinity, published 32 to 40.</param>
    /// <param name="temperature">Published 10 to 25 degC.</param>
    /// <param name="pHNbs">pH by an electrode set in NBS/NIST buffers, 0 to 14.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static Computed<Probability> FractionByBowerBidwell(
        Salinity salinity,
        Temperature temperature,
        double pHNbs
    ) => At(AmmoniaDissociation.BowerBidwell(salinity, temperature), pHNbs);

    /// <summary>Fraction where pH is on the total scale, by the constant of Clegg and Whitfield.</summary>
    /// <param name="salinity">Practical salinity, published 0 to 40.</param>
    /// <param name="temperature">Published -2 to 40 degC.</param>
    /// <param name="pHTotal">pH on the total scale (Tris buffers in sea water), 0 to 14.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static Computed<Probability> FractionOnTotalScale(
        Salinity salinity,
        Temperature temperature,
        double pHTotal
    ) => At(AmmoniaDissociation.CleggWhitfieldTotalScale(salinity, temperature), pHTotal);

    /// <summary>Un-ionised ammonia, as nitrogen, in water of a total ammonia, as nitrogen.</summary>
    public static Concentration UnionisedNitrogen(Concentration totalNitrogen, Probability fraction) =>
        Concentration.FromMilligramsPerLitre(fraction.Value * totalNitrogen.MilligramsPerLitre);

    /// <summary>The same ammonia said as NH3 instead of nitrogen, 1.2159 times as much.</summary>
    public static Concentration AsAmmonia(Concentration nitrogen) =>
        Concentration.FromMilligramsPerLitre(AmmoniaPerNitrogen * nitrogen.MilligramsPerLitre);

    /// <summary>The same ammonia said as nitrogen instead of NH3.</summary>
    public static Concentration AsNitrogen(Concentration ammonia) =>
        Concentration.FromMilligramsPerLitre(ammonia.MilligramsPerLitre / AmmoniaPerNitrogen);

    private static Computed<Probability> At(Computed<double> pKa, double pH)
    {
        Finite.Within(pH, 0, 14);
        return pKa.Then(value => Probability.FromFraction(1 / (1 + Math.Pow(10, value - pH))));
    }
}
