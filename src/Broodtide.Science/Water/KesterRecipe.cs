using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Sea water from pure salts, by mass in a kilogram of finished water. The hydrated chlorides are dissolved apart
/// and added last.
/// Source: Kester et al. 1967, Limnol. Oceanogr. 12:176, recipe for S = 35; other salinities in proportion. Molar
/// masses from IUPAC standard atomic weights.
/// </summary>
public static class KesterRecipe
{
    private const double RecipeSalinity = 35;

    /// <summary>The salts of the recipe for S = 35.</summary>
    public static ImmutableArray<KesterSalt> Salts { get; } =
    [
        KesterSalt.ByMass("NaCl", 23.926),
        KesterSalt.ByMass("Na2SO4", 4.008),
        KesterSalt.ByMass("KCl", 0.677),
        KesterSalt.ByMass("NaHCO3", 0.196),
        KesterSalt.ByMass("KBr", 0.098),
        KesterSalt.ByMass("H3BO3", 0.026),
        KesterSalt.ByMass("NaF", 0.003),
        KesterSalt.ByMoles("MgCl2.6H2O", 0.05327, 203.303, 95.211),
        KesterSalt.ByMoles("CaCl2.2H2O", 0.01033, 147.014, 110.984),
        KesterSalt.ByMoles("SrCl2.6H2O", 0.00009, 266.618, 158.526),
    ];

    /// <summary>Grams of a salt, as weighed, in a kilogram of finished water.</summary>
    /// <param name="formula">Formula as in <see cref="Salts"/>, with its water.</param>
    /// <param name="salinity">Practical salinity.</param>
    /// <exception cref="ArgumentException">The recipe does not hold the salt.</exception>
    public static double GramsPerKilogram(string formula, Salinity salinity)
    {
        foreach (var salt in Salts)
        {
            if (salt.Formula == formula)
            {
                return salt.GramsAsWeighed * salinity.Practical / RecipeSalinity;
            }
        }

        throw new ArgumentException(
            $"The recipe holds {string.Join(", ", Salts.Select(salt => salt.Formula))}.",
            nameof(formula)
        );
    }

    /// <summary>Grams of all salts without their water, in a kilogram of finished water.</summary>
    public static double AnhydrousGramsPerKilogram(Salinity salinity) =>
        Salts.Sum(salt => salt.GramsAnhydrous) * salinity.Practical / RecipeSalinity;

    /// <summary>Grams of all salts as weighed, in a kilogram of finished water.</summary>
    public static double WeighedGramsPerKilogram(Salinity salinity) =>
        Salts.Sum(salt => salt.GramsAsWeighed) * salinity.Practical / RecipeSalinity;
}

/// <summary>A salt of the recipe, for a kilogram of water of S = 35.</summary>
/// <param name="Formula">Formula with its water of crystallisation.</param>
/// <param name="GramsAsWeighed">Grams with that water.</param>
/// <param name="GramsAnhydrous">Grams without.</param>
public sealed record KesterSalt(string Formula, double GramsAsWeighed, double GramsAnhydrous)
{
    /// <summary>A salt without water, given by mass.</summary>
    internal static KesterSalt ByMass(string formula, double grams) => new(formula, grams, grams);

    /// <summary>A hydrate given in moles; both molar masses in g/mol.</summary>
    internal static KesterSalt ByMoles(
        string formula,
        double moles,
        double hydratedGramsPerMole,
        double anhydrousGramsPerMole
    ) => new(formula, moles * hydratedGramsPerMole, moles * anhydrousGramsPerMole);
}
