using System.Collections.Concurrent;
using System.Data.Common;
using Broodtide.Domain;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>The rows of sensors and of where they stood.</summary>
/// <param name="connection">The tables.</param>
/// <param name="numbers">Numbers that were found before; a sensor keeps its own.</param>
internal sealed class SensorTable(SharedTables connection, ConcurrentDictionary<SensorId, long> numbers)
{
    public IReadOnlyList<Sensor> All()
    {
        var placements = connection
            .List(
                row =>
                    (
                        Sensor: row.GetInt64(0),
                        new Placement(row.Moment(1), row.IdOrNone(2) is { } id ? new VesselId(id) : null)
                    ),
                "SELECT sensor, since, vessel FROM placement ORDER BY sensor, since"
            )
            .ToLookup(row => row.Sensor, row => row.Item2);
        return
        [
            .. connection
                .List(
                    row => Read(row) with { Placements = [.. placements[row.GetInt64(0)]] },
                    "SELECT number, id, unit, label, resolution, every_seconds, heard, limited, low, high, hysteresis, "
                        + "hold_seconds, silent_seconds, life, last_at, last_value FROM sensor"
                )
                .OrderBy(sensor => sensor.Id.ToString(), StringComparer.Ordinal),
        ];
    }

    /// <summary>The number of a sensor; none where it was never described.</summary>
    public long? NumberOf(SensorId sensor)
    {
        if (numbers.TryGetValue(sensor, out var known))
        {
            return known;
        }

        var found = connection.Ask<long?>(
            "SELECT number FROM sensor WHERE id=$id",
            ("$id", sensor.ToString())
        );
        if (found is { } number)
        {
            numbers[sensor] = number;
        }

        return found;
    }

    public bool Describe(SensorId sensor, SensorAbout about, Instant heard)
    {
        connection.Run(
            "INSERT INTO sensor(id, unit, label, resolution, every_seconds, heard) "
                + "VALUES($id, $unit, $label, $resolution, $every, $heard) "
                + "ON CONFLICT(id) DO UPDATE SET label=excluded.label, resolution=excluded.resolution, "
                + "every_seconds=excluded.every_seconds",
            ("$id", sensor.ToString()),
            ("$unit", about.Unit),
            ("$label", about.Label),
            ("$resolution", about.Resolution),
            ("$every", about.EverySeconds),
            ("$heard", heard.Milliseconds())
        );
        return true;
    }

    public bool Place(SensorId sensor, Placement placement) =>
        NumberOf(sensor) is { } number
        && connection.Run(
            "INSERT INTO placement(sensor, since, vessel) VALUES($sensor, $since, $vessel) "
                + "ON CONFLICT(sensor, since) DO UPDATE SET vessel=excluded.vessel",
            ("$sensor", number),
            ("$since", placement.From.Milliseconds()),
            ("$vessel", placement.Vessel?.Value.Bytes())
        ) == 1;

    public bool Limit(SensorId sensor, SensorLimits? limits) =>
        connection.Run(
            "UPDATE sensor SET limited=$limited, low=$low, high=$high, hysteresis=$hysteresis, hold_seconds=$hold, "
                + "silent_seconds=$silent, life=$life WHERE id=$id",
            ("$id", sensor.ToString()),
            ("$limited", limits is null ? 0 : 1),
            ("$low", limits?.Low),
            ("$high", limits?.High),
            ("$hysteresis", limits?.Hysteresis),
            ("$hold", limits?.HoldSeconds),
            ("$silent", limits?.SilentSeconds),
            (
                "$life",
                limits is null ? null
                : limits.IsLifeThreatening ? 1
                : 0
            )
        ) == 1;

    private static Sensor Read(DbDataReader row) =>
        new()
        {
            Id =
                SensorId.Find(row.GetString(1))
                ?? throw new InvalidOperationException("A sensor's name is not plain."),
            About = new(
                row.GetString(2),
                row.IsDBNull(3) ? null : row.GetString(3),
                Number(row, 4),
                Number(row, 5)
            ),
            FirstHeard = row.Moment(6),
            Limits =
                row.GetInt64(7) == 0
                    ? null
                    : new(
                        Number(row, 8),
                        Number(row, 9),
                        Number(row, 10) ?? 0,
                        Number(row, 11) ?? 0,
                        Number(row, 12),
                        !row.IsDBNull(13) && row.GetInt64(13) != 0
                    ),
            Last = row.IsDBNull(14) ? null : new RawReading(row.Moment(14), row.GetDouble(15)),
        };

    internal static double? Number(DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.GetDouble(column);
}
