using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// The journal on a phone: one replica for each person who uses it, in one store of rows shared by all its pages.
/// An entry is shown as written only when it is on the disk.
/// </summary>
/// <param name="rows">Where the rows are.</param>
/// <param name="pen">Who holds it may number the next entry.</param>
public sealed class PhoneJournal(IRowStore rows, IPen pen) : IJournal
{
    private const string ReplicaFact = "replica";
    private const string StoresFact = "stores";
    private const string CheckpointName = "checkpoints";
    private const int KnowAtOnce = 2000;

    private readonly HashSet<EntryId> _erased = [];
    private List<PhoneStore> _stores = [];
    private Entry? _last;
    private bool _isKnown;

    /// <inheritdoc/>
    public ReplicaId Replica { get; private set; }

    /// <summary>Whose the present replica is; none before anybody has signed in here.</summary>
    public PersonId? Person => _stores.Find(store => store.Replica == Replica)?.Person;

    /// <summary>All replicas of this phone, ended ones and those of others who use it included.</summary>
    public IReadOnlyList<PhoneStore> Stores => _stores;

    /// <summary>What is held here, as far as it was made known.</summary>
    public RunningHoldings Holdings { get; } = new();

    /// <summary>Opens the store; the first time it gets a name.</summary>
    public async Task OpenAsync()
    {
        await rows.Open();
        using var _ = await pen.Take();
        await LookAsync();
    }

    /// <summary>
    /// The phone is in the hands of a person from now on: what is written next goes into that person's own replica.
    /// What the former left waiting stays, and waits for the former.
    /// </summary>
    public async Task BelongsTo(PersonId person)
    {
        if (_stores.Count > 0 && Person == person)
        {
            return;
        }

        using var _ = await pen.Take();
        await LookAsync();
        if (Person == person)
        {
            return;
        }

        if (Person is null)
        {
            await KeepAsync(
                [.. _stores.Select(store => store.Person is null ? store with { Person = person } : store)],
                Replica
            );
        }
        else if (_stores.Find(store => store.Person == person && !store.IsEnded) is { } earlier)
        {
            await KeepAsync(_stores, earlier.Replica);
        }
        else
        {
            await BeginAsync(person);
        }
    }

    /// <summary>Notes entries that are held here, as after reading; those known already cost next to nothing.</summary>
    public async ValueTask KnowAsync(IReadOnlyCollection<Entry> held)
    {
        if (held.Count <= Holdings.Count)
        {
            _isKnown = true;
            return;
        }

        var count = 0;
        foreach (var entry in held.ToArray())
        {
            Know(entry);
            if (++count % KnowAtOnce == 0)
            {
                // A page must stay able to answer.
                await Task.Yield();
            }
        }

        _isKnown = true;
    }

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
        EntriesOf(await rows.ReadAll());

    /// <summary>How many entries wait to be sent, of all who use this phone.</summary>
    public Task<int> CountWaitingAsync() => rows.CountWaiting();

    /// <summary>The entries that the house has not said it holds, of all who use this phone.</summary>
    public async Task<IReadOnlyList<StoredRow>> ReadWaitingAsync() =>
        await rows.CountWaiting() > 0 ? await rows.ReadWaiting() : [];

    /// <summary>Entries of one replica, in its order, with whether the house has them.</summary>
    public async Task<IReadOnlyList<(Entry Entry, bool Acknowledged)>> ReadAfterAsync(
        ReplicaId replica,
        long after,
        int most
    )
    {
        var found = await rows.ReadAfter(replica.Value, after, most);
        if (found.Count == most && found[0].Seq != found[^1].Seq)
        {
            // Rivals under one number go together: the last number may be cut.
            found = [.. found.Where(row => row.Seq != found[^1].Seq)];
        }
        else if (found.Count == most && most < int.MaxValue)
        {
            return await ReadAfterAsync(replica, after, int.MaxValue);
        }

        return
        [
            .. found
                .Select(row => (Entry: row.ToEntry(), row.Acknowledged))
                .Where(one => one.Entry is not null)
                .Select(one => (one.Entry!, one.Acknowledged)),
        ];
    }

