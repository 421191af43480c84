using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>A journal that lives as long as the program: for a demo, and for trying things out.</summary>
/// <param name="replica">The first name it writes as.</param>
public sealed class MemoryJournal(ReplicaId replica) : ISharedJournal
{
    private readonly Lock _gate = new();
    private readonly Dictionary<Digest, Entry> _entries = [];
    private readonly Dictionary<(ReplicaId, long), List<Digest>> _numbers = [];
    private readonly Dictionary<EntryId, List<Digest>> _identities = [];
    private readonly HashSet<EntryId> _erased = [];
    private readonly List<Arrival> _arrivals = [];
    private readonly RunningHoldings _holdings = new();
    private List<Checkpoint> _checkpoints = [];
    private (long Sequence, Digest? Digest) _end;

    /// <inheritdoc/>
    public ReplicaId Replica { get; private set; } = replica;

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlyList<Entry>>(() => [.. _entries.Values], cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    ) =>
        Locked<IReadOnlyList<Entry>>(
            () =>
            {
                var (sequence, previous) = _end;
                var written = new List<Entry>(drafts.Count);
                Span<byte> salt = stackalloc byte[EntryBytes.SaltLength];
                foreach (var draft in drafts)
                {
                    RandomNumberGenerator.Fill(salt);
                    var entry = draft.Seal(Replica, ++sequence, previous, salt);
                    previous = entry.Digest;
                    written.Add(entry);
                }

                Erase(written);
                foreach (var entry in written)
                {
                    Insert(entry);
                }

                _end = (sequence, previous);
                return written;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<Intake> TakeAsync(
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    ) => Locked(() => Take(entries), cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Arrival>> ArrivedSinceAsync(
        long place,
        CancellationToken cancellation = default
    ) =>
        Locked<IReadOnlyList<Arrival>>(
            () => _arrivals.GetRange((int)place, _arrivals.Count - (int)place),
            cancellation
        );

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
                var found = new List<Entry>();
                foreach (var sequence in _holdings.NumbersAfter(replica, after))
                {
                    if (found.Count >= most)
                    {
                        break;
                    }

                    found.AddRange(
                        _holdings.At(replica, sequence).Order().Select(digest => _entries[digest])
                    );
                }

                return found;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask<IReadOnlySet<ReplicaId>> OwnReplicasAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlySet<ReplicaId>>(() => new HashSet<ReplicaId> { Replica }, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(CancellationToken cancellation = default) =>
        Locked<IReadOnlyList<Checkpoint>>(() => [.. _checkpoints], cancellation);

    /// <inheritdoc/>
    public async ValueTask KeepAsync(
        IReadOnlyList<Checkpoint> checkpoints,
        CancellationToken cancellation = default
    ) =>
        await Locked(
            () =>
            {
                var folds = checkpoints
                    .Select(checkpoint => checkpoint.Fold)
                    .ToHashSet(StringComparer.Ordinal);
                _checkpoints =
                [
                    .. _checkpoints
                        .Where(kept => !folds.Contains(kept.Fold))
                        .Concat(checkpoints)
                        .OrderBy(checkpoint => checkpoint.Position)
                        .ThenBy(checkpoint => checkpoint.Fold, StringComparer.Ordinal)
                        .ThenBy(checkpoint => checkpoint.Version),
                ];
                return true;
            },
            cancellation
        );

    /// <inheritdoc/>
    public async ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
        await Locked(
            () =>
            {
                _checkpoints.Clear();
                return true;
            },
            cancellation
        );

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private Intake Take(IReadOnlyList<Entry> entries)
    {
        Erase(entries);
        var fresh = new List<Entry>();
        foreach (var entry in entries)
        {
            if (Insert(entry))
            {
                fresh.Add(entry);
            }
            else if (entry.HasBody && !_entries[entry.Digest].HasBody && !_erased.Contains(entry.Id))
            {
                _entries[entry.Digest] = entry;
            }
        }

        var conflicts = fresh.SelectMany(Conflicts).ToList();
        if (fresh.Any(entry => entry.Envelope.Replica == Replica))
        {
            conflicts.Add(new Remark("store-was-put-back", new Argument("replica", Replica)));
            Replica = new ReplicaId(Guid.CreateVersion7());
            _end = default;
        }

        return new Intake(fresh.Count, entries.Count - fresh.Count, conflicts);
    }

    private bool Insert(Entry entry)
    {
        if (!_entries.TryAdd(entry.Digest, _erased.Contains(entry.Id) ? entry.Erased() : entry))
        {
            return false;
        }

        _holdings.Add(entry);
        _arrivals.Add(
            new Arrival(
                _arrivals.Count + 1,
                entry.Digest,
                entry.Id,
                entry.Envelope.Replica,
                entry.Envelope.Sequence
            )
        );
        ListAt(_numbers, (entry.Envelope.Replica, entry.Envelope.Sequence)).Add(entry.Digest);
        ListAt(_identities, entry.Id).Add(entry.Digest);
        return true;
    }

    private void Erase(IReadOnlyList<Entry> entries)
    {
        foreach (var entry in entries)
        {
            if (
                entry.Envelope.Correction is { Kind: CorrectionKind.Erases } erasure
                && _erased.Add(erasure.Target)
            )
            {
                foreach (var digest in ListAt(_identities, erasure.Target))
                {
                    _entries[digest] = _entries[digest].Erased();
                }
            }
        }
    }

    private IEnumerable<Remark> Conflicts(Entry entry)
    {
        var envelope = entry.Envelope;
        if (ListAt(_numbers, (envelope.Replica, envelope.Sequence)).Count > 1)
        {
            yield return new Remark(
                "number-twice",
                new("replica", envelope.Replica),
                new("sequence", envelope.Sequence),
                new("entry", entry.Id)
            );
        }

        var before = envelope.Previous is null
            ? []
            : ListAt(_numbers, (envelope.Replica, envelope.Sequence - 1));
        if (before.Count > 0 && !before.Contains(envelope.Previous!.Value))
        {
            yield return new Remark(
                "chain-broken",
                new("replica", envelope.Replica),
                new("sequence", envelope.Sequence),
                new("entry", entry.Id)
            );
        }

        if (ListAt(_identities, entry.Id).Count > 1)
        {
            yield return new Remark("identity-twice", new Argument("entry", entry.Id));
        }
    }

    private static List<Digest> ListAt<TKey>(Dictionary<TKey, List<Digest>> lists, TKey key)
        where TKey : notnull
    {
        if (!lists.TryGetValue(key, out var list))
        {
            lists[key] = list = [];
        }

        return list;
    }

    private ValueTask<T> Locked<T>(Func<T> work, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        lock (_gate)
        {
            return ValueTask.FromResult(work());
        }
    }
}
