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
    private readonly SqliteCommand _door = connection.Make(
        "SELECT replica FROM door WHERE name = $name",
        ("$name", null)
    );
    private readonly SqliteCommand _life = connection.Make("SELECT id FROM life");
    private readonly SqliteCommand _last = connection.Make("SELECT coalesce(max(number), 0) FROM entry");
    private readonly SqliteCommand _end = connection.Make(
        "SELECT seq, digest FROM entry WHERE replica = $replica ORDER BY seq DESC, digest LIMIT 1",
        ("$replica", null)
    );

    /// <summary>Changes in one transaction that holds the write lock from its start.</summary>
    public T Within<T>(Func<T> change) => connection.Within(change, _begin, _commit);

    /// <summary>The replica a door writes as; made if the door is new.</summary>
    public ReplicaId Replica(string door)
    {
        _door.Parameters[0].Value = door;
        return _door.ExecuteScalar() is byte[] found
            ? new(RowShape.IdOf(found))
            : Doors.Replica(connection, door);
    }

    /// <summary>Which life of the store this is.</summary>
    public Guid? Life => _life.ExecuteScalar() is byte[] found ? RowShape.IdOf(found) : null;

    /// <summary>Number of the last row; never falls while the file lives on.</summary>
    public long Last => (long)_last.ExecuteScalar()!;

    /// <summary>Where a replica's chain ends here: its highest running number and that entry's digest.</summary>
    public (long Sequence, Digest? Digest) End(ReplicaId replica)
    {
        _end.Parameters[0].Value = EntryTable.Bytes(replica.Value);
        using var row = _end.ExecuteReader();
        return row.Read() ? (row.GetInt64(0), row.DigestAt(1)) : (0, null);
    }

    public void Dispose()
    {
        foreach (var call in (ReadOnlySpan<SqliteCommand>)[_begin, _commit, _door, _life, _last, _end])
        {
            call.Dispose();
        }
    }
}
