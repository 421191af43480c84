using Broodtide.Storage.Households;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>The rows of readings whose day is not closed, or has to be closed again.</summary>
internal sealed class ReadingTable(SharedTables connection, SensorTable sensors, IManyReadings many)
{
    private const long MillisecondsOfDay = 86_400_000;

    public Taken Take(IReadOnlyList<SensorReading> readings)
    {
        var rows = new List<ReadingRow>(readings.Count);
        var latest = new SortedDictionary<long, RawReading>();
        foreach (var (id, reading) in readings)
        {
            var number = sensors.NumberOf(id) ?? throw new KeyNotFoundException($"{id} was never described.");
            rows.Add(new(number, RawReading.Cut(reading.At).Milliseconds(), reading.Value));
            if (!latest.TryGetValue(number, out var last) || reading.At > last.At)
            {
                latest[number] = reading;
            }
        }

        var fresh = many.Insert(rows);
        foreach (var (number, reading) in latest)
        {
            connection.Run(
                "UPDATE sensor SET last_at=$at, last_value=$value "
                    + "WHERE number=$sensor AND (last_at IS NULL OR last_at < $at)",
                ("$sensor", number),
                ("$at", RawReading.Cut(reading.At).Milliseconds()),
                ("$value", reading.Value)
            );
        }

        return new(fresh, readings.Count - fresh);
    }

    public IReadOnlyList<RawReading> Open(SensorId sensor, Instant from, Instant to) =>
        sensors.NumberOf(sensor) is { } number
            ? connection.List(
                row => new RawReading(row.Moment(0), row.GetDouble(1)),
                "SELECT at, value FROM reading WHERE sensor=$sensor AND at >= $from AND at < $to ORDER BY at",
                ("$sensor", number),
                ("$from", CeilingOf(from)),
                ("$to", CeilingOf(to))
            )
            : [];

    public IReadOnlyList<SensorDay> OpenDays(LocalDate before)
    {
        var end = new SensorDay(Anybody, before).From.Milliseconds();
        return
        [
            .. connection
                .List(
                    row => new SensorDay(
                        SensorId.Find(row.GetString(0)) ?? Anybody,
                        Epoch.PlusDays((int)row.GetInt64(1))
                    ),
                    "SELECT s.id, CAST(floor(r.at / $day) AS INTEGER) AS day FROM reading r "
                        + "JOIN sensor s ON s.number=r.sensor WHERE r.at < $end GROUP BY s.id, day",
                    ("$day", (double)MillisecondsOfDay),
                    ("$end", end)
                )
                .OrderBy(day => day.Day)
                .ThenBy(day => day.Sensor.ToString(), StringComparer.Ordinal),
        ];
    }

    internal static LocalDate Epoch => new(1970, 1, 1);

    // Readings stand at whole milliseconds: from half of one on means from the next.
    internal static long CeilingOf(Instant instant)
    {
        var milliseconds = instant.Milliseconds();
        return Instant.FromUnixTimeMilliseconds(milliseconds) < instant ? milliseconds + 1 : milliseconds;
    }

    private static SensorId Anybody { get; } = SensorId.Find("x", "x")!;
}
