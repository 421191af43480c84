using Broodtide.Units;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// How every connection is set: a commit is on the disk before it returns. What a connection may set is set with its
/// opening, so that nothing resets it; what only the database's keeper may set is asked. All of it is read back.
/// </summary>
internal static class PostgresSettings
{
    /// <summary>Where the tables lie, unless the connection says otherwise.</summary>
    public const string DefaultSchema = "broodtide";

    // As long as a file of the journal would be waited for.
    private const int LockSeconds = 20;

    // A program whose machine vanished holds the pen no longer than this.
    private const int IdleSeconds = 60;

    /// <summary>The connection that is asked for, with what this store needs.</summary>
    /// <exception cref="StoreUnusableException">The text is no connection.</exception>
    public static NpgsqlConnectionStringBuilder Read(string connection)
    {
        NpgsqlConnectionStringBuilder wanted;
        try
        {
            wanted = new NpgsqlConnectionStringBuilder(connection);
        }
        catch (Exception wrong) when (wrong is ArgumentException or FormatException or KeyNotFoundException)
        {
            throw new StoreUnusableException(
                new Remark("store-text-wrong", new Argument("file", "PostgreSQL"))
            );
        }

        var schema = string.IsNullOrWhiteSpace(wanted.SearchPath) ? DefaultSchema : wanted.SearchPath.Trim();
        if (!IsPlain(schema))
        {
            throw new StoreUnusableException(
                new Remark("store-schema-name", new("file", NameOf(wanted)), new("schema", schema))
            );
        }

        wanted.SearchPath = schema;
        wanted.ApplicationName ??= "broodtide";
        wanted.MaxAutoPrepare = Math.Max(wanted.MaxAutoPrepare, 60);
        wanted.Options = string.Join(
            ' ',
            (
                (string?[])
                    [
                        wanted.Options,
                        "-c synchronous_commit=on",
                        "-c default_transaction_isolation=read\\ committed",
                        $"-c lock_timeout={LockSeconds}s",
                        $"-c idle_in_transaction_session_timeout={IdleSeconds}s",
                        "-c timezone=UTC",
                    ]
            ).Where(part => !string.IsNullOrWhiteSpace(part))
        );
        return wanted;
    }

    /// <summary>How a person knows it: where and which, never who or by what secret.</summary>
    public static string NameOf(NpgsqlConnectionStringBuilder connection) =>
        $"postgresql://{connection.Host}:{connection.Port}/{connection.Database}";

    /// <summary>Sees that a connection keeps what it confirms.</summary>
    /// <exception cref="StoreUnusableException">A setting is another one: it is named.</exception>
    public static void Require(NpgsqlConnection connection, string name)
    {
        var found = connection.List(
            row => (Setting: row.GetString(0), Found: row.GetString(1)),
            """
            SELECT name, setting FROM pg_catalog.pg_settings
            WHERE name IN ('fsync', 'full_page_writes', 'synchronous_commit', 'server_encoding')
            """
        );
        foreach (var (setting, value) in found)
        {
            // "remote_apply" waits for the disk here, and for a second machine beside.
            var (isKept, wanted) = setting switch
            {
                "synchronous_commit" => (value is "on" or "remote_apply", "on"),
                "server_encoding" => (value is "UTF8", "UTF8"),
                _ => (value is "on", "on"),
            };
            if (!isKept)
            {
                throw new StoreUnusableException(
                    new Remark(
                        "store-not-durable",
                        new("file", name),
                        new("setting", setting),
                        new("found", value),
                        new("wanted", wanted)
                    )
                );
            }
        }
    }

    // It goes into statements as it is, so nothing but what needs no quotes.
    private static bool IsPlain(string schema) =>
        schema.Length is > 0 and <= 60
        && char.IsAsciiLetterLower(schema[0])
        && schema.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '_')
        && !schema.StartsWith("pg_", StringComparison.Ordinal);
}
