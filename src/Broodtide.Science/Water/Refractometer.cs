using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// What a hand refractometer shows and what that means, on the two scales sold: grams of sodium chloride per
/// kilogram ("brine"), and sea-water salinity. Built on Quan and Fry 1995 (<see cref="RefractiveIndex"/>) and on
/// the sodium chloride table of the CRC Handbook (<see cref="SodiumChlorideSolution"/>). A brine scale shows
/// S = 35 as about 36.5; the table's four decimals leave 0.15 to 0.3 of doubt.
/// </summary>
public static class Refractometer
{
    /// <summary>What a brine scale (made for 20 degC) shows in sea water.</summary>
    /// <returns>Grams of NaCl per kilogram of solution; published for S 0 to 35, 0 to 30 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Above the reach of any scale.</exception>
    public static Computed<double> BrineScaleShows(
        Salinity salinity,
        Temperature temperature,
        RefractometerZero zero
    )
    {
        var index = RefractiveIndex.Of(salinity, temperature);
        var percent = SodiumChlorideSolution.PercentAbove(index.Value - BrineZero(temperature, zero));
        return new(
            10 * Finite.Required(percent),
            index.WithinPublishedRange && SodiumChlorideSolution.IsPublished(Math.Max(0, percent))
        );
    }

    /// <summary>Salinity of sea water in which a brine scale (made for 20 degC) shows so much.</summary>
    /// <param name="gramsPerKilogram">Reading, g NaCl per kg, 0 to 260.</param>
    /// <param name="temperature">Temperature of sample and instrument.</param>
    /// <param name="zero">How it was set.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Outside 0 to 260, or it belongs to an index below that of fresh water.
    /// </exception>
    public static Computed<Salinity> FromBrineScale(
        double gramsPerKilogram,
        Temperature temperature,
        RefractometerZero zero
    )
    {
        var solution = SodiumChlorideSolution.RefractiveIndexAt20(gramsPerKilogram / 10);
        var index = solution.Value - SodiumChlorideSolution.Index(0) + BrineZero(temperature, zero);
        var salinity = RefractiveIndex.SalinityAt(index, temperature);
        return new(salinity.Value, salinity.WithinPublishedRange && solution.WithinPublishedRange);
    }

    /// <summary>What a sea-water scale shows.</summary>
    /// <param name="salinity">Practical salinity.</param>
    /// <param name="temperature">Temperature of sample and instrument.</param>
    /// <param name="scale">Temperature for which the scale was made, mostly 20 degC.</param>
    /// <param name="zero">How it was set.</param>
    /// <returns>Salinity shown, below zero for warm fresh water; published for S 0 to 35, 0 to 30 degC.</returns>
    public static Computed<double> SeaWaterScaleShows(
        Salinity salinity,
        Temperature temperature,
        Temperature scale,
        RefractometerZero zero
    )
    {
        var index = RefractiveIndex.Of(salinity, temperature);
        return new(
            (index.Value - SeaWaterZero(temperature, scale, zero)) / Slope(scale),
            index.WithinPublishedRange && PublishedRange.Holds(scale.Celsius, 0, 30)
        );
    }

    /// <summary>Salinity of sea water in which a sea-water scale shows so much.</summary>
    /// <param name="shown">Reading as salinity; may be below zero.</param>
    /// <param name="temperature">Temperature of sample and instrument.</param>
    /// <param name="scale">Temperature for which the scale was made, mostly 20 degC.</param>
    /// <param name="zero">How it was set.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not finite, or it belongs to an index below that of fresh water.
    /// </exception>
    public static Computed<Salinity> FromSeaWaterScale(
        double shown,
        Temperature temperature,
        Temperature scale,
        RefractometerZero zero
    )
    {
        var index = (Finite.Required(shown) * Slope(scale)) + SeaWaterZero(temperature, scale, zero);
        var salinity = RefractiveIndex.SalinityAt(index, temperature);
        return new(
            salinity.Value,
            salinity.WithinPublishedRange && PublishedRange.Holds(scale.Celsius, 0, 30)
        );
    }

    // The index at which the instrument shows nothing.
    private static double BrineZero(Temperature temperature, RefractometerZero zero) =>
        zero == RefractometerZero.Water ? PureWater(temperature) : SodiumChlorideSolution.Index(0);

    private static double SeaWaterZero(Temperature temperature, Temperature scale, RefractometerZero zero) =>
        PureWater(zero == RefractometerZero.Water ? temperature : scale);

    private static double PureWater(Temperature temperature) =>
        RefractiveIndex.OfPureWater(temperature.Celsius, RefractiveIndex.SodiumLineNanometres);

    private static double Slope(Temperature temperature) =>
        RefractiveIndex.SlopePerSalinity(temperature.Celsius, RefractiveIndex.SodiumLineNanometres);
}
