using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>Densities that were probably meant a litre and said a millilitre.</summary>
public static class CellsLikely
{
    // No culture is denser: Nannochloropsis is harvested at 1e7 to 6e7 a millilitre (practice, from memory).
    private const double DensestPerMillilitre = 3e8;

    // So many times the densest usual harvest of an alga is no harvest of it.
    private const double TimesTheDensest = 20;

    // Larvae are never fed so densely: ten times where keepers and a thesis warn (2e5 Tetraselmis a millilitre).
    private const double DensestFood = 2e6;

    /// <summary>What is asked back about the density of a culture; none where it may be.</summary>
    /// <param name="said">As said.</param>
    /// <param name="alga">The alga, if it is known.</param>
    public static Remark? OfCulture(CellDensity said, AlgaKind? alga = null) =>
        Over(
            said,
            Math.Min(
                DensestPerMillilitre,
                TimesTheDensest * alga?.HarvestTo.PerMillilitre ?? DensestPerMillilitre
            )
        );

    /// <summary>What is asked back about a density of food in a vessel with larvae; none where it may be.</summary>
    /// <param name="said">As said.</param>
    public static Remark? OfFood(CellDensity said) => Over(said, DensestFood);

    private static Remark? Over(CellDensity said, double most) =>
        said.PerMillilitre > most
            ? new Remark(
                "cells-per-litre-likely",
                new("saidPerMillilitre", said.PerMillilitre),
                new("mostPerMillilitre", most),
                new("likelierPerMillilitre", said.PerMillilitre / 1000)
            )
            : null;
}
