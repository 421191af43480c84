using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Units;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// The tables, in a schema of their own. They are made where the connection may make them; otherwise whoever owns the
/// database prepares them once (see docs/postgresql.md) and the server needs no right beyond reading and writing rows.
/// </summary>
internal static class PostgresSchema
{
    // The journal: the bytes of entries are the truth, everything else can be worked out or thrown away. "life" is one
    // row: which life of the store this is, in which database it began, how many entries have arrived. Whoever writes
    // locks that row first; it is the pen.
    private const string Journal = """
        CREATE TABLE entry (
            number      bigint PRIMARY KEY,
            digest      bytea NOT NULL UNIQUE CHECK (octet_length(digest) = 32),
            id          bytea NOT NULL CHECK (octet_length(id) = 16),
            replica     bytea NOT NULL CHECK (octet_length(replica) = 16),
            seq         bigint NOT NULL CHECK (seq >= 1),
            envelope    bytea NOT NULL,
            salted_body bytea NULL
        );
        CREATE INDEX entry_by_id ON entry (id);
        CREATE INDEX entry_by_seq ON entry (replica, seq);
        CREATE TABLE erased (id bytea PRIMARY KEY CHECK (octet_length(id) = 16));
        CREATE TABLE life (
            one   integer PRIMARY KEY CHECK (one = 1),
            id    bytea NOT NULL CHECK (octet_length(id) = 16),
            place text NOT NULL,
            last  bigint NOT NULL
        );
        INSERT INTO life (one, id, place, last) VALUES (1, decode(repeat('00', 16), 'hex'), '', 0);
        CREATE TABLE door (name text PRIMARY KEY, replica bytea NOT NULL CHECK (octet_length(replica) = 16));
        CREATE TABLE checkpoint (
            fold        text NOT NULL,
            version     integer NOT NULL,
            position    integer NOT NULL,
            mark_first  bigint NOT NULL,
            mark_second bigint NOT NULL,
            state       bytea NOT NULL,
            PRIMARY KEY (fold, version, position)
        );
        """;

    // What servers of one house share beside the journal: photos by their hash, the framework's keys, and a row that
    // whoever judges a phone's batch locks.
    private const string Servers = """
        CREATE TABLE photo (
            sha256 text PRIMARY KEY CHECK (sha256 ~ '^[0-9a-f]{64}$'),
            bytes  bytea NOT NULL
        );
        ALTER TABLE photo ALTER COLUMN bytes SET STORAGE EXTERNAL;
        CREATE TABLE server_key (name text PRIMARY KEY, element text NOT NULL);
        CREATE TABLE gate_turn (one integer PRIMARY KEY CHECK (one = 1));
        INSERT INTO gate_turn (one) VALUES (1);
        """;

    /// <summary>
    /// The steps by which each part's tables came to be; one that was ever given to people is never changed, a new shape
    /// is a new step.
    /// </summary>
    private static IReadOnlyList<(string Part, IReadOnlyList<string> Steps)> Parts { get; } =
    [
        ("journal", [Journal, Servers]),
        ("house", [.. HouseSchema.Steps.Select(PostgresHouse.Schema)]),
        ("readings", [.. ReadingsSchema.Steps.Select(PostgresMonths.Schema)]),
    ];

    /// <summary>Makes the tables where there are none, takes the steps that are missing; otherwise sees that they are ours.</summary>
    /// <exception cref="StoreUnusableException">The schema is foreign or newer, or may not be made by this connection.</exception>
    public static void Prepare(NpgsqlConnection connection, string schema, string name)
    {
        for (var tries = 0; !IsPrepared(connection, schema, name); tries++)
        {
            try
            {
                connection.Within(() => Make(connection, schema, name));
            }
            catch (PostgresException denied)
                when (denied.SqlState == PostgresErrorCodes.InsufficientPrivilege)
            {
                throw new StoreUnusableException(
                    new Remark("store-not-prepared", new("file", name), new("schema", schema)),
                    denied
                );
            }
            catch (PostgresException twice) when (tries < 5 && IsMadeByAnother(twice))
            {
                // Another program makes them at this moment: look again.
            }
        }
    }

    private static bool IsPrepared(NpgsqlConnection connection, string schema, string name)
    {
        if (!IsThere(connection, schema))
        {
            return false;
        }

        var taken = Taken(connection);
        foreach (var (part, steps) in Parts)
        {
            if (taken.GetValueOrDefault(part) is var done && done > steps.Count)
            {
                throw new StoreUnusableException(
                    new Remark(
                        "store-newer",
                        new("file", name),
                        new("version", done),
                        new("allowed", steps.Count)
                    )
                );
            }
        }

        return Parts.All(part => taken.GetValueOrDefault(part.Part) == part.Steps.Count);
    }

    private static bool IsMadeByAnother(PostgresException failure) =>
        failure.SqlState
            is PostgresErrorCodes.DuplicateSchema
                or PostgresErrorCodes.DuplicateTable
                or PostgresErrorCodes.DuplicateObject
                or PostgresErrorCodes.UniqueViolation
                or PostgresErrorCodes.SerializationFailure;

    private static bool IsThere(NpgsqlConnection connection, string schema) =>
        connection.Ask<string>("SELECT to_regclass(@table)::text", ("table", schema + ".about")) is not null;

    private static Dictionary<string, int> Taken(NpgsqlConnection connection) =>
        connection
            .List(row => (Part: row.GetString(0), Steps: row.GetInt32(1)), "SELECT part, steps FROM about")
            .ToDictionary(row => row.Part, row => row.Steps, StringComparer.Ordinal);

    private static bool Make(NpgsqlConnection connection, string schema, string name)
    {
        // The schema's name was seen to be plain letters, figures and lines.
        if (
            connection.Ask<long>(
                "SELECT count(*) FROM pg_catalog.pg_namespace WHERE nspname = @schema",
                ("schema", schema)
            ) == 0
        )
        {
            connection.Run($"CREATE SCHEMA {schema}");
        }

        if (!IsThere(connection, schema))
        {
            if (
                connection.Ask<long>(
                    "SELECT count(*) FROM pg_catalog.pg_tables WHERE schemaname = @schema",
                    ("schema", schema)
                ) > 0
            )
            {
                throw new StoreUnusableException(
                    new Remark("store-foreign", new("file", name), new("allowed", "a Broodtide store"))
                );
            }

            connection.Run("CREATE TABLE about (part text PRIMARY KEY, steps integer NOT NULL)");
        }

        // Whoever comes at the same time waits here and finds the work done.
        connection.Run("LOCK TABLE about IN EXCLUSIVE MODE");
        var taken = Taken(connection);
        foreach (var (part, steps) in Parts)
        {
            foreach (var step in steps.Skip(taken.GetValueOrDefault(part)))
            {
                connection.Run(step);
            }

            connection.Run(
                "INSERT INTO about (part, steps) VALUES (@part, @steps) "
                    + "ON CONFLICT (part) DO UPDATE SET steps = greatest(about.steps, excluded.steps)",
                ("part", part),
                ("steps", steps.Count)
            );
        }

        return true;
    }
}
