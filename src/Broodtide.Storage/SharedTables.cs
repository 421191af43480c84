using System.Data.Common;

namespace Broodtide.Storage;

/// <summary>
/// Tables of a store, asked in the language that both databases share; a value is written <c>$name</c>.
/// </summary>
/// <param name="connection">Open; in a transaction where something is changed.</param>
/// <param name="dialect">Turns a statement, or the name of a value, into what the database reads.</param>
internal sealed class SharedTables(DbConnection connection, Func<string, string> dialect)
{
    /// <summary>The connection, for what one database alone knows.</summary>
    public DbConnection Connection => connection;

    /// <summary>Runs a statement; how many rows it changed.</summary>
    public int Run(string text, params ReadOnlySpan<(string Name, object? Value)> arguments)
    {
        using var command = Make(text, arguments);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first field of the first row, or none.</summary>
    public T? Ask<T>(string text, params ReadOnlySpan<(string Name, object? Value)> arguments)
    {
        using var command = Make(text, arguments);
        return command.ExecuteScalar() is T found ? found : default;
    }

    /// <summary>Every row, as read by a function.</summary>
    public IReadOnlyList<T> List<T>(
        Func<DbDataReader, T> read,
        string text,
        params ReadOnlySpan<(string Name, object? Value)> arguments
    )
    {
        using var command = Make(text, arguments);
        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(read(rows));
        }

        return found;
    }

    private DbCommand Make(string text, ReadOnlySpan<(string Name, object? Value)> arguments)
    {
        var command = connection.CreateCommand();
        // Every text is a constant of this folder; values go in as parameters.
#pragma warning disable CA2100
        command.CommandText = dialect(text);
#pragma warning restore CA2100
        foreach (var (name, value) in arguments)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = dialect(name);
            parameter.Value = value ?? DBNull.Value;
            command.Parameters.Add(parameter);
        }

        return command;
    }
}
