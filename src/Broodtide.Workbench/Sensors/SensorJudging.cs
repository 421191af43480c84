using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>Gathers what is needed to judge the sensors of a house, and judges them.</summary>
public static class SensorJudging
{
    private static readonly Duration Readings = Duration.FromDays(10);
    private static readonly Duration Hours = Duration.FromDays(60);

    // Of one reading by hand, where its instrument does not say: practice, no source.
    private const double TemperatureSd = 0.3;
    private const double AciditySd = 0.15;
    private const double OxygenSd = 0.5;

    // From the 5 to the 95 % point of a normal.
    private const double Deviations = 3.29;

    /// <summary>The findings, by sensor.</summary>
    /// <param name="store">The store.</param>
    /// <param name="outlook">What is known of the house.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<IReadOnlyDictionary<SensorId, IReadOnlyList<Remark>>> OfAsync(
        IReadingStore store,
        Outlook outlook,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(outlook);
        var now = outlook.Now;
        var judged = new List<JudgedSensor>();
        foreach (var sensor in await store.SensorsAsync(cancellation))
        {
            judged.Add(
                new(
                    sensor,
                    await SensorHistory.ReadingsAsync(store, sensor.Id, now - Readings, now, cancellation),
                    await SensorHistory.HoursAsync(store, sensor.Id, now - Hours, now, cancellation),
                    KnownOf(outlook, sensor, now - Hours)
                )
            );
        }

        return SensorChecks.Of(judged, now);
    }

    /// <summary>What is known of the water that a sensor stands in, in its unit, since an instant.</summary>
    /// <param name="outlook">What is known of the house.</param>
    /// <param name="sensor">The sensor.</param>
    /// <param name="since">Since when.</param>
    public static IReadOnlyList<KnownValue> KnownOf(Outlook outlook, Sensor sensor, Instant since)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        ArgumentNullException.ThrowIfNull(sensor);
        if (sensor.Vessel is not { } vessel)
        {
            return [];
        }

        var known = new List<KnownValue>();
        foreach (var occurrence in outlook.House.Account.About(Subject.Of(vessel)))
        {
            var at = occurrence.Happened.Middle;
            if (
                at >= since
                && at <= outlook.Now
                // Of a time known to the hour: the sensor is asked for its hour.
                && occurrence.Happened.Latest - occurrence.Happened.Earliest <= Duration.FromHours(1)
                && occurrence.Fact is ReadingTaken reading
                && ValueOf(outlook, reading, at, sensor.About.Unit) is var (value, sd)
            )
            {
                known.Add(new(at, value, sd, IsMeasured: true));
            }
        }

        if (sensor.About.Unit is UnitCode.PracticalSalinity && outlook.LedgerOf(vessel) is { } ledger)
        {
            known.AddRange(
                ledger
                    .Track.Where(point => point.At >= since && point.At <= outlook.Now)
                    .Select(point => new KnownValue(
                        point.At,
                        point.SalinityPpt.Middle,
                        Math.Max(0.05, (point.SalinityPpt.High - point.SalinityPpt.Low) / Deviations),
                        IsMeasured: false
                    ))
            );
        }

        return [.. known.OrderBy(value => value.At)];
    }

    private static (double Value, double Sd)? ValueOf(
        Outlook outlook,
        ReadingTaken reading,
        Instant at,
        string unit
    )
    {
        var error = reading.Instrument is { } id ? outlook.House.Instrument(id).Description?.Error : null;
        switch (unit)
        {
            case "Cel" when reading.Value.AsTemperature() is { } temperature:
                return (temperature.Celsius, error ?? TemperatureSd);
            case "[degF]" when reading.Value.AsTemperature() is { } temperature:
                return ((temperature.Celsius * 1.8) + 32, (error ?? TemperatureSd) * 1.8);
            case UnitCode.PracticalSalinity when outlook.Meaning.Reading(reading, at) is { } read:
                return (read.Salinity.Practical, Math.Max(0.05, read.Sd));
            case "[pH]" or "mg/L{O2}" when reading.Value.Unit == unit:
                return (reading.Value.Value, error ?? (unit is "[pH]" ? AciditySd : OxygenSd));
            default:
                return null;
        }
    }
}
