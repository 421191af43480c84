using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>
/// The journal in a PostgreSQL database. Several programs may have it open; those of one door (two servers) write as
/// one replica and take turns, the command line writes as another. A database that was brought elsewhere or put back
/// writes as new replicas.
/// </summary>
public sealed class PostgresJournal : ISharedJournal
{
    private readonly PostgresStore _store;
    private readonly string _door;
    private readonly HeldMark? _mark;
    private readonly Lock _gate = new();
    private PostgresLife? _seen;

    private PostgresJournal(PostgresStore store, string door, string? mark)
    {
        _store = store;
        _door = door;
        _mark = mark is null ? null : PostgresMark.Held(mark);
    }

    /// <inheritdoc/>
    public ReplicaId Replica { get; private set; }

    /// <summary>Opens the journal of a database. The database stays open when the journal is disposed of.</summary>
    /// <param name="store">The database.</param>
    /// <param name="door">What writes: "cli", "server". One replica each.</param>
    /// <param name="mark">
    /// Place of a small file of this program's own that says how far the database had come: by it a database that was
    /// put back to an earlier state is found out. None for a program that keeps nothing.
    /// </param>
    /// <param name="cancellation">Gives up before anything is changed.</param>
    /// <exception cref="StoreUnusableException">The database cannot be reached, or failed.</exception>
    public static Task<PostgresJournal> OpenAsync(
        PostgresStore store,
        string door,
        string? mark = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentException.ThrowIfNullOrWhiteSpace(door);
        cancellation.ThrowIfCancellationRequested();
        var journal = new PostgresJournal(store, door, mark);
        journal._seen = mark is null ? null : PostgresMark.Read(mark);
        journal.Change(_ => true);
        return Task.FromResult(journal);
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
        Asked<IReadOnlyList<Entry>>(
            connection => PostgresScan.All(connection, _store.Name, cancellation),
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    ) =>
        Changed<IReadOnlyList<Entry>>(
            connection =>
            {
                var (sequence, previous) = PostgresEntries.End(connection, Replica);
                var written = new List<Entry>(drafts.Count);
                Span<byte> salt = stackalloc byte[EntryBytes.SaltLength];
                foreach (var draft in drafts)
                {
                    RandomNumberGenerator.Fill(salt);
                    var entry = draft.Seal(Replica, ++sequence, previous, salt);
                    previous = entry.Digest;
                    written.Add(entry);
                }

                Erase(connection, written);
                PostgresEntries.Put(connection, written);
                return written;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<Intake> TakeAsync(
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    ) => Changed(connection => Take(connection, entries), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Arrival>> ArrivedSinceAsync(
        long place,
        CancellationToken cancellation = default
    ) =>
        Asked<IReadOnlyList<Arrival>>(
            connection => PostgresEntries.ArrivedSince(connection, place),
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> ReadAfterAsync(
        ReplicaId replica,
        long after,
        int most,
        CancellationToken cancellation = default
    ) =>
        Asked(
            connection =>
            {
                var read = PostgresEntries.After(connection, replica, after, most);
                return read.Succeeded
                    ? read.Value
                    : throw new StoreUnusableException(
                        new Remark(
                            "store-damaged",
                            new("file", _store.Name),
                            new("reason", read.Reason.ToString())
                        )
                    );
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlySet<ReplicaId>> OwnReplicasAsync(CancellationToken cancellation = default) =>
        Asked<IReadOnlySet<ReplicaId>>(PostgresDoors.Own, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(CancellationToken cancellation = default) =>
        Asked<IReadOnlyList<Checkpoint>>(PostgresCheckpoints.All, cancellation);

    /// <inheritdoc/>
    public async ValueTask KeepAsync(
        IReadOnlyList<Checkpoint> checkpoints,
        CancellationToken cancellation = default
    ) => await Changed(connection => PostgresCheckpoints.Keep(connection, checkpoints), cancellation);

    /// <inheritdoc/>
    public async ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
        await Changed(PostgresCheckpoints.Forget, cancellation);

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        lock (_gate)
        {
            _mark?.Dispose();
        }

        return ValueTask.CompletedTask;
    }

    private static Intake Take(NpgsqlConnection connection, IReadOnlyList<Entry> entries)
    {
        Erase(connection, entries);
        var fresh = PostgresEntries.Put(connection, entries);
        var conflicts = PostgresConflicts.Of(connection, fresh).ToList();
        var own = PostgresDoors.Own(connection);
        // Somebody holds what a door of this store wrote and this store does not: it was put back.
        foreach (var replica in fresh.Select(entry => entry.Envelope.Replica).Distinct().Where(own.Contains))
        {
            conflicts.Add(new Remark("store-was-put-back", new Argument("replica", replica)));
            PostgresDoors.Begin(connection);
            own = [];
        }

        return new Intake(fresh.Count, entries.Count - fresh.Count, conflicts);
    }

    // Erasures go first, so that facts erased in the same batch never reach the disk.
    private static void Erase(NpgsqlConnection connection, IReadOnlyList<Entry> entries) =>
        PostgresEntries.Erase(
            connection,
            [
                .. entries
                    .Select(entry => entry.Envelope.Correction)
                    .OfType<Correction>()
                    .Where(correction => correction.Kind is CorrectionKind.Erases)
                    .Select(correction => correction.Target),
            ]
        );

    // One change of this program at a time: others of the house take their turn at the database.
    private T Change<T>(Func<NpgsqlConnection, T> change)
    {
        lock (_gate)
        {
            var (result, life, replica) = _store.Write(connection =>
            {
                PostgresDoors.Settle(connection, _seen);
                Replica = PostgresDoors.Replica(connection, _door);
                var done = change(connection);
                return (done, PostgresDoors.Life(connection), PostgresDoors.Replica(connection, _door));
            });
            (Replica, _seen) = (replica, life);
            _mark?.MoveOn(life.Id, life.Last);
            return result;
        }
    }

    private ValueTask<T> Changed<T>(Func<NpgsqlConnection, T> change, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        return ValueTask.FromResult(Change(change));
    }

    private ValueTask<T> Asked<T>(Func<NpgsqlConnection, T> question, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        return ValueTask.FromResult(_store.Ask(question));
    }
}
