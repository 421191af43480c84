using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Blocks;

/// <summary>Many readings in a file: one statement, made ready once, row by row.</summary>
internal sealed class SqliteReadings(SqliteConnection connection) : IManyReadings
{
    public int Insert(IReadOnlyList<ReadingRow> rows)
    {
        using var insert = connection.CreateCommand();
        insert.CommandText =
            "INSERT INTO reading(sensor, at, value) VALUES($sensor, $at, $value) ON CONFLICT DO NOTHING";
        var sensor = insert.Parameters.Add("$sensor", SqliteType.Integer);
        var at = insert.Parameters.Add("$at", SqliteType.Integer);
        var value = insert.Parameters.Add("$value", SqliteType.Real);
        insert.Prepare();
        var fresh = 0;
        foreach (var row in rows)
        {
            (sensor.Value, at.Value, value.Value) = (row.Sensor, row.At, row.Value);
            fresh += insert.ExecuteNonQuery();
        }

        return fresh;
    }

    public void Delete(long sensor, IReadOnlyList<long> times)
    {
        using var delete = connection.CreateCommand();
        delete.CommandText = "DELETE FROM reading WHERE sensor=$sensor AND at=$at";
        delete.Parameters.AddWithValue("$sensor", sensor);
        var at = delete.Parameters.Add("$at", SqliteType.Integer);
        delete.Prepare();
        foreach (var time in times)
        {
            at.Value = time;
            delete.ExecuteNonQuery();
        }
    }

    // A change holds the whole file.
    public void Hold(long sensor) { }
}
