using Broodtide.Domain;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Which replica each door of this life of the store writes as. A server and a command line on one file are two
/// replicas; two command lines at once are one, and take turns.
/// </summary>
internal static class Doors
{
    /// <summary>
    /// Begins a new life if this file is not the one that was written last: copied, restored, put back or its mark
    /// lost. Harmless when mistaken, since what the older replicas wrote stays.
    /// </summary>
    /// <returns>The life that holds now.</returns>
    public static Guid Settle(SqliteConnection connection, string path, long last)
    {
        var life = Life(connection);
        var file = Disk.IdentityOf(path);
        if (
            life is { } held
            && LifeMark.Read(path) is { } mark
            && mark.Life == held
            && mark.Last <= last
            && string.Equals(mark.File, file, StringComparison.Ordinal)
        )
        {
            return held;
        }

        return Begin(connection, path, last);
    }

    /// <summary>Begins a new life: every door writes as a new replica from now on.</summary>
    public static Guid Begin(SqliteConnection connection, string path, long last)
    {
        var life = Guid.CreateVersion7();
        connection.Run("DELETE FROM door");
        connection.Run(
            "INSERT INTO life (one, id) VALUES (1, $id) ON CONFLICT (one) DO UPDATE SET id = $id",
            ("$id", EntryTable.Bytes(life))
        );
        // Before the commit: if the commit fails, the two differ and the next opening begins another life.
        new LifeMark(life, Disk.IdentityOf(path), last).Begin(path);
        return life;
    }

    /// <summary>The replica a door writes as; made if the door is new.</summary>
    public static ReplicaId Replica(SqliteConnection connection, string door)
    {
        if (
            connection.Ask<byte[]>("SELECT replica FROM door WHERE name = $name", ("$name", door)) is
            { } found
        )
        {
            return new(RowShape.IdOf(found));
        }

        var replica = new ReplicaId(Guid.CreateVersion7());
        connection.Run(
            "INSERT INTO door (name, replica) VALUES ($name, $replica)",
            ("$name", door),
            ("$replica", EntryTable.Bytes(replica.Value))
        );
        return replica;
    }

    /// <summary>Whether a replica is one that a door of this life writes as.</summary>
    public static bool IsOwn(SqliteConnection connection, ReplicaId replica) =>
        connection.Ask<long>(
            "SELECT count(*) FROM door WHERE replica = $replica",
            ("$replica", EntryTable.Bytes(replica.Value))
        ) > 0;

    /// <summary>Every replica that a door of this life writes as.</summary>
    public static HashSet<ReplicaId> Own(SqliteConnection connection)
    {
        using var command = connection.Make("SELECT replica FROM door");
        using var rows = command.ExecuteReader();
        var found = new HashSet<ReplicaId>();
        while (rows.Read())
        {
            found.Add(new(rows.IdAt(0)));
        }

        return found;
    }

    public static Guid? Life(SqliteConnection connection) =>
        connection.Ask<byte[]>("SELECT id FROM life") is { } found ? RowShape.IdOf(found) : null;
}
