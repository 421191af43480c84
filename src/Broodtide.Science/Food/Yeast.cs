using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Baker's yeast by its cells.</summary>
public static class Yeast
{
    /// <summary>Cells in a gram of fresh yeast, as spheres without gaps; dry yeast holds two to three times as many (practice).</summary>
    /// <param name="diameterMicrometres">um, above zero; 5 to 7 (Ghent University's course on live feeds).</param>
    /// <param name="density">Of the wet cell.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double CellsPerGram(double diameterMicrometres, Density density) =>
        1e12
        / (
            AlgalCells.SphereCubicMicrometres(diameterMicrometres)
            * Finite.Positive(density.GramsPerCubicCentimetre, nameof(density))
        );
}
