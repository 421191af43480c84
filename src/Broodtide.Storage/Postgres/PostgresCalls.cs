using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>Short calls for statements that stand once.</summary>
internal static class PostgresCalls
{
    public static NpgsqlCommand Make(
        this NpgsqlConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        // Every text is a constant of this folder; values go in as parameters.
#pragma warning disable CA2100
        var command = new NpgsqlCommand(text, connection);
#pragma warning restore CA2100
        foreach (var (name, value) in arguments)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    public static int Run(
        this NpgsqlConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = connection.Make(text, arguments);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first field of the first row, or none.</summary>
    public static T? Ask<T>(
        this NpgsqlConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = connection.Make(text, arguments);
        return command.ExecuteScalar() is T found ? found : default;
    }

    /// <summary>Every row, as read by a function.</summary>
    public static List<T> List<T>(
        this NpgsqlConnection connection,
        Func<NpgsqlDataReader, T> read,
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

    /// <summary>Changes in one transaction; on the disk when this returns.</summary>
    public static T Within<T>(this NpgsqlConnection connection, Func<T> change)
    {
        // Disposing gives back what was not committed.
        using var transaction = connection.BeginTransaction();
        var result = change();
        transaction.Commit();
        return result;
    }

    public static byte[] Bytes(this Guid id) => id.ToByteArray(bigEndian: true);

    public static Guid Id(this NpgsqlDataReader row, int column) =>
        new(row.GetFieldValue<byte[]>(column), bigEndian: true);
}
