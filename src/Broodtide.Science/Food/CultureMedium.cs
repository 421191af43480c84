using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Arithmetic of culture media: amounts of substance, and stock solutions.</summary>
public static class CultureMedium
{
    /// <summary>Amount of substance in a litre, umol/L.</summary>
    /// <param name="dissolved">Mass of the substance in the water.</param>
    /// <param name="gramsPerMole">Molar mass of the substance as weighed, water of crystals included, g/mol, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No molar mass.</exception>
    public static double MicromolesPerLitre(Concentration dissolved, double gramsPerMole) =>
        dissolved.MilligramsPerLitre * 1000 / Finite.Positive(gramsPerMole);

    /// <summary>Mass of an element in a litre.</summary>
    /// <param name="micromolesPerLitre">umol/L, 0 or more.</param>
    /// <param name="gramsPerMole">Molar mass of the element, g/mol, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Concentration MassOf(double micromolesPerLitre, double gramsPerMole) =>
        Concentration.FromMilligramsPerLitre(
            Finite.NotNegative(micromolesPerLitre) * Finite.Positive(gramsPerMole) / 1000
        );

    /// <summary>Volume of stock solution for a volume of medium, C1 V1 = C2 V2.</summary>
    /// <param name="stock">Strength of the stock, above the wanted one.</param>
    /// <param name="wanted">Wanted in the medium.</param>
    /// <param name="medium">Volume of finished medium.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stock is no stronger than the medium.</exception>
    public static Volume Stock(Concentration stock, Concentration wanted, Volume medium) =>
        stock > wanted
            ? wanted.GramsPerLitre / stock.GramsPerLitre * medium
            : throw new ArgumentOutOfRangeException(
                nameof(stock),
                stock,
                "A stock must be stronger than what is made from it."
            );
}
