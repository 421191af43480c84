using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// The journal in one SQLite file: write-ahead log, every confirmed entry on the disk, both asserted on each
/// opening. Several processes may have the file open; each door (command line, server) writes as a replica of its
/// own. A copied or restored file writes as new replicas.
/// </summary>
public sealed class SqliteJournal : ISharedJournal
{
    private readonly Lock _gate = new();
    private readonly SqliteConnection _connection;
    private readonly EntryTable _entries;
    private readonly AppendCalls _calls;
    private readonly HeldMark _mark;
    private readonly string _path;
    private readonly string _door;

    private SqliteJournal(SqliteConnection connection, string path, string door)
    {
        _connection = connection;
        _path = path;
        _door = door;
        _entries = new EntryTable(connection);
        _calls = new AppendCalls(connection);
        _mark = new HeldMark(path, () => Disk.IdentityOf(path));
    }

    /// <inheritdoc/>
    public ReplicaId Replica { get; private set; }

    /// <summary>Opens a store, or makes one where there is no file.</summary>
    /// <param name="path">Place of the file; its folder must exist.</param>
    /// <param name="door">What writes: "cli", "server". One replica each.</param>
    /// <param name="cancellation">Gives up before the file is touched.</param>
    /// <exception cref="StoreUnusableException">
    /// The file is foreign, newer, cut short or damaged, or the disk does not keep what a journal needs. It was not
    /// changed.
    /// </exception>
    public static Task<SqliteJournal> OpenAsync(
        string path,
        string door,
        CancellationToken cancellation = default
    ) => OpenAsync(path, door, _ => { }, cancellation);

