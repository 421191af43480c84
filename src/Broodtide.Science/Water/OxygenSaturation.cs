using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Oxygen dissolved in water that has come to rest with moist air.
/// Sources: Benson and Krause 1984, Limnol. Oceanogr. 29:620, in the form of APHA Standard Methods 4500-O (S 0 to 40,
/// 0 to 40 degC); Garcia and Gordon 1992, Limnol. Oceanogr. 37:1307, with the Benson and Krause coefficients (S 0 to
/// 42, 0 to 40 degC). The two agree within 0.002 mg/L at S = 35.
/// </summary>
public static class OxygenSaturation
{
    /// <summary>One standard atmosphere, pascals: exact by definition.</summary>
    public const double PascalsPerAtmosphere = 101325;

    // Molar mass of O2, g/mol.
    private const double MolarMass = 31.9988;

    // ln C of fresh water, powers of 1/T from 0.
    private static readonly double[] Fresh = [-139.34411, 1.575701e5, -6.642308e7, 1.2438e10, -8.621949e11];

    // Factor of S, powers of 1/T from 0.
    private static readonly double[] Salt = [1.7674e-2, -10.754, 2140.7];

    // Garcia and Gordon 1992: constant term and factor of S, powers of the scaled temperature from 0.
    private static readonly double[] GarciaFresh = [5.80871, 3.20291, 4.17887, 5.10006, -9.86643e-2, 3.80369];
    private static readonly double[] GarciaSalt = [-7.01577e-3, -7.70028e-3, -1.13864e-2, -9.51519e-3];
    private const double GarciaSquare = -2.75915e-7;

    /// <summary>Saturation by Benson and Krause.</summary>
    /// <param name="salinity">Practical salinity, published 0 to 40.</param>
    /// <param name="temperature">Published 0 to 40 degC.</param>
    /// <param name="pressureAtmospheres">Air pressure, atm; published 0.5 to 1.1 (from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The pressure is not above that of water vapour, above 10 atm or not finite, or the formula has no value.
    /// </exception>
    public static Computed<Concentration> At(
        Salinity salinity,
        Temperature temperature,
        double pressureAtmospheres = 1
    )
    {
        var kelvin = Finite.Positive(temperature.Kelvin);
        var atOneAtmosphere = Math.Exp(
            Polynomial.At(1 / kelvin, Fresh) - (salinity.Practical * Polynomial.At(1 / kelvin, Salt))
        );
        return new(
            Concentration.FromMilligramsPerLitre(
                atOneAtmosphere * PressureFactor(temperature, pressureAtmospheres)
            ),
            PublishedRange.Holds(salinity.Practical, 0, 40)
                && PublishedRange.Holds(temperature.Celsius, 0, 40)
                && PublishedRange.Holds(pressureAtmospheres, 0.5, 1.1)
        );
    }

    /// <summary>What is measured, in per cent of saturation by Benson and Krause.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="At"/>.</exception>
    public static Computed<double> PercentOf(
        Concentration measured,
        Salinity salinity,
        Temperature temperature,
        double pressureAtmospheres = 1
    ) =>
        At(salinity, temperature, pressureAtmospheres)
            .Then(full => 100 * measured.MilligramsPerLitre / Finite.Positive(full.MilligramsPerLitre));

    /// <summary>Saturation at one atmosphere by Garcia and Gordon, micromoles per kilogram of sea water.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The formula has no value so far outside its range.</exception>
    public static Computed<double> GarciaGordonMicromolesPerKilogram(
        Salinity salinity,
        Temperature temperature
    )
    {
        var s = salinity.Practical;
        var t = temperature.CelsiusIpts68;
        var y = Math.Log((298.15 - t) / (273.15 + t));
        var value = Math.Exp(
            Polynomial.At(y, GarciaFresh) + (s * Polynomial.At(y, GarciaSalt)) + (GarciaSquare * s * s)
        );
        return new(
            Finite.Required(value),
            PublishedRange.Holds(s, 0, 42) && PublishedRange.Holds(temperature.Celsius, 0, 40)
        );
    }

    /// <summary>Saturation at one atmosphere by Garcia and Gordon, with the density of EOS-80.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The formula has no value so far outside its range.</exception>
    public static Computed<Concentration> ByGarciaGordon(Salinity salinity, Temperature temperature)
    {
        var density = SeawaterDensity.Eos80(salinity, temperature);
        return GarciaGordonMicromolesPerKilogram(salinity, temperature)
            .Then(micromoles =>
                Concentration.FromMilligramsPerLitre(
                    micromoles * MolarMass * 1e-3 * density.Value.KilogramsPerCubicMetre / 1000
                )
            );
    }

    // C(P)/C(1 atm) of APHA 4500-O; the vapour pressure is from memory there, theta was read.
    private static double PressureFactor(Temperature temperature, double pressureAtmospheres)
    {
        var p = Finite.Within(pressureAtmospheres, double.Epsilon, 10);
        var kelvin = temperature.Kelvin;
        var t = temperature.Celsius;
        var vapour = Math.Exp(11.8571 - (3840.70 / kelvin) - (216961 / (kelvin * kelvin)));
        var theta = 0.000975 - (1.426e-5 * t) + (6.436e-8 * t * t);
        return p * (1 - (vapour / p)) * (1 - (theta * p)) / ((1 - vapour) * (1 - theta));
    }
}
