using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Osmolality of sea water: a polynomial fitted to TEOS-10 (chemical potential of water in sea water) for S 1 to 45 and
/// 0 to 40 degC; own fit, largest miss 0.2 %.
/// </summary>
public static class Osmolality
{
    // Mean molar mass of sea salt, g/mol: Millero et al. 2008, Deep-Sea Res. I 55:50.
    private const double MolarMassOfSeaSalt = 31.4038218;

    /// <summary>Osmolality at the surface.</summary>
    /// <returns>Millimoles per kilogram of water (mOsm/kg); published for S 1 to 45, 0 to 40 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the polynomial has no value.</exception>
    public static Computed<double> MillimolesPerKilogramOfWater(Salinity salinity, Temperature temperature)
    {
        var s = salinity.Practical / 35;
        var h = (temperature.Celsius - 25) / 25;
        var root = Math.Sqrt(s);
        var value =
            (1106.6157 * s)
            - (337.2486 * s * root)
            + (377.8167 * s * s)
            - (98.9189 * s * s * root)
            - (3.6642 * s * h)
            + (8.5796 * s * s * h)
            - (0.7666 * s * h * h)
            - (6.0997 * s * s * h * h);
        return new(
            Finite.NotNegative(value),
            PublishedRange.Holds(salinity.Practical, 1, 45)
                && PublishedRange.Holds(temperature.Celsius, 0, 40)
        );
    }

    /// <summary>
    /// Osmotic coefficient: osmolality over the molality of the sea salt, SA / (31.4038 (1 - SA/1000)) mol/kg.
    /// </summary>
    /// <returns>A ratio without unit; published for S 1 to 45, 0 to 40 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Fresh water, or nothing but salt.</exception>
    public static Computed<double> Coefficient(Salinity salinity, Temperature temperature)
    {
        var grams = SalinityScales.AbsoluteGramsPerKilogram(salinity);
        var molality = Finite.Positive(grams / (MolarMassOfSeaSalt * (1 - (grams / 1000))));
        return MillimolesPerKilogramOfWater(salinity, temperature).Then(value => value / 1000 / molality);
    }
}
