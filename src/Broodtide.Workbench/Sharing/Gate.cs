using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// The door of the shared journal: every phone comes through it. It tells what is held, hands out what is lacked,
/// and takes in what the visitor may write; a batch that no honest store sends is refused as a whole, and the
/// refusal is kept. One request at a time; nothing depends on the order in which phones come.
/// </summary>
/// <param name="journal">The house's journal.</param>
/// <param name="memory">What the house remembers.</param>
/// <param name="people">Who belongs to the house.</param>
/// <param name="clock">The house's clock.</param>
public sealed class Gate(ISharedJournal journal, IHouseMemory memory, IPeopleOfTheHouse people, IClock clock)
    : IDisposable
{
    /// <summary>From how many seconds on a device's clock is said to be wrong: one day.</summary>
    public const long FarOffSeconds = 24 * 60 * 60;

    // A phone has one store for each person who uses it.
    private const int MostStoresOnAPhone = 32;

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly GateIndex _index = new(journal);
    private long _heldBackSeen = -1;

    /// <summary>The house's clock.</summary>
    internal IClock Clock => clock;

    /// <summary>What the house remembers.</summary>
    internal IHouseMemory Memory => memory;

    /// <summary>Asks the journal for nothing, so that who watches over the house learns whether it answers.</summary>
    /// <param name="cancellation">Gives up.</param>
    public async Task RapAsync(CancellationToken cancellation = default) =>
        await journal.ArrivedSinceAsync(long.MaxValue, cancellation);

    /// <summary>A phone comes: what it holds and what waits in it. Changes no entry.</summary>
    public Task<Welcome> MeetAsync(
        Visitor visitor,
        Holdings holdings,
        PhoneReport report,
        CancellationToken cancellation = default
    ) =>
        InTurn(
            view =>
            {
                var now = clock.GetCurrentInstant();
                var mine = MineOf(view, visitor);
                Keep(report, view, visitor, now);
                var told = new Dictionary<ReplicaId, Held>(_index.Open.Current.Replicas);
                foreach (var replica in mine)
                {
                    // What waits for the owner has arrived: nobody need send it again.
                    told[replica] = _index.All.Of(replica);
                }

                var refill = memory.RefillUntil();
                return Task.FromResult(
                    new Welcome(
                        new Holdings(told),
                        mine,
                        mine.Where(view.Revoked.ContainsKey).ToHashSet(),
                        visitor.Person,
                        visitor.Role,
                        _index.Open.LackedBy(holdings).Sum(lacked => lacked.Count),
                        _index.CountHeldBack(visitor.Person),
                        view.IsRefillOpen ? refill : null,
                        SecondsAhead(report, now)
                    )
                );
            },
            cancellation
        );

    /// <summary>A batch of what a phone lacks, by replica and running number; none when it lacks nothing.</summary>
    /// <param name="holdings">What the phone holds.</param>
    /// <param name="after">Where the batch before ended; none for the first.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<IReadOnlyList<Entry>> LackingAsync(
        Holdings holdings,
        FetchedUpTo? after,
        CancellationToken cancellation = default
    ) =>
        InTurn<IReadOnlyList<Entry>>(
            async _ =>
            {
                var batch = new List<Entry>();
                foreach (var lacked in _index.Open.LackedBy(holdings))
                {
                    var order = after is { } place ? lacked.Replica.Value.CompareTo(place.Replica.Value) : 1;
                    if (order < 0)
                    {
                        continue;
                    }

                    var from = order == 0 ? Math.Max(lacked.After, after!.Value.Sequence) : lacked.After;
                    batch.AddRange(
                        await journal.ReadAfterAsync(
                            lacked.Replica,
                            from,
                            BatchSize.Entries - batch.Count,
                            cancellation
                        )
                    );
                    if (batch.Count >= BatchSize.Entries)
                    {
                        break;
                    }
                }

                return WithoutSplitNumber(batch);
            },
            cancellation
        );

    /// <summary>
    /// A phone gives entries of its own stores, or brings those of others while that is open. When this returns
    /// without a reason, every entry is on the disk of the house: in its journal, or held back for the owner.
    /// </summary>
    public Task<Parsed<Accepted>> GiveAsync(
        Visitor visitor,
        IReadOnlyList<Entry> batch,
        bool brings,
        PhoneReport report,
        CancellationToken cancellation = default
    ) =>
        InHouseTurn(
            async view =>
            {
                if (batch.Count > BatchSize.MostEntries)
                {
                    return Refuse(visitor, TooBig(batch.Count));
                }

                var verdict = new GateRules(view, visitor, brings).Judge(batch);
                if (!verdict.Succeeded)
                {
                    return Refuse(visitor, verdict.Reason);
                }

                if (
                    await ClaimedFromAnotherAsync(verdict.Value.ToBind, view, visitor, cancellation) is
                    { } claimed
                )
                {
                    return Refuse(visitor, claimed);
                }

                return await TakeAsync(visitor, batch, verdict.Value, report, view, cancellation);
            },
            cancellation
        );

    /// <summary>What was asked by somebody who is not signed in.</summary>
    public static Remark NotSignedIn { get; } = new("sync-not-signed-in");

    /// <summary>Refuses something that came so wrong that no batch could be read from it; keeps the refusal.</summary>
    public Parsed<Accepted> Refuse(Visitor visitor, Remark reason)
    {
        ArgumentNullException.ThrowIfNull(visitor);
        ArgumentNullException.ThrowIfNull(reason);
        var details = reason.ToString();
        memory.Log(
            new Refusal(
                clock.GetCurrentInstant(),
                visitor.Person,
                visitor.Name,
                reason.Code,
                details.Length > Refusal.LongestDetails ? details[..Refusal.LongestDetails] : details
            )
        );
        return Parsed<Accepted>.No(reason);
    }

    /// <summary>Why a batch of so many entries is not taken.</summary>
    public static Remark TooBig(long entries) =>
        new(
            "sync-batch-too-big",
            new("entries", entries),
            new("allowedEntries", BatchSize.MostEntries),
            new("allowedBytes", BatchSize.MostBytes)
        );

    /// <inheritdoc/>
    public void Dispose() => _turn.Dispose();

    /// <summary>Does something while nobody else is at the gate, on all that has arrived.</summary>
    internal async Task<T> InTurn<T>(Func<GateView, Task<T>> work, CancellationToken cancellation)
    {
        await _turn.WaitAsync(cancellation);
        try
        {
            return await work(await LookAsync(cancellation));
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>Does something while nobody else is at the gate, nor at that of another program of the house.</summary>
    internal Task<T> InHouseTurn<T>(Func<GateView, Task<T>> work, CancellationToken cancellation) =>
        InTurn(
            async _ =>
            {
                using var turn = memory.TakeTurn();
                // What another program did while this one waited is seen before anything is judged.
                return await work(await LookAsync(cancellation));
            },
            cancellation
        );

    /// <summary>Takes entries that the owner lets in, in their order.</summary>
    internal async Task LetInAsync(IReadOnlyList<HeldBack> held, CancellationToken cancellation)
    {
        var entries = held.Select(one => Entry.ReadTrusted(one.Bytes, one.Digest).Value).ToList();
        await journal.TakeAsync(entries, cancellation);
        Decide(held, Decision.LetIn);
    }

    /// <summary>Notes what the owner decided.</summary>
    internal void Decide(IReadOnlyList<HeldBack> held, Decision decision)
    {
        memory.Decide([.. held.Select(one => one.Digest)], decision);
        foreach (var one in held)
        {
            _index.Decide(one, decision);
        }

        _heldBackSeen = memory.HeldBackChanges();
    }

    private async Task<GateView> LookAsync(CancellationToken cancellation)
    {
        // Read before what it counts: what comes in between is looked at once more, never missed.
        if (memory.HeldBackChanges() is var changes && changes != _heldBackSeen)
        {
            foreach (var held in memory.HeldBack())
            {
                _index.HoldBack(held);
                if (held.Decision is not Decision.None)
                {
                    _index.Decide(held, held.Decision);
                }
            }

            _heldBackSeen = changes;
        }

        await _index.CatchUpAsync(cancellation);
        var own = await journal.OwnReplicasAsync(cancellation);
        var ever = memory.OwnReplicas();
        if (!own.IsSubsetOf(ever))
        {
            memory.AddOwn(own);
            ever = memory.OwnReplicas();
        }

        return new GateView(
            _index,
            memory.Bindings(),
            own,
            ever,
            memory.Revoked(),
            people.Names(),
            memory.RefillUntil() is { } until && clock.GetCurrentInstant() < until
        );
    }

    private async Task<Parsed<Accepted>> TakeAsync(
        Visitor visitor,
        IReadOnlyList<Entry> batch,
        Verdict verdict,
        PhoneReport report,
        GateView view,
        CancellationToken cancellation
    )
    {
        var now = clock.GetCurrentInstant();
        if (verdict.ToBind.Count > 0)
        {
            memory.Bind(verdict.ToBind, visitor.Person);
        }

        // Before the entries: if the power fails between, the phone sends again, and the remarks are there already.
        Mark(verdict, report, visitor, now);
        HoldBack(verdict, visitor, now);
        var intake = await journal.TakeAsync(verdict.ToTake, cancellation);
        Keep(report, view with { Bindings = memory.Bindings() }, visitor, now);
        return Parsed<Accepted>.Of(
            new Accepted(
                intake.New,
                batch.Count - intake.New - verdict.ToHoldBack.Count,
                verdict.ToHoldBack.Count
            )
        );
    }

    private void HoldBack(Verdict verdict, Visitor visitor, Instant now)
    {
        if (verdict.ToHoldBack.Count == 0)
        {
            return;
        }

        var held = verdict
            .ToHoldBack.Select(one => new HeldBack(
                one.Entry.Digest,
                one.Entry.Id,
                one.Entry.Envelope.Replica,
                one.Entry.Envelope.Sequence,
                visitor.Person,
                now,
                one.Reason,
                one.Entry.Bytes,
                Decision.None
            ))
            .ToList();
        memory.HoldBack(held);
        foreach (var one in held)
        {
            _index.HoldBack(one);
        }

        _heldBackSeen = memory.HeldBackChanges();
    }

    private void Mark(Verdict verdict, PhoneReport report, Visitor visitor, Instant now)
    {
        var phone = SecondsAhead(report, now);
        var marks = verdict
            .Brought.Select(entry => MarkOf(entry, MarkSort.Brought, 0))
            .Concat(
                verdict
                    .ToTake.Where(entry => !_index.Open.Holds(entry))
                    .Select(entry => (Entry: entry, Seconds: FarOff(entry, phone, now)))
                    .Where(one => one.Seconds != 0)
                    .Select(one => MarkOf(one.Entry, MarkSort.ClockFarOff, one.Seconds))
            )
            .ToList();
        if (marks.Count > 0)
        {
            memory.Mark(marks);
        }

        EntryMark MarkOf(Entry entry, MarkSort sort, long seconds) =>
            new(entry.Digest, entry.Envelope.Replica, sort, visitor.Person, now, seconds);
    }

    // An old entry may have waited long; a clock that is behind is seen by the phone's own word alone.
    private static long FarOff(Entry entry, long phone, Instant now)
    {
        var ahead = (long)(entry.Envelope.Written - now).TotalSeconds;
        return ahead > FarOffSeconds ? ahead
            : Math.Abs(phone) > FarOffSeconds ? phone
            : 0;
    }

    private static long SecondsAhead(PhoneReport report, Instant now) =>
        report.Now is { } phone ? (long)(phone - now).TotalSeconds : 0;

    // Who is not the person of a store may say that something waits there, never that nothing does.
    private void Keep(PhoneReport report, GateView view, Visitor visitor, Instant now)
    {
        var reports = report
            .Waiting.Take(MostStoresOnAPhone)
            .Where(one =>
                !view.OwnEver.Contains(one.Key)
                && (
                    view.Bindings.TryGetValue(one.Key, out var person)
                        ? person == visitor.Person || one.Value > 0
                        : MayReportUnknown(one.Key, visitor)
                )
            )
            .Select(one => new Reported(one.Key, visitor.Person, one.Value, now, SecondsAhead(report, now)))
            .ToList();
        if (reports.Count > 0)
        {
            memory.Report(reports);
        }
    }

    private bool MayReportUnknown(ReplicaId replica, Visitor visitor)
    {
        var known = memory.Reports();
        return known.Any(report => report.Replica == replica)
            || known.Count(report => report.Person == visitor.Person) < MostStoresOnAPhone;
    }

    // A store that nobody is bound to yet may hold entries already: of an import, of a refill.
    private async Task<Remark?> ClaimedFromAnotherAsync(
        IReadOnlyList<ReplicaId> replicas,
        GateView view,
        Visitor visitor,
        CancellationToken cancellation
    )
    {
        foreach (var replica in replicas.Where(replica => _index.Open.Of(replica).Count > 0))
        {
            var held = await journal.ReadAfterAsync(replica, 0, int.MaxValue, cancellation);
            if (held.Any(entry => GateRules.IsNameOfAnother(entry.Envelope.Author, visitor, view.Names)))
            {
                return new Remark("sync-replica-of-another", new Argument("replica", replica));
            }
        }

        return null;
    }

    private static HashSet<ReplicaId> MineOf(GateView view, Visitor visitor) =>
        view
            .Bindings.Where(binding => binding.Value == visitor.Person)
            .Select(binding => binding.Key)
            .ToHashSet();

    // Rivals under one number go together, or the next batch would begin behind one of them.
    private static List<Entry> WithoutSplitNumber(List<Entry> batch)
    {
        var first = BatchSize.FirstOf(batch);
        if (first.Count == 0 || first.Count == batch.Count)
        {
            return batch;
        }

        var end = first.Count;
        while (end < batch.Count && IsRival(batch[end - 1].Envelope, batch[end].Envelope))
        {
            end++;
        }

        return [.. batch.Take(end)];
    }

    private static bool IsRival(Envelope left, Envelope right) =>
        left.Replica == right.Replica && left.Sequence == right.Sequence;
}