    /// <summary>For tests that plant a fault: <paramref name="planted"/> runs once the settings are asserted.</summary>
    internal static Task<SqliteJournal> OpenAsync(
        string path,
        string door,
        Action<SqliteConnection> planted,
        CancellationToken cancellation = default
    )
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        ArgumentException.ThrowIfNullOrWhiteSpace(door);
        cancellation.ThrowIfCancellationRequested();
        StoreHeader.Inspect(path);
        var connection = StoreSettings.ConnectionTo(path);
        try
        {
            connection.Open();
            StoreSettings.Apply(connection, path);
            planted(connection);
            StoreSchema.Prepare(connection, path);
            var journal = new SqliteJournal(connection, path, door);
            journal.Replica = connection.Within(() =>
            {
                Doors.Settle(connection, path, journal._entries.Last);
                return Doors.Replica(connection, door);
            });
            return Task.FromResult(journal);
        }
        catch (SqliteException failure)
        {
            connection.Dispose();
            throw StoreFailure.Of(path, failure);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlyList<Entry>>(() => EntryScan.All(_connection, _path, cancellation), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    ) =>
        Locked<IReadOnlyList<Entry>>(
            () =>
            {
                var written = Change(() =>
                {
                    var stands = _calls.Stands(_door);
                    Replica = stands.Replica;
                    var (sequence, previous) = (stands.Sequence, stands.Digest);
                    var sealedEntries = new List<Entry>(drafts.Count);
                    Span<byte> salt = stackalloc byte[EntryBytes.SaltLength];
                    foreach (var draft in drafts)
                    {
                        RandomNumberGenerator.Fill(salt);
                        var entry = draft.Seal(Replica, ++sequence, previous, salt);
                        previous = entry.Digest;
                        sealedEntries.Add(entry);
                    }

                    Erase(sealedEntries);
                    // Rows are numbered one after the other, and none is ever taken away.
                    var last = stands.Last;
                    foreach (var entry in sealedEntries)
                    {
                        last += _entries.Insert(entry) ? 1 : 0;
                    }

                    return (sealedEntries, stands.Life, last);
                });
                Overwrite(written);
                return written;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<Intake> TakeAsync(
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    ) =>
        Locked(
            () =>
            {
                var intake = Change(() => (Take(entries), _calls.Life, _calls.Last));
                Overwrite(entries);
                return intake;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Arrival>> ArrivedSinceAsync(
        long place,
        CancellationToken cancellation = default
    ) => Locked<IReadOnlyList<Arrival>>(() => _entries.ArrivedSince(place), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> ReadAfterAsync(
        ReplicaId replica,
        long after,
        int most,
        CancellationToken cancellation = default
    ) =>
        Locked<IReadOnlyList<Entry>>(
            () =>
            {
                var read = _entries.After(replica, after, most);
                return read.Succeeded
                    ? read.Value
                    : throw new StoreUnusableException(
                        new Remark("store-damaged", new("file", _path), new("reason", read.Reason.ToString()))
                    );
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlySet<ReplicaId>> OwnReplicasAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlySet<ReplicaId>>(() => Doors.Own(_connection), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlyList<Checkpoint>>(() => CheckpointTable.All(_connection), cancellation);

    /// <inheritdoc/>
    public async ValueTask KeepAsync(
        IReadOnlyList<Checkpoint> checkpoints,
        CancellationToken cancellation = default
    ) =>
        await Locked(
            () =>
                _connection.Within(() =>
                {
                    CheckpointTable.Keep(_connection, checkpoints);
                    return true;
                }),
            cancellation
        );

    /// <inheritdoc/>
    public async ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
        await Locked(() => CheckpointTable.Forget(_connection), cancellation);

    /// <summary>
    /// Reads the whole store and verifies every byte of it: pages, hashes, bodies and the chain of each replica.
    /// </summary>
    /// <returns>What is wrong; nothing for a whole store.</returns>
    public ValueTask<IReadOnlyList<Remark>> VerifyAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlyList<Remark>>(() => StoreCheck.Run(_connection, cancellation), cancellation);

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        lock (_gate)
        {
            _entries.Dispose();
            _calls.Dispose();
            _mark.Dispose();
            _connection.Dispose();
        }

        return ValueTask.CompletedTask;
    }

    private Intake Take(IReadOnlyList<Entry> entries)
    {
        Erase(entries);
        var fresh = new List<Entry>();
        foreach (var entry in entries)
        {
            if (_entries.Insert(entry))
            {
                fresh.Add(entry);
            }
            else
            {
                _entries.Complete(entry);
            }
        }

        var conflicts = new List<Remark>();
        foreach (var entry in fresh)
        {
            conflicts.AddRange(_entries.Conflicts(entry));
        }

        foreach (var replica in fresh.Select(entry => entry.Envelope.Replica).Distinct())
        {
            // Somebody holds what a door of this store wrote and this store does not: it was put back.
            if (Doors.IsOwn(_connection, replica))
            {
                conflicts.Add(new Remark("store-was-put-back", new Argument("replica", replica)));
                Doors.Begin(_connection, _path, _entries.Last);
                Replica = Doors.Replica(_connection, _door);
            }
        }

        return new Intake(fresh.Count, entries.Count - fresh.Count, conflicts);
    }

    // Erasures go first, so that facts erased in the same batch never reach the disk.
    private void Erase(IReadOnlyList<Entry> entries)
    {
        foreach (var entry in entries)
        {
            if (entry.Envelope.Correction is { Kind: CorrectionKind.Erases } erasure)
            {
                _entries.Erase(erasure.Target);
                // Numbers that came of what is erased are among what was kept.
                CheckpointTable.Forget(_connection);
            }
        }
    }

    // What was erased may still stand in the log: it is written back and emptied.
    private void Overwrite(IReadOnlyList<Entry> entries)
    {
        if (entries.Any(entry => entry.Envelope.Correction is { Kind: CorrectionKind.Erases }))
        {
            _connection.Run("PRAGMA wal_checkpoint(TRUNCATE)");
        }
    }

    // What is changed tells which life holds after it and how far the store has come.
    private T Change<T>(Func<(T Result, Guid? Life, long Last)> change)
    {
        var (result, life, last) = _calls.Within(change);
        if (life is { } held)
        {
            _mark.MoveOn(held, last);
        }

        return result;
    }

    private ValueTask<T> Locked<T>(Func<T> work, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        try
        {
            lock (_gate)
            {
                return ValueTask.FromResult(work());
            }
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(_path, failure);
        }
    }
}
