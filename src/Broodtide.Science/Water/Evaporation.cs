using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Water lost from a free, quiet surface indoors. Expect 30 % of doubt in the open; lids, high rims and small mouths
/// lower it, air stones and lamps raise it: a loss that was measured overrides the estimate.
/// Source: Shah 2014, ASHRAE Trans. 120(2) (SI form from memory; it gives published look-up values within 0.3 %).
/// Taken as published for water 7 to 94 degC, air 6 to 35 degC, humidity 0.28 to 0.98 (from memory).
/// </summary>
public static class Evaporation
{
    // Gas constant of dry air, J/(kg K), and ratio of the molar masses of water and dry air (ASHRAE).
    private const double GasConstantOfDryAir = 287.042;
    private const double WaterToAir = 0.621945;

    // ASHRAE pool formula: kg/(m2 h) for each kPa, and the factor of a quiet surface (from memory).
    private const double PoolFactor = 0.144;
    private const double QuietSurface = 0.5;

    // Carrier's coefficients, W/(m2 Pa) and W s/(m3 Pa), and kJ/kg (from memory).
    private const double CarrierStill = 0.089;
    private const double CarrierMoving = 0.0782;
    private const double HeatOfEvaporation = 2430;

    /// <summary>Loss by Shah's correlation for still air.</summary>
    /// <param name="salinity">Practical salinity of the water.</param>
    /// <param name="water">Temperature of the water's surface.</param>
    /// <param name="air">Air of the room.</param>
    /// <returns>Kilograms per square metre and hour; never below zero, dew is not foreseen.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the formula has no value.</exception>
    public static Computed<double> StillAir(Salinity salinity, Temperature water, RoomAir air)
    {
        var (atSurface, inRoom, published) = Pressures(salinity, water, air);
        var surface = MoistAir(atSurface, water, air.PressurePascals);
        var room = MoistAir(inRoom, air.Temperature, air.PressurePascals);
        // Light, damp air over the surface rises and is replaced: the natural stream.
        var natural =
            room.DryDensity > surface.DryDensity
                ? 35
                    * surface.DryDensity
                    * Math.Cbrt(room.DryDensity - surface.DryDensity)
                    * (surface.Humidity - room.Humidity)
                : 0;
        var drawn = 0.00005 * (atSurface - inRoom);
        return new(
            Finite.Required(Math.Max(0, Math.Max(natural, drawn))),
            published
                && PublishedRange.Holds(water.Celsius, 7, 94)
                && PublishedRange.Holds(air.Temperature.Celsius, 6, 35)
                && PublishedRange.Holds(air.RelativeHumidity, 0.28, 0.98)
        );
    }

    /// <summary>A second opinion: the ASHRAE pool formula for a quiet surface (from memory).</summary>
    /// <returns>Kilograms per square metre and hour, never below zero.</returns>
    public static Computed<double> QuietPool(Salinity salinity, Temperature water, RoomAir air)
    {
        var (atSurface, inRoom, published) = Pressures(salinity, water, air);
        return new(Math.Max(0, PoolFactor * (atSurface - inRoom) / 1000 * QuietSurface), published);
    }

    /// <summary>
    /// Loss under air that moves over the surface: ASHRAE's general pool formula after Carrier 1918 (from memory), heat of
    /// evaporation 2430 kJ/kg. At 0.1 m/s it is the handbook's short form, 4e-5 kg/(s m2) for each kPa.
    /// </summary>
    /// <param name="salinity">Practical salinity of the water.</param>
    /// <param name="water">Temperature of the water's surface.</param>
    /// <param name="air">Air of the room.</param>
    /// <param name="metresPerSecond">Speed of the air, 0 to 10.</param>
    /// <returns>Kilograms per square metre and hour, never below zero.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The speed is outside its limits.</exception>
    public static Computed<double> MovingAir(
        Salinity salinity,
        Temperature water,
        RoomAir air,
        double metresPerSecond
    )
    {
        var (atSurface, inRoom, published) = Pressures(salinity, water, air);
        var kilowatts = CarrierStill + (CarrierMoving * Finite.Within(metresPerSecond, 0, 10));
        return new(
            Math.Max(0, kilowatts * (atSurface - inRoom) / 1000 / HeatOfEvaporation * 3600),
            published
        );
    }

    /// <summary>Salinity of what is left when water has gone and salt has stayed: S m / (m - e).</summary>
    /// <param name="before">Salinity before.</param>
    /// <param name="mass">Mass before, salt included.</param>
    /// <param name="lost">Mass of water gone, below <paramref name="mass"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing would be left.</exception>
    public static Salinity SalinityAfter(Salinity before, Mass mass, Mass lost) =>
        Salinity.FromPractical(before.Practical * mass.Grams / Finite.Positive(mass.Grams - lost.Grams));

    private static (double AtSurface, double InRoom, bool Published) Pressures(
        Salinity salinity,
        Temperature water,
        RoomAir air
    )
    {
        var atSurface = VapourPressure.OverSeaWater(salinity, water);
        var saturated = VapourPressure.OverPureWater(air.Temperature);
        return (
            atSurface.Value,
            air.RelativeHumidity * saturated.Value,
            atSurface.WithinPublishedRange && saturated.WithinPublishedRange
        );
    }

    // Kilograms of water per kilogram of dry air, and kilograms of dry air in a cubic metre.
    private static (double Humidity, double DryDensity) MoistAir(
        double vapour,
        Temperature temperature,
        double pressure
    )
    {
        var humidity = WaterToAir * vapour / Finite.Positive(pressure - vapour);
        return (
            humidity,
            pressure / (GasConstantOfDryAir * temperature.Kelvin * (1 + (humidity / WaterToAir)))
        );
    }
}
