using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// What every change of the journal asks, prepared once: to prepare a statement takes longer than to run it, and beside
/// the wait for the disk that is most of what one entry costs.
/// </summary>
internal sealed class AppendCalls(SqliteConnection connection) : IDisposable
{
    private readonly SqliteCommand _begin = connection.Make("BEGIN IMMEDIATE");
    private readonly SqliteCommand _commit = connection.Make("COMMIT");

    // One question instead of four: each call of a statement costs more than what it looks up.
    private readonly SqliteCommand _stands = connection.Make(
        """
        SELECT door.replica, (SELECT id FROM life), (SELECT coalesce(max(number), 0) FROM entry), entry.seq, entry.digest
        FROM door LEFT JOIN entry ON entry.replica = door.replica
        WHERE door.name = $name ORDER BY entry.seq DESC, entry.digest LIMIT 1
        """,
        ("$name", null)
    );
    private readonly SqliteCommand _life = connection.Make("SELECT id FROM life");
    private readonly SqliteCommand _last = connection.Make("SELECT coalesce(max(number), 0) FROM entry");

    /// <summary>Changes in one transaction that holds the write lock from its start.</summary>
    public T Within<T>(Func<T> change) => connection.Within(change, _begin, _commit);

    /// <summary>Where what a door writes goes on; the door is made if it is new.</summary>
    public Standing Stands(string door)
    {
        _stands.Parameters[0].Value = door;
        using (var row = _stands.ExecuteReader())
        {
            if (row.Read())
            {
                return new(
                    new(row.IdAt(0)),
                    row.IsDBNull(1) ? null : row.IdAt(1),
                    row.GetInt64(2),
                    row.IsDBNull(3) ? 0 : row.GetInt64(3),
                    row.IsDBNull(4) ? null : row.DigestAt(4)
                );
            }
        }

        return new(Doors.Replica(connection, door), Life, Last, 0, null);
    }

    /// <summary>Which life of the store this is.</summary>
    public Guid? Life => _life.ExecuteScalar() is byte[] found ? RowShape.IdOf(found) : null;

    /// <summary>Number of the last row; never falls while the file lives on.</summary>
    public long Last => (long)_last.ExecuteScalar()!;

    public void Dispose()
    {
        foreach (var call in (ReadOnlySpan<SqliteCommand>)[_begin, _commit, _stands, _life, _last])
        {
            call.Dispose();
        }
    }
}

/// <summary>How a store stands before a door writes into it.</summary>
/// <param name="Replica">The replica the door writes as.</param>
/// <param name="Life">Which life of the store this is.</param>
/// <param name="Last">Number of the last row; 0 in an empty store.</param>
/// <param name="Sequence">The highest running number of the replica; 0 before its first entry.</param>
/// <param name="Digest">The digest of that entry.</param>
internal readonly record struct Standing(
    ReplicaId Replica,
    Guid? Life,
    long Last,
    long Sequence,
    Digest? Digest
);
