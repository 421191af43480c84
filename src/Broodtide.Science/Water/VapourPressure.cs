using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Pressure of water vapour in balance with water, pascals.
/// Source: Hyland and Wexler 1983, as ASHRAE prints it for liquid water, 0 to 200 degC (coefficients from memory;
/// 3169 Pa at 25 degC). Salt lowers it by 0.0537 % for each unit of S.
/// </summary>
public static class VapourPressure
{
    private const double LoweringPerSalinity = 0.000537;

    /// <summary>Over pure water.</summary>
    /// <returns>Pascals.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the formula has no value.</exception>
    public static Computed<double> OverPureWater(Temperature temperature)
    {
        var t = Finite.Positive(temperature.Kelvin);
        var logarithm =
            (-5800.2206 / t)
            + 1.3914993
            - (4.8640239e-2 * t)
            + (4.1764768e-5 * t * t)
            - (1.4452093e-8 * t * t * t)
            + (6.5459673 * Math.Log(t));
        return new(Finite.Required(Math.Exp(logarithm)), PublishedRange.Holds(temperature.Celsius, 0, 200));
    }

    /// <summary>Over sea water.</summary>
    /// <param name="salinity">Practical salinity, taken as published for 0 to 40.</param>
    /// <param name="temperature">Temperature of the water's surface.</param>
    /// <returns>Pascals.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So salty that nothing would be left.</exception>
    public static Computed<double> OverSeaWater(Salinity salinity, Temperature temperature)
    {
        var pure = OverPureWater(temperature);
        return new(
            pure.Value * Finite.Positive(1 - (LoweringPerSalinity * salinity.Practical)),
            pure.WithinPublishedRange && PublishedRange.Holds(salinity.Practical, 0, 40)
        );
    }
}
