using Broodtide.Units;

namespace Broodtide.Science.Waste;

/// <summary>Ammonia taken away by bacteria on surfaces.</summary>
public static class Nitrification
{
    private const double NitrogenGramsPerMole = 14.007;

    /// <summary>Oxygen for a mole of ammonia nitrified, mol, growth of the bacteria included (from memory, after Ebeling, Timmons and Bisogni 2006, Aquaculture 257:346).</summary>
    public const double OxygenMolesPerMole = 1.83;

    /// <summary>Bicarbonate for a mole of ammonia nitrified, mol (from memory, the same source).</summary>
    public const double BicarbonateMolesPerMole = 1.97;

    /// <summary>Mass of a substance for a gram of nitrogen, g/g.</summary>
    /// <param name="molesPerMole">Moles of the substance for a mole of nitrogen, 0 or more.</param>
    /// <param name="gramsPerMole">Molar mass of the substance, or of an equivalent of it, g/mol, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double GramsPerGramNitrogen(double molesPerMole, double gramsPerMole) =>
        Finite.NotNegative(molesPerMole) * Finite.Positive(gramsPerMole) / NitrogenGramsPerMole;

    /// <summary>
    /// Surface with grown bacteria that takes a load away, cm2. A grown film in sea water at 24 degC takes at most 0.28
    /// g/(m2 d), after weeks (Nijhof and Bovendeur 1990, Aquaculture 87, abstract).
    /// </summary>
    /// <param name="milligramsPerDay">Load, mg of nitrogen a day, 0 or more.</param>
    /// <param name="gramsPerSquareMetreDay">Removal, g of nitrogen a square metre and day, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double SurfaceSquareCentimetres(double milligramsPerDay, double gramsPerSquareMetreDay) =>
        Finite.NotNegative(milligramsPerDay) / 1000 / Finite.Positive(gramsPerSquareMetreDay) * 10_000;

    /// <summary>
    /// Ammonia under a steady supply and a removal in proportion to it, a/k + (C0 - a/k) e^(-kt); without removal it
    /// rises by the supply.
    /// </summary>
    /// <param name="start">Now, as nitrogen.</param>
    /// <param name="supplyMilligramsPerLitreDay">mg/L/d, 0 or more.</param>
    /// <param name="removalPerDay">1/d, 0 or more.</param>
    /// <param name="days">Days from now, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Concentration Balance(
        Concentration start,
        double supplyMilligramsPerLitreDay,
        double removalPerDay,
        double days
    )
    {
        var exponent = Finite.NotNegative(removalPerDay) * Finite.NotNegative(days);
        // (1 - e^-x)/x, by its series where the difference would lose its digits.
        var meanLeft = exponent < 1e-5 ? 1 - (exponent / 2) : (1 - Math.Exp(-exponent)) / exponent;
        return Concentration.FromMilligramsPerLitre(
            (start.MilligramsPerLitre * Math.Exp(-exponent))
                + (Finite.NotNegative(supplyMilligramsPerLitreDay) * days * meanLeft)
        );
    }
}
