using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What a sensor showed of a vessel's water, as it counts for what is known of the water.</summary>
/// <param name="Sensor">The sensor, device and name.</param>
/// <param name="Vessel">The vessel it stood in.</param>
/// <param name="At">The middle of the hours it is the mean of.</param>
/// <param name="Value">The mean.</param>
/// <param name="Spread">How far single hours and readings lay from it: a standard deviation.</param>
/// <param name="Unit">The unit of all three.</param>
/// <param name="IsOpen">Whether its six hours are not over: another takes its place then.</param>
public sealed record WaterMean(
    string Sensor,
    VesselId Vessel,
    Instant At,
    double Value,
    double Spread,
    string Unit,
    bool IsOpen
)
{
    /// <summary>What it measures.</summary>
    public Dimension? Dimension => UnitCode.Find(Unit)?.Dimension;

    /// <summary>It as a temperature; none where it measures something else.</summary>
    public Temperature? AsTemperature() =>
        double.IsFinite(Value) ? TypedNumber.Of(Value, Unit).AsTemperature() : null;

    /// <summary>All that sensors showed of the waters of a house, by time; of sensors that seem to stand in each other's vessel nothing.</summary>
    /// <param name="told">What is told of the sensors.</param>
    public static IReadOnlyList<WaterMean> Of(SensorsSeen? told) =>
        [
            .. (told?.Sensors ?? [])
                .Where(sensor =>
                    UnitCode.Find(sensor.Unit) is not null
                    && !sensor.Findings.Any(finding => finding.Code is SensorChecks.Swapped)
                )
                .SelectMany(sensor =>
                    (sensor.Means ?? []).Select(mean => new WaterMean(
                        sensor.Id,
                        new(mean.Vessel),
                        Instant.FromUnixTimeMilliseconds(mean.At),
                        mean.Value,
                        mean.Spread,
                        sensor.Unit,
                        mean.IsOpen
                    ))
                )
                .OrderBy(mean => mean.At)
                .ThenBy(mean => mean.Sensor, StringComparer.Ordinal),
        ];
}
