using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// All that is known, told in one order: a set of entries, which of their words stand, and what is in conflict.
/// Equal sets give equal accounts whatever the order of arrival; adding one entry costs what it changes.
/// </summary>
public sealed class Account
{
    // From so many new entries on it is cheaper to sort once than to insert each.
    private const int Many = 64;

    private readonly Dictionary<Digest, Entry> _entries = [];
    private readonly Dictionary<EntryId, List<Digest>> _twins = [];
    private readonly HashSet<EntryId> _erased = [];
    private readonly Corrections _corrections = new();
    private readonly Telling _telling;
    private readonly Folding<SubjectIndex> _index;
    private Duration _widest;
    private bool _tellsLater;

    /// <summary>An account of nothing.</summary>
    /// <param name="asKnownAt">Entries written later than this are passed over; none for everything.</param>
    public Account(Instant? asKnownAt = null)
        : this(asKnownAt, PrefixMarks.UsualSpacing) { }

    internal Account(Instant? asKnownAt, int checkpointSpacing)
    {
        AsKnownAt = asKnownAt;
        _telling = new Telling(checkpointSpacing);
        _index = new Folding<SubjectIndex>(SubjectIndex.Fold, _telling.Marks);
    }

    /// <summary>The instant of "as it was known then", or none.</summary>
    public Instant? AsKnownAt { get; }

    /// <summary>Number of entries, corrections included.</summary>
    public int EntryCount => _entries.Count;

    /// <summary>How often something new was taken in: an entry, or the facts of one that had lost them.</summary>
    internal long Taken { get; private set; }

    /// <summary>Every entry, in no order.</summary>
    public IReadOnlyCollection<Entry> Entries => _entries.Values;

    /// <summary>What happened, as told now, in the one order of telling.</summary>
    public IReadOnlyList<Occurrence> Occurrences => _telling.Occurrences;

    /// <summary>Entries of a kind or version that this build does not know.</summary>
    public int UnknownCount =>
        _entries.Values.Count(entry =>
            entry.HasBody && !Kinds.Knows(entry.Envelope.Kind, entry.Envelope.Version)
        );

    /// <summary>What is told otherwise than before.</summary>
    internal ChangeLog Changes => _telling.Changes;

    /// <summary>The state of the index by subject, with its checkpoints, for storing.</summary>
    public Folding<SubjectIndex> IndexFolding => _index;

    /// <summary>An account of a set of entries.</summary>
    public static Account Of(IEnumerable<Entry> entries, Instant? asKnownAt = null)
    {
        var account = new Account(asKnownAt);
        account.AddAll(entries);
        return account;
    }

    /// <summary>The entry of an identity, or none; of several with one identity, the first by writing.</summary>
    public Entry? Find(EntryId id) => _corrections.Find(id);

    /// <summary>Whether an entry is here already, and with all that it would bring.</summary>
    public bool Holds(Entry entry) =>
        _entries.TryGetValue(entry.Digest, out var held)
        && (held.HasBody || !entry.HasBody || _erased.Contains(entry.Id));

    /// <summary>How an entry stands after all corrections.</summary>
    /// <exception cref="ArgumentException">The entry is not in this account.</exception>
    public Standing StandingOf(Entry entry)
    {
        if (!_entries.TryGetValue(entry.Digest, out var held))
        {
            throw new ArgumentException("The entry is not in this account.", nameof(entry));
        }

        return !held.HasBody ? Standing.Erased
            : held.Envelope.Correction is { Kind: CorrectionKind.Erases } ? Standing.TakesBack
            : !ReferenceEquals(Find(held.Id), held) ? Standing.LostToRival
            : _corrections.TreeOf(held.Id).StandingOf(held.Id);
    }

    /// <summary>The corrections of one entry that compete, by writing: the last one stands.</summary>
    public IEnumerable<Entry> CorrectionsOf(EntryId id) => _corrections.TreeOf(id).CompetingFor(id);

    /// <summary>What happened to one subject, in the order of telling.</summary>
    public IEnumerable<Occurrence> About(Subject subject) =>
        _index.State().PositionsOf(subject).Select(position => _telling.Occurrences[position]);

