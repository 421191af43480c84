using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>What stands inside a cell of microalga, and what cells take from the water.</summary>
public static class AlgalCells
{
    private const double PicogramsPerMilligram = 1e9;
    private const double HoursPerDay = 24;

    /// <summary>Volume of a sphere, pi d^3 / 6, um3.</summary>
    /// <param name="diameterMicrometres">um, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The diameter is not above zero.</exception>
    public static double SphereCubicMicrometres(double diameterMicrometres) =>
        Math.PI / 6 * Math.Pow(Finite.Positive(diameterMicrometres), 3);

    /// <summary>
    /// Carbon in a cell by its volume: diatoms 0.288 V^0.811, others 0.216 V^0.939, pg (Menden-Deuer and Lessard 2000,
    /// Limnol. Oceanogr. 45; the coefficients are from memory).
    /// </summary>
    /// <param name="cubicMicrometres">Volume of the cell, um3, above zero.</param>
    /// <param name="isDiatom">Whether it is a diatom: those hold more water.</param>
    /// <exception cref="ArgumentOutOfRangeException">The volume is not above zero.</exception>
    public static double CarbonPicograms(double cubicMicrometres, bool isDiatom) =>
        isDiatom
            ? 0.288 * Math.Pow(Finite.Positive(cubicMicrometres), 0.811)
            : 0.216 * Math.Pow(Finite.Positive(cubicMicrometres), 0.939);

    /// <summary>Density at which the nitrogen of the water is used up, a balance.</summary>
    /// <param name="nitrogen">Nitrogen in the water, as N.</param>
    /// <param name="picogramsPerCell">Nitrogen in a cell, pg, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No nitrogen in a cell.</exception>
    public static CellDensity LimitedByNitrogen(Concentration nitrogen, double picogramsPerCell) =>
        CellDensity.FromPerMillilitre(
            nitrogen.MilligramsPerLitre * PicogramsPerMilligram / (1000 * Finite.Positive(picogramsPerCell))
        );

    /// <summary>
    /// What cells take up of a nutrient, rho C / (K + C) each, as the element a day. Kinetics measured at high
    /// concentrations say nothing far below them (Tantanasarit et al. 2013, J. Exp. Mar. Biol. Ecol. 446: from about
    /// 20 umol/L on).
    /// </summary>
    /// <param name="mostPicomolesPerCellHour">Largest uptake, pmol a cell and hour, 0 or more.</param>
    /// <param name="halfMicromolesPerLitre">Concentration at half of it, umol/L, above zero.</param>
    /// <param name="micromolesPerLitre">Concentration in the water, umol/L, 0 or more.</param>
    /// <param name="cells">How many cells there are.</param>
    /// <param name="gramsPerMole">Molar mass of the element, g/mol, above zero.</param>
    /// <returns>mg of the element per litre and day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double UptakeMilligramsPerLitreDay(
        double mostPicomolesPerCellHour,
        double halfMicromolesPerLitre,
        double micromolesPerLitre,
        CellDensity cells,
        double gramsPerMole
    )
    {
        var picomolesPerCellHour =
            Finite.NotNegative(mostPicomolesPerCellHour)
            * Finite.NotNegative(micromolesPerLitre)
            / (Finite.Positive(halfMicromolesPerLitre) + micromolesPerLitre);
        var picomolesPerLitreDay = picomolesPerCellHour * cells.PerMillilitre * 1000 * HoursPerDay;
        return picomolesPerLitreDay * Finite.Positive(gramsPerMole) / PicogramsPerMilligram;
    }
}
