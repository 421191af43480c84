using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What a sensor read, whether its days are closed or not.</summary>
public static class SensorHistory
{
    /// <summary>Its hours, from an instant until before another, by time; the hour of the beginning is whole.</summary>
    /// <param name="store">The store.</param>
    /// <param name="sensor">The sensor.</param>
    /// <param name="from">From when.</param>
    /// <param name="to">Until before when.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<IReadOnlyList<HourSummary>> HoursAsync(
        IReadingStore store,
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        from = HourSummary.HourOf(from);
        var hours = (await store.HoursAsync(sensor, from, to, cancellation)).ToDictionary(hour => hour.From);
        var open = await store.OpenAsync(sensor, from, to, cancellation);
        foreach (var day in open.GroupBy(reading => reading.At.InUtc().Date))
        {
            // Of a closed day to which something came late, block and open readings make the hours together.
            var closed = await BlockAsync(store, new(sensor, day.Key), cancellation);
            foreach (
                var hour in HourSummary.Of(
                    (closed?.Readings ?? [])
                        .Concat(day)
                        .DistinctBy(reading => reading.At)
                        .Where(reading => reading.At >= from && reading.At < to)
                )
            )
            {
                hours[hour.From] = hour;
            }
        }

        return [.. hours.Values.OrderBy(hour => hour.From)];
    }

    /// <summary>Its readings, from an instant until before another, by time. Of thinned days those that were kept.</summary>
    /// <param name="store">The store.</param>
    /// <param name="sensor">The sensor.</param>
    /// <param name="from">From when.</param>
    /// <param name="to">Until before when.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task<IReadOnlyList<RawReading>> ReadingsAsync(
        IReadingStore store,
        SensorId sensor,
        Instant from,
        Instant to,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        var readings = new List<RawReading>();
        var blocks = await store.BlocksAsync(sensor, from.InUtc().Date, to.InUtc().Date, cancellation);
        foreach (var seen in blocks)
        {
            if (await store.BlockAsync(seen.Sha256, cancellation) is { Succeeded: true } block)
            {
                readings.AddRange(block.Value.Readings);
            }
        }

        readings.AddRange(await store.OpenAsync(sensor, from, to, cancellation));
        return
        [
            .. readings
                .Where(reading => reading.At >= from && reading.At < to)
                .DistinctBy(reading => reading.At)
                .OrderBy(reading => reading.At),
        ];
    }

    internal static async Task<DayBlock?> BlockAsync(
        IReadingStore store,
        SensorDay day,
        CancellationToken cancellation
    ) =>
        await store.BlocksAsync(day.Sensor, day.Day, day.Day, cancellation) is [var seen]
        && await store.BlockAsync(seen.Sha256, cancellation) is { Succeeded: true } block
            ? block.Value
            : null;
}
