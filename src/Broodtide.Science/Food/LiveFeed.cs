using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Brine shrimp nauplii as food for larvae that can take them.</summary>
public static class LiveFeed
{
    private static readonly Volume LargeHatchery = Volume.FromLitres(20);

    /// <summary>
    /// Cysts for a density of nauplii. Good cysts give 200,000 to 300,000 nauplii a gram (Treece 2000, Southern Regional
    /// Aquaculture Center publication 702).
    /// </summary>
    /// <param name="vessel">Water they go into.</param>
    /// <param name="naupliiPerMillilitre">Wanted, 1/mL, 0 or more.</param>
    /// <param name="naupliiPerGram">From a gram of cysts, above zero.</param>
    /// <param name="harvested">Share of the hatched that is gathered, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Mass Cysts(
        Volume vessel,
        double naupliiPerMillilitre,
        double naupliiPerGram,
        Probability harvested
    ) =>
        Mass.FromGrams(
            vessel.Millilitres
                * Finite.NotNegative(naupliiPerMillilitre)
                / (Finite.Positive(naupliiPerGram) * Finite.Positive(harvested.Value, nameof(harvested)))
        );

    /// <summary>
    /// The most cysts that hatch well in a vessel: 5 g/L below 20 L, 2 g/L from there on (New and others 2010, Freshwater
    /// Prawns, after FAO).
    /// </summary>
    /// <param name="hatchery">Water to hatch in.</param>
    public static Concentration DensestCysts(Volume hatchery) =>
        Concentration.FromGramsPerLitre(hatchery < LargeHatchery ? 5 : 2);
}
