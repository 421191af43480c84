using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// What sea salt is made of: the reference composition, mass fractions of dry sea salt.
/// Source: Millero et al. 2008, Deep-Sea Res. I 55:50, as tabled in the R package marelac.
/// </summary>
public static class SeaSaltComposition
{
    /// <summary>Ions and molecules by falling mass, each with its share of the salt's mass.</summary>
    public static ImmutableArray<SeaSaltPart> Parts { get; } =
    [
        new("Cl", 0.5503396),
        new("Na", 0.3065958),
        new("SO4", 0.0771319),
        new("Mg", 0.0365055),
        new("Ca", 0.0117186),
        new("K", 0.0113495),
        new("HCO3", 0.0029805),
        new("Br", 0.0019134),
        new("B(OH)3", 0.0005527),
        new("CO3", 0.0004078),
        new("Sr", 0.0002260),
        new("B(OH)4", 0.0002259),
        new("F", 0.0000369),
        new("CO2", 0.0000121),
        new("OH", 0.0000038),
    ];

    /// <summary>Grams of an ion in a kilogram of sea water: its share times absolute salinity.</summary>
    /// <param name="symbol">Symbol as in <see cref="Parts"/>, such as Ca.</param>
    /// <param name="salinity">Practical salinity.</param>
    /// <exception cref="ArgumentException">The symbol is not in the composition.</exception>
    public static double GramsPerKilogram(string symbol, Salinity salinity)
    {
        foreach (var part in Parts)
        {
            if (part.Symbol == symbol)
            {
                return part.MassFraction * SalinityScales.AbsoluteGramsPerKilogram(salinity);
            }
        }

        throw new ArgumentException(
            $"The reference composition holds {string.Join(", ", Parts.Select(part => part.Symbol))}.",
            nameof(symbol)
        );
    }
}

/// <summary>An ion or molecule of sea salt.</summary>
/// <param name="Symbol">Chemical symbol without charge.</param>
/// <param name="MassFraction">Share of the mass of dry sea salt, 0 to 1.</param>
public sealed record SeaSaltPart(string Symbol, double MassFraction);
