using Broodtide.Storage.Blocks;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>Many readings in a database: one statement for all of them.</summary>
internal sealed class PostgresManyReadings(NpgsqlConnection connection) : IManyReadings
{
    public int Insert(IReadOnlyList<ReadingRow> rows) =>
        rows.Count == 0
            ? 0
            : connection.Run(
                """
                INSERT INTO reading (sensor, at, value)
                SELECT * FROM unnest(@sensors, @times, @values) ON CONFLICT DO NOTHING
                """,
                ("sensors", rows.Select(row => row.Sensor).ToArray()),
                ("times", rows.Select(row => row.At).ToArray()),
                ("values", rows.Select(row => row.Value).ToArray())
            );

    public void Delete(long sensor, IReadOnlyList<long> times)
    {
        if (times.Count == 0)
        {
            return;
        }

        // The span beside the list, so that only the months of the day are looked at.
        connection.Run(
            """
            DELETE FROM reading WHERE sensor = @sensor AND at >= @first AND at <= @last AND at = ANY(@times)
            """,
            ("sensor", sensor),
            ("first", times.Min()),
            ("last", times.Max()),
            ("times", times.ToArray())
        );
    }

    public void Hold(long sensor) =>
        connection.Run("SELECT number FROM sensor WHERE number = @sensor FOR UPDATE", ("sensor", sensor));
}
