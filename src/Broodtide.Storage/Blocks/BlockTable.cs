using Broodtide.Storage.Households;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Storage.Blocks;

/// <summary>The rows of closed days and of their hours.</summary>
internal sealed class BlockTable(SharedTables connection, SensorTable sensors, IManyReadings many)
{
    public bool Close(DayBlock block, IReadOnlyList<HourSummary>? hours, string? replaces)
    {
        var number =
            sensors.NumberOf(block.Day.Sensor)
            ?? throw new KeyNotFoundException($"{block.Day.Sensor} was never described.");
        var day = DayNumber(block.Day.Day);
        many.Hold(number);
        var standing = connection.Ask<string>(
            "SELECT sha256 FROM block WHERE sensor=$sensor AND day=$day",
            ("$sensor", number),
            ("$day", day)
        );
        if (!string.Equals(standing, replaces, StringComparison.Ordinal))
        {
            return false;
        }

        connection.Run(
            "DELETE FROM block WHERE sensor=$sensor AND day=$day",
            ("$sensor", number),
            ("$day", day)
        );
        connection.Run(
            "INSERT INTO block(sha256, sensor, day, readings, came_as, bytes) "
                + "VALUES($name, $sensor, $day, $readings, $came, $bytes)",
            ("$name", block.Sha256),
            ("$sensor", number),
            ("$day", day),
            ("$readings", block.Readings.Count),
            ("$came", block.CameAs),
            ("$bytes", block.ToBytes())
        );
        if (hours is not null)
        {
            Keep(number, block.Day, hours);
        }

        many.Delete(number, [.. block.Readings.Select(reading => reading.At.Milliseconds())]);
        return true;
    }

    public IReadOnlyList<BlockSeen> Between(SensorId sensor, LocalDate from, LocalDate to) =>
        sensors.NumberOf(sensor) is { } number
            ? connection.List(
                row => new BlockSeen(
                    row.GetString(0),
                    ReadingTable.Epoch.PlusDays((int)row.GetInt64(1)),
                    (int)row.GetInt64(2),
                    row.GetInt64(3) > row.GetInt64(2)
                ),
                "SELECT sha256, day, readings, came_as FROM block "
                    + "WHERE sensor=$sensor AND day BETWEEN $from AND $to ORDER BY day",
                ("$sensor", number),
                ("$from", DayNumber(from)),
                ("$to", DayNumber(to))
            )
            : [];

    public Parsed<DayBlock>? Read(string sha256) =>
        connection.Ask<byte[]>("SELECT bytes FROM block WHERE sha256=$name", ("$name", sha256)) is { } bytes
            ? DayBlock.Read(bytes, sha256)
            : null;

    public IReadOnlyList<HourSummary> Hours(SensorId sensor, Instant from, Instant to) =>
        sensors.NumberOf(sensor) is { } number
            ? connection.List(
                row => new HourSummary(
                    row.Moment(0),
                    row.GetDouble(1),
                    row.GetDouble(2),
                    row.GetDouble(3),
                    (int)row.GetInt64(4)
                ),
                "SELECT at, lowest, mean, highest, readings FROM hour "
                    + "WHERE sensor=$sensor AND at >= $from AND at < $to ORDER BY at",
                ("$sensor", number),
                ("$from", ReadingTable.CeilingOf(from)),
                ("$to", ReadingTable.CeilingOf(to))
            )
            : [];

    private void Keep(long number, SensorDay day, IReadOnlyList<HourSummary> hours)
    {
        connection.Run(
            "DELETE FROM hour WHERE sensor=$sensor AND at >= $from AND at < $to",
            ("$sensor", number),
            ("$from", day.From.Milliseconds()),
            ("$to", day.To.Milliseconds())
        );
        foreach (var hour in hours)
        {
            connection.Run(
                "INSERT INTO hour(sensor, at, lowest, mean, highest, readings) "
                    + "VALUES($sensor, $at, $lowest, $mean, $highest, $readings)",
                ("$sensor", number),
                ("$at", hour.From.Milliseconds()),
                ("$lowest", hour.Lowest),
                ("$mean", hour.Mean),
                ("$highest", hour.Highest),
                ("$readings", hour.Count)
            );
        }
    }

    private static int DayNumber(LocalDate day) => Period.DaysBetween(ReadingTable.Epoch, day);
}