    /// <summary>
    /// What happened to one subject and may not have been over before an instant, in the order of telling: what came before costs nothing.
    /// </summary>
    /// <param name="subject">The subject.</param>
    /// <param name="since">The instant; whatever happened at it at the latest is told.</param>
    public IEnumerable<Occurrence> AboutSince(Subject subject, Instant since)
    {
        var positions = _index.State().PositionsOf(subject);
        // An occurrence is told by its earliest instant, and no doubt is wider than the widest.
        var from = since - Instant.MinValue > _widest ? since - _widest : Instant.MinValue;
        for (var place = FirstBegun(positions, from); place < positions.Count; place++)
        {
            var occurrence = _telling.Occurrences[positions[place]];
            if (occurrence.Happened.Latest >= since)
            {
                yield return occurrence;
            }
        }
    }

    /// <summary>Every subject of a kind that any occurrence speaks of, in the order of first mention.</summary>
    public IEnumerable<Guid> Subjects(SubjectKind kind) => _index.State().Subjects(kind);

    /// <summary>
    /// Runs a fold of one's own over the account. Keep the folding: after more entries have come, it goes on from
    /// the last checkpoint that still holds.
    /// </summary>
    public Folding<TState> Folding<TState>(IFold<TState> fold)
        where TState : class => new(fold, _telling.Marks);

    /// <summary>
    /// The same account as it was known at an instant. Kept, it is brought up to date with what has come since at the
    /// cost of that alone.
    /// </summary>
    /// <param name="known">The instant.</param>
    /// <param name="kept">What this gave before; may be none.</param>
    public IEnumerable<AccountThen> ThenInPieces(Instant known, AccountThen? kept = null)
    {
        // What came since was added at the end; facts that came later to an entry did not.
        var goesOn =
            kept is not null
            && ReferenceEquals(kept.Of, this)
            && kept.Account.AsKnownAt == known
            && Taken - kept.Taken == _entries.Count - kept.Entries;
        var then = goesOn
            ? kept! with
            {
                Taken = Taken,
                Entries = _entries.Count,
            }
            : new AccountThen(this, new Account(known), Taken, _entries.Count);
        var fresh = goesOn ? _entries.Values.Skip(kept!.Entries).ToList() : [.. _entries.Values];
        foreach (var _ in then.Account.AddAllInPieces(fresh))
        {
            yield return then;
        }

        yield return then;
    }

    /// <summary>Adds one entry.</summary>
    /// <returns>False when it is here already, or was written after <see cref="AsKnownAt"/>.</returns>
    public bool Add(Entry entry)
    {
        var erases = entry.Envelope.Correction is { Kind: CorrectionKind.Erases } erasure
            ? erasure.Target
            : (EntryId?)null;
        if (AsKnownAt is { } known && entry.Envelope.Written > known)
        {
            // What was erased since stays erased, also in "as it was known then".
            Erase(erases);
            return false;
        }

        if (_entries.TryGetValue(entry.Digest, out var held))
        {
            // Facts may come after their envelope: somebody else's copy had lost them, ours has not.
            var brings = entry.HasBody && !held.HasBody && !_erased.Contains(entry.Id);
            if (brings)
            {
                Taken++;
                Exchange(held, entry);
            }

            return brings;
        }

        entry = _erased.Contains(entry.Id) ? entry.Erased() : entry;
        _widest = Duration.Max(_widest, entry.Envelope.Happened.Doubt);
        Taken++;
        _entries.Add(entry.Digest, entry);
        Tie(entry);
        Erase(erases);
        return true;
    }

    /// <summary>Adds many entries at once: sorts once.</summary>
    /// <returns>How many were new.</returns>
    public int AddAll(IEnumerable<Entry> entries)
    {
        var candidates = entries.ToList();
        if (candidates.Count < Many)
        {
            return candidates.Count(Add);
        }

        var before = Taken;
        foreach (var _ in AddAll(candidates, withoutPause: true))
        {
            // All at once.
        }

        return (int)(Taken - before);
    }

    /// <summary>
    /// The same for who may not be held up: a pause after every few. Until the last piece is done the account is not
    /// told, so it is not to be asked.
    /// </summary>
    /// <param name="entries">The entries; all are at hand.</param>
    public IEnumerable<int> AddAllInPieces(IReadOnlyCollection<Entry> entries) =>
        AddAll(entries, withoutPause: false);

