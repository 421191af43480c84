using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Sensors;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>The rows of readings whose day is not closed, or has to be closed again.</summary>
internal sealed class ReadingTable(SqliteConnection connection, SensorTable sensors)
{
    private const long MillisecondsOfDay = 86_400_000;

    public Taken Take(IReadOnlyList<SensorReading> readings)
    {
        using var insert = connection.CreateCommand();
        insert.CommandText =
            "INSERT INTO reading(sensor, at, value) VALUES($sensor, $at, $value) ON CONFLICT DO NOTHING";
        var sensor = insert.Parameters.Add("$sensor", SqliteType.Integer);
        var at = insert.Parameters.Add("$at", SqliteType.Integer);
        var value = insert.Parameters.Add("$value", SqliteType.Real);
        insert.Prepare();
        var fresh = 0;
        var latest = new Dictionary<long, RawReading>();
        foreach (var (id, reading) in readings)
        {
            var number = sensors.NumberOf(id) ?? throw new KeyNotFoundException($"{id} was never described.");
            sensor.Value = number;
            at.Value = RawReading.Cut(reading.At).Milliseconds();
            value.Value = reading.Value;
            fresh += insert.ExecuteNonQuery();
            if (!latest.TryGetValue(number, out var last) || reading.At > last.At)
            {
                latest[number] = reading;
            }
        }

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
                        + "JOIN sensor s ON s.number=r.sensor WHERE r.at < $end GROUP BY r.sensor, day",
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
