using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// The straight line by which meters refer conductivity to 25 degC: C25 = C / (1 + alpha (t - 25)). It is a
/// property of the meter and not of the water: what a meter shows is undone with the meter's own alpha. Sea
/// water's own alpha at S = 35 goes from 0.0191 (15 degC) to 0.0199 (30 degC).
/// </summary>
public static class ConductivityMeter
{
    /// <summary>
    /// 0.0191 per degC, of US Standard Methods 2510 and US Geological Survey practice; value from memory. With it
    /// the error in salinity stays below 0.16 for 15 to 30 degC and S up to 40.
    /// </summary>
    public const double UsualAlphaPerCelsius = 0.0191;

    /// <summary>What a compensating meter shows for water of a raw conductivity.</summary>
    /// <param name="raw">Conductivity as it is.</param>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="alphaPerCelsius">The meter's coefficient, 0 to 0.1 per degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Alpha is outside 0 to 0.1, or it is so cold that the line crosses zero.
    /// </exception>
    public static Conductivity Shown(
        Conductivity raw,
        Temperature temperature,
        double alphaPerCelsius = UsualAlphaPerCelsius
    ) =>
        Conductivity.FromMillisiemensPerCentimetre(
            raw.MillisiemensPerCentimetre / Factor(temperature, alphaPerCelsius)
        );

    /// <summary>The raw conductivity behind what a compensating meter shows.</summary>
    /// <param name="shown">The meter's value, referred to 25 degC.</param>
    /// <param name="temperature">Temperature of the water when it was read.</param>
    /// <param name="alphaPerCelsius">The meter's coefficient, 0 to 0.1 per degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Alpha is outside 0 to 0.1, or it is so cold that the line crosses zero.
    /// </exception>
    public static Conductivity RawBehind(
        Conductivity shown,
        Temperature temperature,
        double alphaPerCelsius = UsualAlphaPerCelsius
    ) =>
        Conductivity.FromMillisiemensPerCentimetre(
            shown.MillisiemensPerCentimetre * Factor(temperature, alphaPerCelsius)
        );

    private static double Factor(Temperature temperature, double alphaPerCelsius) =>
        Finite.Positive(1 + (Finite.Within(alphaPerCelsius, 0, 0.1) * (temperature.Celsius - 25)));
}
