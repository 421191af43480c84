using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Foods compared by their dry mass: cells differ by forty times, so rations are never compared by cells.</summary>
public static class DryMass
{
    private const double PicogramsPerMilligram = 1e9;

    /// <summary>Dry mass in a litre of water with cells.</summary>
    /// <param name="density">Cells.</param>
    /// <param name="picogramsPerCell">Dry mass of one, pg, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No mass.</exception>
    public static Concentration Of(CellDensity density, double picogramsPerCell) =>
        Concentration.FromMilligramsPerLitre(
            density.PerMillilitre * 1000 * Finite.Positive(picogramsPerCell) / PicogramsPerMilligram
        );

    /// <summary>Cells that hold the dry mass of a litre.</summary>
    /// <param name="dry">Dry mass.</param>
    /// <param name="picogramsPerCell">Dry mass of one cell, pg, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No mass.</exception>
    public static CellDensity Cells(Concentration dry, double picogramsPerCell) =>
        CellDensity.FromPerMillilitre(
            dry.MilligramsPerLitre * PicogramsPerMilligram / (1000 * Finite.Positive(picogramsPerCell))
        );
}
