using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Solutions of plain sodium chloride at 20 degC, by per cent of mass: what brine refractometers are graduated in
/// and what calibration standards are made of.
/// Source: CRC Handbook of Chemistry and Physics, 102nd edition, concentrative properties of aqueous solutions,
/// entries 0.5 to 10 %. The index is a parabola through the table (own fit, largest miss 5e-5); the density is the
/// table, straight between entries and from pure water at 20 degC (EOS-80) to the first.
/// </summary>
public static class SodiumChlorideSolution
{
    /// <summary>The temperature of the table, degC.</summary>
    public const double TableCelsius = 20;

    private const double HighestPublishedPercent = 10;

    private const double IndexOfWater = 1.33299;
    private const double IndexSlope = 1.75893e-3;
    private const double IndexBend = -6.04e-7;

    private static readonly (double Percent, double GramsPerCubicCentimetre)[] Densities =
    [
        (0, 0.9982),
        (0.5, 1.0018),
        (1, 1.0053),
        (2, 1.0125),
        (3, 1.0196),
        (3.5, 1.0232),
        (4, 1.0268),
        (5, 1.0340),
        (10, 1.0707),
    ];

    /// <summary>Refractive index for the sodium D line against air, at 20 degC.</summary>
    /// <param name="percentByMass">Grams of NaCl in 100 g of solution; published 0 to 10, taken up to 26.</param>
    /// <returns>The index, without unit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 26 %, where salt no longer dissolves.</exception>
    public static Computed<double> RefractiveIndexAt20(double percentByMass) =>
        new(Index(InReach(percentByMass)), IsPublished(percentByMass));

    /// <summary>Per cent of mass of the solution with an index at 20 degC.</summary>
    /// <param name="index">Index against air for the sodium D line.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index belongs to no solution of 0 to 26 %.</exception>
    public static Computed<double> PercentWithIndexAt20(double index)
    {
        var percent = PercentAbove(Finite.Required(index) - IndexOfWater);
        return new(InReach(percent), IsPublished(percent));
    }

    /// <summary>Density at 20 degC.</summary>
    /// <param name="percentByMass">
    /// Grams of NaCl in 100 g of solution; published 0 to 10. Above, the last stretch is drawn on.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 26 %, where salt no longer dissolves.</exception>
    public static Computed<Density> DensityAt20(double percentByMass)
    {
        var w = InReach(percentByMass);
        var upper = 1;
        while (upper < Densities.Length - 1 && Densities[upper].Percent < w)
        {
            upper++;
        }

        var (w0, rho0) = Densities[upper - 1];
        var (w1, rho1) = Densities[upper];
        return new(
            Density.FromGramsPerCubicCentimetre(rho0 + ((rho1 - rho0) * (w - w0) / (w1 - w0))),
            IsPublished(w)
        );
    }

    /// <summary>
    /// The solution with the refractive index of sea water: a standard to set a refractometer with, and for nothing
    /// else (its density and conductivity are not those of the sea water).
    /// </summary>
    /// <param name="salinity">Salinity the refractometer shall show.</param>
    /// <param name="temperature">Temperature of the sea water; the solution is taken at 20 degC.</param>
    /// <returns>Grams of NaCl in 100 g of solution; 3.65 for S = 35 at 20 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No solution of 0 to 26 % matches.</exception>
    public static Computed<double> PercentMatchingIndexOf(Salinity salinity, Temperature temperature)
    {
        var index = RefractiveIndex.Of(salinity, temperature);
        // Fresh water by the two sources differs by 2e-6: that is water, not a negative amount of salt.
        var above = index.Value - IndexOfWater;
        var percent = above is < 0 and > -1e-5 ? 0 : PercentAbove(above);
        return new(InReach(percent), IsPublished(percent) && index.WithinPublishedRange);
    }

    /// <summary>Index at 20 degC by the parabola; per cent not checked.</summary>
    internal static double Index(double percent) =>
        IndexOfWater + (IndexSlope * percent) + (IndexBend * percent * percent);

    /// <summary>Per cent of mass whose index lies this much above that of pure water.</summary>
    internal static double PercentAbove(double rise) =>
        // The root of the parabola that goes through zero, in the form that does not cancel.
        2 * rise / (IndexSlope + Math.Sqrt((IndexSlope * IndexSlope) + (4 * IndexBend * rise)));

    /// <summary>Whether the table reaches that far.</summary>
    internal static bool IsPublished(double percent) =>
        PublishedRange.Holds(percent, 0, HighestPublishedPercent);

    private static double InReach(double percentByMass) => Finite.Within(percentByMass, 0, 26);
}
