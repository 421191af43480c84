using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>How ids and instants stand in the tables of the house: sixteen bytes, milliseconds since 1970 UTC.</summary>
internal static class HouseRows
{
    public static byte[] Bytes(this Guid id) => id.ToByteArray(bigEndian: true);

    public static long Milliseconds(this Instant instant) => instant.ToUnixTimeMilliseconds();

    public static Guid Id(this SqliteDataReader row, int column) =>
        new(row.GetFieldValue<byte[]>(column), bigEndian: true);

    public static Guid? IdOrNone(this SqliteDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.Id(column);

    public static Instant Moment(this SqliteDataReader row, int column) =>
        Instant.FromUnixTimeMilliseconds(row.GetInt64(column));

    public static Instant? MomentOrNone(this SqliteDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.Moment(column);

    public static IReadOnlyList<T> List<T>(
        this SqliteConnection connection,
        Func<SqliteDataReader, T> read,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = connection.Make(text, arguments);
        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(read(rows));
        }

        return found;
    }
}
