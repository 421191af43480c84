using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// Alarms that readings tell of which came after newer ones: a device kept them while nobody listened. Nobody is told of what is
/// over, but it is kept and shown, and it says that it was learned late.
/// </summary>
public static class LateReadings
{
    /// <summary>A reading older than this tells of no alarm any more.</summary>
    public static readonly Duration Within = Duration.FromDays(1);

    // Before the first late reading, so that what began before it is seen to begin.
    private static readonly Duration Before = Duration.FromHours(1);

    /// <summary>The alarms that are over and that were not known, and known ones whose furthest value was not.</summary>
    /// <param name="store">The store; the late readings are in it.</param>
    /// <param name="sensor">The sensor.</param>
    /// <param name="limits">The limits that hold.</param>
    /// <param name="first">The time of the earliest late reading.</param>
    /// <param name="now">The time.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<IReadOnlyList<AlarmSpan>> AlarmsAsync(
        IReadingStore store,
        Sensor sensor,
        SensorLimits limits,
        Instant first,
        Instant now,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(sensor);
        ArgumentNullException.ThrowIfNull(limits);
        var from = first - Before - Duration.FromSeconds(limits.HoldSeconds);
        // What was read this very moment ends an alarm too.
        var to = now + Duration.FromMilliseconds(1);
        var readings = await SensorHistory.ReadingsAsync(store, sensor.Id, from, to, cancellation);
        var watch = new AlarmWatch(sensor.Id);
        var found = new Dictionary<Guid, AlarmSpan>();
        foreach (var reading in readings)
        {
            if (sensor.VesselAt(reading.At) is { } vessel)
            {
                foreach (var alarm in watch.See(reading, limits, vessel, now))
                {
                    found[alarm.Id] = alarm;
                }
            }
        }

        var known = (await store.AlarmsAsync(from, cancellation))
            .Where(alarm => alarm.Sensor == sensor.Id)
            .ToList();
        return
        [
            .. found.Values.Where(alarm =>
                // What lasts is the watch's to raise.
                alarm.Until
                    is { } until
                // In what began before the readings that are looked at, the beginning is not known.
                && alarm.From > from
                && !known.Exists(other =>
                    other.Kind == alarm.Kind
                    && other.Id != alarm.Id
                    && other.From <= until
                    && (other.Until ?? now) >= alarm.From
                )
            ),
        ];
    }
}
