using System.Globalization;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;
using Npgsql;
using NpgsqlTypes;

namespace Broodtide.Storage.Moving;

/// <summary>Rows that are carried into a database, in the change that carries them all.</summary>
internal static class PostgresSide
{
    private static readonly string[] InMonths = ["reading", "hour"];

    /// <summary>Makes the tables of the months that come.</summary>
    public static void Prepare(NpgsqlConnection connection, SqliteConnection from, MovedTable table)
    {
        var column =
            InMonths.Contains(table.Name) ? "at"
            : table.Name == "block" ? "day"
            : null;
        if (
            column is null
            || from.Ask<long?>($"SELECT min({column}) FROM {table.Name}") is not { } first
            || from.Ask<long?>($"SELECT max({column}) FROM {table.Name}") is not { } last
        )
        {
            return;
        }

        var milliseconds = column == "at" ? 1 : 86_400_000L;
        var month = PostgresMonths.MonthOf(first * milliseconds);
        var end = PostgresMonths.MonthOf(last * milliseconds);
        PostgresMonths.Make(connection, month, ((end.Year - month.Year) * 12) + end.Month - month.Month + 1);
    }

    /// <summary>Writes rows in the quickest way there is.</summary>
    public static void Write(NpgsqlConnection connection, MovedTable table, IEnumerable<object?[]> rows)
    {
        using var writer = connection.BeginBinaryImport(
            $"COPY \"{table.Name}\" ({table.List}) FROM STDIN (FORMAT BINARY)"
        );
        foreach (var row in rows)
        {
            writer.StartRow();
            foreach (var value in row)
            {
                switch (value)
                {
                    case null:
                        writer.WriteNull();
                        break;
                    case long number:
                        writer.Write(number, NpgsqlDbType.Bigint);
                        break;
                    case double number:
                        writer.Write(number, NpgsqlDbType.Double);
                        break;
                    case string text:
                        writer.Write(text, NpgsqlDbType.Text);
                        break;
                    default:
                        writer.Write((byte[])value, NpgsqlDbType.Bytea);
                        break;
                }
            }
        }

        writer.Complete();
    }

    /// <summary>Numbers go on after the highest; a life of its own begins at the next opening.</summary>
    public static void Finish(NpgsqlConnection connection)
    {
        var counted = connection.List(
            row => (Table: row.GetString(0), Column: row.GetString(1)),
            """
            SELECT table_name::text, column_name::text FROM information_schema.columns
            WHERE table_schema = current_schema() AND is_identity = 'YES'
            """
        );
        foreach (var (table, column) in counted)
        {
            connection.Run(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"""
                    SELECT setval(pg_get_serial_sequence('{table}', '{column}'),
                                  coalesce((SELECT max("{column}") FROM "{table}"), 0) + 1, false)
                    """
                )
            );
        }

        connection.Run(
            "UPDATE life SET last = coalesce((SELECT max(number) FROM entry), 0), place = '' WHERE one = 1"
        );
    }
}
