using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>Short calls for statements that stand once.</summary>
internal static class SqliteCalls
{
    public static SqliteCommand Make(
        this SqliteConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        var command = connection.CreateCommand();
        // Every text is a constant of this folder; values go in as parameters.
#pragma warning disable CA2100
        command.CommandText = text;
#pragma warning restore CA2100
        foreach (var (name, value) in arguments)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    public static int Run(
        this SqliteConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = connection.Make(text, arguments);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first field of the first row, or none.</summary>
    public static T? Ask<T>(
        this SqliteConnection connection,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = connection.Make(text, arguments);
        return command.ExecuteScalar() is T found ? found : default;
    }

    /// <summary>Every row, as read by a function.</summary>
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

    /// <summary>Changes in one transaction that holds the write lock from its start.</summary>
    public static T Within<T>(this SqliteConnection connection, Func<T> change)
    {
        using var begin = connection.Make("BEGIN IMMEDIATE");
        using var commit = connection.Make("COMMIT");
        return connection.Within(change, begin, commit);
    }

    /// <summary>The same with both statements at hand.</summary>
    public static T Within<T>(
        this SqliteConnection connection,
        Func<T> change,
        SqliteCommand begin,
        SqliteCommand commit
    )
    {
        begin.ExecuteNonQuery();
        try
        {
            var result = change();
            commit.ExecuteNonQuery();
            return result;
        }
        catch
        {
            GiveBack(connection);
            throw;
        }
    }

    private static void GiveBack(SqliteConnection connection)
    {
        try
        {
            connection.Run("ROLLBACK");
        }
        catch (SqliteException)
        {
            // SQLite has done so already, as after a full disk; the first failure is the one to tell.
        }
    }
}
