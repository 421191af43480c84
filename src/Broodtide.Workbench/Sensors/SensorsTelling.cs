using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What only the program knows that listens for readings; all of it left out where none listens.</summary>
public sealed record SensorsSurroundings
{
    /// <summary>Nobody listens: a program that only looks.</summary>
    public static SensorsSurroundings None { get; } = new();

    /// <summary>Since when a device is gone; none while it is here, or where nobody listens.</summary>
    public Func<string, Instant?> GoneSince { get; init; } = _ => null;

    /// <summary>Why the broker cannot be reached, as a code; none where it can, or there is none.</summary>
    public string? BrokerTrouble { get; init; }

    /// <summary>Whether the settings name nobody who is told of alarms.</summary>
    public bool TellsNobody { get; init; }

    /// <summary>How many messages were refused, by code.</summary>
    public IReadOnlyDictionary<string, long> Refused { get; init; } =
        new Dictionary<string, long>(StringComparer.Ordinal);
}

/// <summary>
/// Tells everything of the sensors of a house in one place, for the server that sends it and for the command line that
/// looks at the same store: both say the same.
/// </summary>
public static class SensorsTelling
{
    /// <summary>Everything of the sensors at an instant.</summary>
    /// <param name="store">The store.</param>
    /// <param name="findings">What does not look right, by sensor.</param>
    /// <param name="limitsOf">The limits of a sensor that nobody chose limits for.</param>
    /// <param name="surroundings">What only the program knows that listens.</param>
    /// <param name="now">The instant.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<SensorsSeen> OfAsync(
        IReadingStore store,
        IReadOnlyDictionary<SensorId, IReadOnlyList<Remark>> findings,
        Func<Sensor, SensorLimits?> limitsOf,
        SensorsSurroundings surroundings,
        Instant now,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(limitsOf);
        ArgumentNullException.ThrowIfNull(surroundings);
        var since = now - Duration.FromDays(SensorsSeen.Days);
        var sensors = new List<SensorSeen>();
        foreach (var sensor in await store.SensorsAsync(cancellation))
        {
            var all = await SensorHistory.HoursAsync(
                store,
                sensor.Id,
                // From a midnight: the oldest goes once a day and not every hour.
                now.InUtc().Date.PlusDays(-SensorMeans.Days).AtMidnight().InUtc().ToInstant(),
                now + Duration.FromHours(1),
                cancellation
            );
            var hours = all.Where(hour => hour.From >= HourSummary.HourOf(since));
            sensors.Add(
                new(
                    sensor.Id.ToString(),
                    sensor.About.Label,
                    sensor.About.Unit,
                    sensor.Vessel?.Value,
                    sensor.Placements.Count > 0,
                    sensor.Last?.At.ToUnixTimeMilliseconds(),
                    sensor.Last?.Value,
                    surroundings.GoneSince(sensor.Id.Device)?.ToUnixTimeMilliseconds(),
                    sensor.Limits ?? limitsOf(sensor),
                    sensor.Limits is not null,
                    [.. (findings.GetValueOrDefault(sensor.Id) ?? []).Select(FindingSeen.Of)],
                    [
                        .. hours.Select(hour => new HourSeen(
                            hour.From.ToUnixTimeMilliseconds(),
                            hour.Lowest,
                            hour.Mean,
                            hour.Highest
                        )),
                    ],
                    SensorMeans.Of(sensor, all, now)
                )
            );
        }

        var tried = (await store.DeliveriesAsync(since, cancellation)).ToLookup(one => one.Alarm);
        return new(
            now.ToUnixTimeMilliseconds(),
            sensors,
            [
                .. (await store.AlarmsAsync(since, cancellation)).Select(alarm =>
                    Of(alarm, NotDelivered(tried[alarm.Id]))
                ),
            ],
            surroundings.BrokerTrouble,
            surroundings.TellsNobody,
            surroundings.Refused
        );
    }

    /// <summary>An alarm as it is sent.</summary>
    /// <param name="alarm">The alarm.</param>
    /// <param name="notDelivered">Why somebody could not be told of it, as codes.</param>
    public static AlarmSeen Of(AlarmSpan alarm, IReadOnlyList<string> notDelivered)
    {
        ArgumentNullException.ThrowIfNull(alarm);
        return new(
            alarm.Id,
            alarm.Sensor.ToString(),
            alarm.Vessel?.Value,
            alarm.Kind,
            alarm.Limit,
            alarm.Worst,
            alarm.From.ToUnixTimeMilliseconds(),
            alarm.Until?.ToUnixTimeMilliseconds(),
            alarm.IsLifeThreatening,
            alarm.Seen?.At.ToUnixTimeMilliseconds(),
            notDelivered,
            alarm.WasLearnedLate
        );
    }

    /// <summary>Why somebody could not be told, as codes: of each way and person the last try counts.</summary>
    /// <param name="tried">The tries of one alarm, by time.</param>
    public static IReadOnlyList<string> NotDelivered(IEnumerable<AlarmDelivery> tried) =>
        [
            .. tried
                .GroupBy(one => (one.Way, one.To))
                .Select(tries => tries.Last().Failure)
                .OfType<string>()
                .Distinct(StringComparer.Ordinal),
        ];
}
