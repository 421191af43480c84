using Broodtide.Domain;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// Which replica each door of this life of the store writes as. Two servers on one database are one door and so one
/// replica; they take turns by the lock that every change holds, so the running numbers have no gap. The caller holds
/// that lock.
/// </summary>
internal static class PostgresDoors
{
    /// <summary>
    /// Begins a new life if this database is not the one that was written last: brought elsewhere by a dump, gone back
    /// in time, taken over by a standby, or behind what this program has seen. Harmless when mistaken, since what the
    /// older replicas wrote stays.
    /// </summary>
    /// <param name="connection">In a change.</param>
    /// <param name="seen">What this program saw last; none if it never saw the store.</param>
    /// <returns>The life that holds now.</returns>
    public static PostgresLife Settle(NpgsqlConnection connection, PostgresLife? seen)
    {
        var held = Life(connection);
        // Where it runs changes with a start of the database alone.
        var isSame =
            seen is { } before && before.Id == held.Id && before.Started == held.Started
            || held.Place == Place(connection);
        var isPutBack = seen is { } known && known.Id == held.Id && known.Last > held.Last;
        return held.Id != Guid.Empty && isSame && !isPutBack ? held : Begin(connection);
    }

    /// <summary>Begins a new life: every door writes as a new replica from now on.</summary>
    public static PostgresLife Begin(NpgsqlConnection connection)
    {
        connection.Run("DELETE FROM door");
        connection.Run(
            "UPDATE life SET id = @id, place = @place WHERE one = 1",
            ("id", Guid.CreateVersion7().Bytes()),
            ("place", Place(connection))
        );
        return Life(connection);
    }

    /// <summary>The replica a door writes as; made if the door is new.</summary>
    public static ReplicaId Replica(NpgsqlConnection connection, string door)
    {
        if (
            connection.Ask<byte[]>("SELECT replica FROM door WHERE name = @name", ("name", door)) is { } found
        )
        {
            return new(new Guid(found, bigEndian: true));
        }

        var replica = new ReplicaId(Guid.CreateVersion7());
        connection.Run(
            "INSERT INTO door (name, replica) VALUES (@name, @replica)",
            ("name", door),
            ("replica", replica.Value.Bytes())
        );
        return replica;
    }

    /// <summary>Every replica that a door of this life writes as.</summary>
    public static HashSet<ReplicaId> Own(NpgsqlConnection connection) =>
        [.. connection.List(row => new ReplicaId(row.Id(0)), "SELECT replica FROM door")];

    public static PostgresLife Life(NpgsqlConnection connection) =>
        connection.List(
            row => new PostgresLife(row.Id(0), row.GetString(1), row.GetInt64(2), row.GetInt64(3)),
            """
            SELECT id, place, last, (extract(epoch FROM pg_postmaster_start_time()) * 1000000)::bigint
            FROM life WHERE one = 1
            """
        )[0];

    // A dump that is read in elsewhere is another database; one that was put back to an earlier moment, or whose
    // standby took over, goes on on another timeline.
    private static string Place(NpgsqlConnection connection)
    {
        var database = connection.Ask<string>(
            "SELECT oid::text FROM pg_catalog.pg_database WHERE datname = current_database()"
        );
        // Not every engine that speaks the language has them, and a keeper of a database may have closed them.
        var mayAsk = connection.Ask<bool>(
            """
            SELECT count(*) = 2 AND bool_and(has_function_privilege(oid, 'EXECUTE')) FROM pg_catalog.pg_proc
            WHERE proname IN ('pg_control_system', 'pg_control_checkpoint')
            """
        );
        return mayAsk
            ? connection.Ask<string>(
                """
                SELECT system_identifier::text || '-' || timeline_id::text
                FROM pg_catalog.pg_control_system(), pg_catalog.pg_control_checkpoint()
                """
            )
                + "-"
                + database
            : $"{connection.Host}-{connection.Port}-{database}";
    }
}

/// <summary>One life of a store.</summary>
/// <param name="Id">Which.</param>
/// <param name="Place">In which database it began.</param>
/// <param name="Last">How many entries have arrived.</param>
/// <param name="Started">When the database was started, in microseconds since 1970; 0 where that is not known.</param>
internal readonly record struct PostgresLife(Guid Id, string Place, long Last, long Started);
