using Broodtide.Science.Series;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// Closes days into blocks, and thins blocks that were kept whole for their time. Of a thinned day the least and the
/// greatest of each ten minutes stay, the points that keep the drawing's shape, and everything from an hour before an alarm
/// to an hour after it; its hours stay as they were.
/// </summary>
public static class DayClosing
{
    // Most of what is late comes within the hour; what is later makes the block anew.
    private static readonly Duration Patience = Duration.FromHours(1);
    private static readonly Duration AroundAlarms = Duration.FromHours(1);

    /// <summary>Spans of a day of which the least and the greatest stay: ten minutes each.</summary>
    public const int SpansOfDay = 144;

    /// <summary>Points that keep the shape of a day.</summary>
    public const int ShapeOfDay = 288;

    /// <summary>Closes the days that are over.</summary>
    /// <param name="store">The store.</param>
    /// <param name="now">The time.</param>
    /// <param name="cancellation">Gives up between two days.</param>
    /// <returns>How many were closed.</returns>
    public static async Task<int> CloseAsync(
        IReadingStore store,
        Instant now,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        var units = (await store.SensorsAsync(cancellation)).ToDictionary(
            sensor => sensor.Id,
            sensor => sensor.About.Unit
        );
        var closed = 0;
        foreach (var day in await store.OpenDaysAsync((now - Patience).InUtc().Date, cancellation))
        {
            var standing = await store.BlocksAsync(day.Sensor, day.Day, day.Day, cancellation);
            var before = await SensorHistory.BlockAsync(store, day, cancellation);
            if (standing.Count > 0 && before is null)
            {
                // Its bytes are damaged: nothing takes its place unasked, and what came stays open.
                continue;
            }

            var open = await store.OpenAsync(day.Sensor, day.From, day.To, cancellation);
            IReadOnlyList<RawReading> all =
            [
                .. (before?.Readings ?? []).Concat(open).DistinctBy(reading => reading.At),
            ];
            if (all.Count is 0 or > DayBlock.Most)
            {
                continue;
            }

            var cameAs = all.Count + (before is null ? 0 : before.CameAs - before.Readings.Count);
            var block = DayBlock.Of(day, units[day.Sensor], all, cameAs);
            // The hours of a thinned day cannot be made from what is left of it.
            var hours = before is { IsThinned: true } ? null : HourSummary.Of(all);
            closed += await store.CloseAsync(block, hours, before?.Sha256, cancellation) ? 1 : 0;
        }

        return closed;
    }

    /// <summary>Thins blocks of days before one.</summary>
    /// <param name="store">The store.</param>
    /// <param name="before">Days from this one on stay whole.</param>
    /// <param name="cancellation">Gives up between two days.</param>
    /// <returns>How many were thinned.</returns>
    public static async Task<int> ThinAsync(
        IReadingStore store,
        LocalDate before,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        var thinned = 0;
        var alarms = (await store.AlarmsAsync(Instant.MinValue, cancellation)).ToLookup(alarm =>
            alarm.Sensor
        );
        foreach (var sensor in await store.SensorsAsync(cancellation))
        {
            var blocks = await store.BlocksAsync(
                sensor.Id,
                new LocalDate(1970, 1, 1),
                before.PlusDays(-1),
                cancellation
            );
            foreach (var seen in blocks.Where(seen => !seen.IsThinned && seen.Count > ShapeOfDay))
            {
                if (
                    await store.BlockAsync(seen.Sha256, cancellation) is { Succeeded: true } whole
                    && Thin(whole.Value, [.. alarms[sensor.Id]]) is { IsThinned: true } thin
                )
                {
                    thinned += await store.CloseAsync(thin, null, seen.Sha256, cancellation) ? 1 : 0;
                }
            }
        }

        return thinned;
    }

    /// <summary>The thinned form of a block.</summary>
    /// <param name="whole">The block.</param>
    /// <param name="alarms">The alarms of its sensor.</param>
    public static DayBlock Thin(DayBlock whole, IReadOnlyList<AlarmSpan> alarms)
    {
        ArgumentNullException.ThrowIfNull(whole);
        ArgumentNullException.ThrowIfNull(alarms);
        var readings = whole.Readings;
        var from = whole.Day.From;
        double[] times = [.. readings.Select(reading => (reading.At - from).TotalSeconds)];
        double[] values = [.. readings.Select(reading => reading.Value)];
        var kept = new SortedSet<int>(Thinning.ByTriangles(times, values, ShapeOfDay));
        // By time and not by number, so that a gap takes no span away.
        var spanSeconds = NodaConstants.SecondsPerDay / (double)SpansOfDay;
        foreach (
            var span in Enumerable.Range(0, readings.Count).GroupBy(at => (int)(times[at] / spanSeconds))
        )
        {
            kept.Add(span.MinBy(at => values[at]));
            kept.Add(span.MaxBy(at => values[at]));
        }

        for (var at = 0; at < readings.Count; at++)
        {
            var time = readings[at].At;
            if (
                alarms.Any(alarm =>
                    time >= alarm.From - AroundAlarms
                    && (alarm.Until is not { } until || time <= until + AroundAlarms)
                )
            )
            {
                kept.Add(at);
            }
        }

        return DayBlock.Of(whole.Day, whole.Unit, kept.Select(at => readings[at]), whole.CameAs);
    }
}