    /// <summary>The house holds these, or keeps them for its owner.</summary>
    public Task AcknowledgeAsync(IReadOnlyCollection<Digest> entries) =>
        entries.Count > 0 ? rows.Acknowledge(entries) : Task.CompletedTask;

    /// <summary>The house does not hold these after all: they wait again.</summary>
    public Task AwaitAgainAsync(IReadOnlyCollection<Digest> entries) =>
        entries.Count > 0 ? rows.AwaitAgain(entries) : Task.CompletedTask;

    /// <summary>Ends the present replica: the same person writes in a new one from now on.</summary>
    public async Task BeginAnewAsync()
    {
        using var _ = await pen.Take();
        await LookAsync();
        await EndAsync([Replica]);
    }

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    )
    {
        using var _ = await pen.Take(cancellation);
        // Another page may have written since, or have handed the phone to somebody else. Asked all at once: each
        // answer of a busy browser takes its time.
        var (supposed, newer) = (Replica, ReadNewerAsync());
        await LookAsync();
        var last = LastOwn(await (Replica == supposed ? newer : ReadNewerAsync()));
        var written = new List<Entry>(drafts.Count);
        foreach (var draft in drafts)
        {
            last = draft.Seal(
                Replica,
                (last?.Envelope.Sequence ?? 0) + 1,
                last?.Digest,
                RandomNumberGenerator.GetBytes(EntryBytes.SaltLength)
            );
            written.Add(last);
        }

        await rows.Append([.. written.Select(entry => StoredRow.Of(entry, false))]);
        await EraseWhatIsErasedAsync(written);
        _last = last;
        written.ForEach(Know);
        return written;
    }

    /// <inheritdoc/>
    public async ValueTask<Intake> TakeAsync(
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    )
    {
        if (!_isKnown)
        {
            await KnowAsync(await ReadAllAsync(cancellation));
        }

        await PutBackAsync(entries);
        _erased.UnionWith(Erasures(entries));
        var added = await rows.Append([
            .. entries.Select(entry =>
                StoredRow.Of(_erased.Contains(entry.Id) ? entry.Erased() : entry, true)
            ),
        ]);
        await EraseWhatIsErasedAsync(entries);
        foreach (var entry in entries)
        {
            Know(entry);
        }

        return new Intake(added, entries.Count - added, []);
    }

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(
        CancellationToken cancellation = default
    ) => await rows.GetCheckpoint(CheckpointName) is { } bytes ? CheckpointBytes.Read(bytes) : [];

    /// <inheritdoc/>
    public async ValueTask KeepAsync(
        IReadOnlyList<Checkpoint> checkpoints,
        CancellationToken cancellation = default
    ) => await rows.PutCheckpoint(CheckpointName, CheckpointBytes.Write(checkpoints));

    /// <inheritdoc/>
    public async ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
        await rows.ClearCheckpoints();

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private void Know(Entry entry)
    {
        Holdings.Add(entry);
        if (entry.Envelope.Correction is { Kind: CorrectionKind.Erases } erasure)
        {
            _erased.Add(erasure.Target);
        }
    }

    // Under the pen: which replicas there are and which is written in. The first time, one is made.
    private async Task LookAsync()
    {
        var (replicas, stores) = (rows.GetFact(ReplicaFact), rows.GetFact(StoresFact));
        var present = await replicas is { Length: 16 } known
            ? new ReplicaId(new Guid(known, bigEndian: true))
            : (ReplicaId?)null;
        _stores = await stores is { } kept ? PhoneStore.Read(kept) : [];
        if (present is not { } replica)
        {
            await BeginAsync(null);
            return;
        }

        if (!_stores.Exists(store => store.Replica == replica))
        {
            _stores.Add(new PhoneStore(replica, null, false));
        }

        Turn(replica);
    }

    private Task BeginAsync(PersonId? person)
    {
        var replica = new ReplicaId(Guid.CreateVersion7());
        return KeepAsync([.. _stores, new PhoneStore(replica, person, false)], replica);
    }

    // First the list, then which of it: a break between leaves a replica in the list that nothing was written in.
    private async Task KeepAsync(List<PhoneStore> stores, ReplicaId replica)
    {
        await rows.PutFact(StoresFact, PhoneStore.Write(stores));
        await rows.PutFact(ReplicaFact, replica.Value.ToByteArray(bigEndian: true));
        _stores = stores;
        Turn(replica);
    }

    private void Turn(ReplicaId replica)
    {
        if (Replica != replica)
        {
            Replica = replica;
            _last = null;
        }
    }

    private async Task EndAsync(IReadOnlyCollection<ReplicaId> ended)
    {
        var person = Person;
        var wasPresent = ended.Contains(Replica);
        _stores =
        [
            .. _stores.Select(store => ended.Contains(store.Replica) ? store with { IsEnded = true } : store),
        ];
        if (wasPresent)
        {
            await BeginAsync(person);
        }
        else
        {
            await KeepAsync(_stores, Replica);
        }
    }

    // Somebody holds what a replica of this phone wrote and this phone does not: it was put back to an older copy.
    // Going on in that replica would give numbers twice.
    private async Task PutBackAsync(IReadOnlyList<Entry> entries)
    {
        var own = entries
            .Where(entry =>
                !Holdings.Holds(entry)
                && _stores.Exists(store => store.Replica == entry.Envelope.Replica && !store.IsEnded)
            )
            .ToList();
        if (own.Count == 0)
        {
            return;
        }

        using var _ = await pen.Take();
        await LookAsync();
        var lost = new List<ReplicaId>();
        foreach (var replica in own.GroupBy(entry => entry.Envelope.Replica))
        {
            var first = replica.Min(entry => entry.Envelope.Sequence);
            var here = await rows.ReadAfter(replica.Key.Value, first - 1, int.MaxValue);
            var digests = here.Select(row => row.Digest).ToHashSet();
            if (replica.Any(entry => !digests.Contains(entry.Digest)))
            {
                lost.Add(replica.Key);
            }
        }

        if (lost.Count > 0)
        {
            await EndAsync(lost);
        }
    }

    /// <summary>The last of our own among entries that were read: only what follows it need be read before a write.</summary>
    public void Recall(IEnumerable<Entry> read)
    {
        foreach (var entry in read)
        {
            if (
                entry.Envelope.Replica == Replica
                && entry.Envelope.Sequence > (_last?.Envelope.Sequence ?? 0)
            )
            {
                _last = entry;
            }
        }
    }

    // From the last that is known on, so that the first entry after opening does not read ten years.
    private Task<IReadOnlyList<StoredRow>> ReadNewerAsync() =>
        rows.ReadAfter(
            Replica.Value,
            Math.Max(_last?.Envelope.Sequence ?? 0, Holdings.Of(Replica).Highest - 1),
            int.MaxValue
        );

    private Entry? LastOwn(IReadOnlyList<StoredRow> newer) =>
        EntriesOf(newer).MaxBy(entry => entry.Envelope.Sequence) ?? _last;

    // A wish to erase reaches the bodies that are here already.
    private async Task EraseWhatIsErasedAsync(IReadOnlyList<Entry> written)
    {
        var targets = Erasures(written).ToHashSet();
        if (targets.Count == 0)
        {
            return;
        }

        var held = EntriesOf(await rows.ReadAll());
        await rows.Erase([
            .. held.Where(entry => targets.Contains(entry.Id) && entry.HasBody).Select(e => e.Digest),
        ]);
        // Numbers that came of what is erased are among what was kept.
        await rows.ClearCheckpoints();
    }

    private static IEnumerable<EntryId> Erasures(IEnumerable<Entry> entries) =>
        entries
            .Where(entry => entry.Envelope.Correction is { Kind: CorrectionKind.Erases })
            .Select(entry => entry.Envelope.Correction!.Value.Target);

    private static List<Entry> EntriesOf(IReadOnlyList<StoredRow> rows)
    {
        var entries = new List<Entry>(rows.Count);
        foreach (var row in rows)
        {
            if (row.ToEntry() is { } entry)
            {
                entries.Add(entry);
            }
        }

        return entries;
    }
}