    private IEnumerable<int> AddAll(IReadOnlyCollection<Entry> entries, bool withoutPause)
    {
        if (entries.Count < Many && _entries.Count > 0)
        {
            // Few find their places one by one.
            foreach (var entry in entries)
            {
                Add(entry);
            }

            yield break;
        }

        const int piece = 256;
        // The index reads facts, the first of each kind more slowly by far than others.
        const int decoded = 16;
        _entries.EnsureCapacity(_entries.Count + entries.Count);
        _corrections.EnsureCapacity(_entries.Count + entries.Count);
        var seen = 0;
        var isTold = false;
        _tellsLater = true;
        try
        {
            foreach (var entry in entries)
            {
                Add(entry);
                if (++seen % piece == 0)
                {
                    yield return seen;
                }
            }

            if (!withoutPause)
            {
                foreach (var _ in _telling.ReplaceInPieces(TellAll(), piece))
                {
                    yield return seen;
                }

                isTold = true;
            }
        }
        finally
        {
            _tellsLater = false;
            // At once it is quicker, and whoever does not wait for the last piece has an account that is told all the same.
            if (!isTold)
            {
                _telling.Replace(TellAll());
            }
        }

        while (_index.Advance(decoded))
        {
            yield return seen;
        }
    }

    /// <summary>
    /// What does not agree in the journal itself: rival corrections, two entries with one number or one identity,
    /// a chain that does not hold, a correction of something that is not here, facts that cannot be read.
    /// </summary>
    public IReadOnlyList<Remark> Conflicts() => JournalConflicts.Of(this, _corrections, _erased);

    // Finds the place of a new entry among the corrections and tells anew what it changes.
    private void Tie(Entry entry)
    {
        var twin = _corrections.Find(entry.Id);
        if (twin is not null && OrderOfTelling.ByWriting(twin, entry) < 0)
        {
            AddTwin(entry);
            return;
        }

        if (twin is null && _corrections.StandsAlone(entry))
        {
            _corrections.Put(entry);
            if (TellsAlone(entry) && !_tellsLater)
            {
                _telling.Insert(new Occurrence(entry, entry, false));
            }

            return;
        }

        Retell(
            [entry.Id, Corrections.TargetOf(entry), Corrections.TargetOf(twin)],
            () =>
            {
                if (twin is not null)
                {
                    AddTwin(twin);
                    _corrections.Remove(twin);
                }

                _corrections.Put(entry);
            }
        );
    }

    // In the order of telling: the place of the first that began at an instant or after it; the end if none did.
    private int FirstBegun(IReadOnlyList<int> positions, Instant instant)
    {
        var (low, high) = (0, positions.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            var began = _telling.Occurrences[positions[middle]].Happened.Earliest;
            (low, high) = began < instant ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    private void AddTwin(Entry entry)
    {
        if (!_twins.TryGetValue(entry.Id, out var list))
        {
            _twins[entry.Id] = list = [];
        }

        list.Add(entry.Digest);
    }

    private void Erase(EntryId? target)
    {
        if (target is not { } id || !_erased.Add(id))
        {
            return;
        }

        if (Find(id) is { HasBody: true } held)
        {
            Exchange(held, held.Erased());
        }

        foreach (var twin in _twins.GetValueOrDefault(id) ?? [])
        {
            _entries[twin] = _entries[twin].Erased();
        }
    }

    // The same entry with or without its facts.
    private void Exchange(Entry before, Entry after)
    {
        _entries[before.Digest] = after;
        if (ReferenceEquals(Find(before.Id), before))
        {
            Retell(
                [before.Id],
                () =>
                {
                    _corrections.Remove(before);
                    _corrections.Put(after);
                }
            );
        }
    }

    private void Retell(ReadOnlySpan<EntryId?> touched, Action change)
    {
        foreach (var id in touched)
        {
            Forget(id);
        }

        change();
        foreach (var id in touched)
        {
            Tell(id);
        }
    }

    private void Forget(EntryId? id)
    {
        if (!_tellsLater && id is { } known && _corrections.TreeOf(known).Tells() is { } occurrence)
        {
            _telling.Remove(occurrence);
        }
    }

    private void Tell(EntryId? id)
    {
        if (!_tellsLater && id is { } known && _corrections.TreeOf(known).Tells() is { } occurrence)
        {
            _telling.Insert(occurrence);
        }
    }

    private IEnumerable<Occurrence> TellAll()
    {
        var walked = new HashSet<EntryId>();
        foreach (var entry in _corrections.Entries)
        {
            if (_corrections.StandsAlone(entry))
            {
                if (TellsAlone(entry))
                {
                    yield return new Occurrence(entry, entry, false);
                }
            }
            else if (!walked.Contains(entry.Id))
            {
                var tree = _corrections.TreeOf(entry.Id);
                walked.UnionWith(tree.Identities);
                if (tree.Tells() is { } occurrence)
                {
                    yield return occurrence;
                }
            }
        }
    }

    private static bool TellsAlone(Entry entry) => entry.Envelope.Correction is null;
}
