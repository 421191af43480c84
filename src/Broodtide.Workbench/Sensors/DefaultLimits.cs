using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// The limits of a sensor that nobody chose limits for: those of the species whose animals live in its vessel, of the most
/// tender stage that may be there. Hysteresis and times are common practice, no source.
/// </summary>
public static class DefaultLimits
{
    private const double HoldSeconds = 300;
    private const double LeastSilentSeconds = 900;

    // A sensor that misses ten readings in a row is not merely late.
    private const double SilentReadings = 10;

    /// <summary>The limits; none of a sensor that stands in no vessel.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="profiles">The species of the house.</param>
    /// <param name="sensor">The sensor.</param>
    public static SensorLimits? Of(House house, HouseProfiles profiles, Sensor sensor)
    {
        ArgumentNullException.ThrowIfNull(house);
        ArgumentNullException.ThrowIfNull(profiles);
        ArgumentNullException.ThrowIfNull(sensor);
        if (sensor.Vessel is not { } id)
        {
            return null;
        }

        var vessel = house.Vessel(id);
        var silent = Math.Max(LeastSilentSeconds, SilentReadings * (sensor.About.EverySeconds ?? 0));
        var (low, high) = (default(double?), default(double?));
        if (
            QuantityOf(sensor.About) is var (quantity, hysteresis)
            && vessel.Standing is not null
            && profiles.Of(vessel) is { } profile
            && SafetyTelling.StageOf(vessel, profile, null) is { } stage
        )
        {
            var limits = profile.LimitsFor(stage).Where(limit => limit.Quantity == quantity).ToList();
            low = Edge(limits.Where(limit => !limit.IsUpper));
            high = Edge(limits.Where(limit => limit.IsUpper));
            if (sensor.About.Unit is "[degF]")
            {
                (low, high, hysteresis) = (Fahrenheit(low), Fahrenheit(high), hysteresis * 1.8);
            }

            var threatens = quantity is LimitedQuantity.Oxygen or LimitedQuantity.Temperature;
            return new(low, high, hysteresis, HoldSeconds, silent, threatens && (low ?? high) is not null);
        }

        return new(null, null, 0, HoldSeconds, silent, IsLifeThreatening: false);
    }

    // Where harm is near, where the profile tells it apart from what is advised.
    private static double? Edge(IEnumerable<LifeLimit> limits) =>
        limits.OrderByDescending(limit => limit.IsDanger).FirstOrDefault()?.Value;

    private static double? Fahrenheit(double? celsius) => (celsius * 1.8) + 32;

    private static (LimitedQuantity Quantity, double Hysteresis)? QuantityOf(SensorAbout about) =>
        about.Unit switch
        {
            "Cel" or "[degF]" => (LimitedQuantity.Temperature, 0.3),
            UnitCode.PracticalSalinity => (LimitedQuantity.Salinity, 0.5),
            "[pH]" => (LimitedQuantity.Acidity, 0.1),
            "mg/L{O2}" => (LimitedQuantity.Oxygen, 0.3),
            _ => null,
        };
}
