using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// All that is known, told in one order: a set of entries, which of their words stand, and what is in conflict.
/// Equal sets give equal accounts whatever the order of arrival; adding one entry costs what it changes.
/// </summary>
public sealed class Account
{
    private readonly Corrections _corrections = new();
    private readonly Dictionary<Digest, Entry> _entries = [];
    private readonly HashSet<EntryId> _erased = [];
    private readonly List<Occurrence> _occurrences = [];
    private readonly PrefixMarks _marks;
    private readonly Folding<SubjectIndex> _index;

    /// <summary>An account of nothing.</summary>
    /// <param name="asKnownAt">Entries written later than this are passed over; none for everything.</param>
    public Account(Instant? asKnownAt = null)
    {
        AsKnownAt = asKnownAt;
        _marks = new PrefixMarks(_occurrences);
        _index = new Folding<SubjectIndex>(SubjectIndex.Fold, _marks);
    }

    /// <summary>The instant of "as it was known then", or none.</summary>
    public Instant? AsKnownAt { get; }

    /// <summary>Number of entries, corrections included.</summary>
    public int EntryCount => _entries.Count;

    /// <summary>Every entry, in no order.</summary>
    public IReadOnlyCollection<Entry> Entries => _entries.Values;

    /// <summary>What happened, as told now, in the one order of telling.</summary>
    public IReadOnlyList<Occurrence> Occurrences => _occurrences;

    /// <summary>Entries of a kind or version that this build does not know.</summary>
    public int UnknownCount => _entries.Values.Count(entry => entry.HasBody && IsUnknown(entry));

    /// <summary>An account of a set of entries.</summary>
    public static Account Of(IEnumerable<Entry> entries, Instant? asKnownAt = null)
    {
        var account = new Account(asKnownAt);
        account.AddAll(entries);
        return account;
    }

    /// <summary>The entry of an identity, or none.</summary>
    public Entry? Find(EntryId id) => _corrections.Find(id);

    /// <summary>How an entry stands after all corrections.</summary>
    public Standing StandingOf(Entry entry) => _corrections.StandingOf(entry);

    /// <summary>The corrections of one entry that compete.</summary>
    public IEnumerable<Entry> CorrectionsOf(EntryId id) => _corrections.Rivals(id);

    /// <summary>What happened to one subject, in the order of telling.</summary>
    public IEnumerable<Occurrence> About(Subject subject)
    {
        foreach (var position in Index().PositionsOf(subject))
        {
            yield return _occurrences[position];
        }
    }

    /// <summary>Every subject of a kind that any occurrence speaks of, in the order of first mention.</summary>
    public IEnumerable<Guid> Subjects(SubjectKind kind) => Index().Subjects(kind);

    /// <summary>
    /// Runs a fold of one's own over the account, from the last checkpoint that still holds. Keep the folding and
    /// give it again after more entries have come.
    /// </summary>
    public Folding<TState> Folding<TState>(IFold<TState> fold)
        where TState : class => new(fold, _marks);

    /// <summary>Adds one entry.</summary>
    /// <returns>False when it is here already, or was written after <see cref="AsKnownAt"/>.</returns>
    public bool Add(Entry entry)
    {
        if (!Take(ref entry))
        {
            return false;
        }

        if (entry.Envelope.Correction is { Kind: CorrectionKind.Erases })
        {
            return true;
        }

        if (_corrections.StandsAlone(entry) && ReferenceEquals(_corrections.Find(entry.Id), entry))
        {
            Insert(new Occurrence(entry, entry, false));
            return true;
        }

        Retell(entry);
        return true;
    }

    /// <summary>Adds many entries at once: sorts once.</summary>
    /// <returns>How many were new.</returns>
    public int AddAll(IEnumerable<Entry> entries)
    {
        var fresh = new List<Entry>();
        foreach (var candidate in entries)
        {
            var entry = candidate;
            if (Take(ref entry))
            {
                fresh.Add(entry);
            }
        }

        if (fresh.Count == 0)
        {
            return 0;
        }

        _occurrences.Clear();
        _marks.ChangedFrom(0);
        var told = new HashSet<Digest>();
        foreach (var entry in _entries.Values)
        {
            if (_corrections.StandsAlone(entry))
            {
                if (ReferenceEquals(_corrections.Find(entry.Id), entry))
                {
                    _occurrences.Add(new Occurrence(entry, entry, false));
                }
            }
            else if (!told.Contains(entry.Digest))
            {
                var component = _corrections.Component(entry);
                foreach (var member in component)
                {
                    told.Add(member.Digest);
                }

                _occurrences.AddRange(_corrections.Tell(component));
            }
        }

        _occurrences.Sort(OrderOfTelling.Instance);
        return fresh.Count;
    }

    /// <summary>
    /// What does not agree in the journal itself: rival corrections, two entries with one number or one identity,
    /// a chain that does not hold, a correction of something that is not here, facts that cannot be read.
    /// </summary>
    public IReadOnlyList<Remark> Conflicts() => JournalConflicts.Of(this, _corrections);

    /// <summary>The state of the index by subject, with its checkpoints, for storing.</summary>
    public Folding<SubjectIndex> IndexFolding => _index;

    private SubjectIndex Index() => _index.State(_occurrences);

    // Puts an entry into the set; gives it back without its facts if they are erased.
    private bool Take(ref Entry entry)
    {
        if (AsKnownAt is { } known && entry.Envelope.Written > known)
        {
            // What was erased since stays erased, also in "as it was known then".
            if (entry.Envelope.Correction is { Kind: CorrectionKind.Erases } later)
            {
                Erase(later.Target);
            }

            return false;
        }

        if (_entries.ContainsKey(entry.Digest))
        {
            return false;
        }

        if (_erased.Contains(entry.Id))
        {
            entry = entry.Erased();
        }

        _entries.Add(entry.Digest, entry);
        _corrections.Add(entry);
        if (entry.Envelope.Correction is { Kind: CorrectionKind.Erases } erasure)
        {
            Erase(erasure.Target);
        }

        return true;
    }

    private void Erase(EntryId target)
    {
        if (!_erased.Add(target))
        {
            return;
        }

        foreach (var held in _entries.Values.Where(held => held.Id == target && held.HasBody).ToList())
        {
            var erased = held.Erased();
            _entries[held.Digest] = erased;
            _corrections.Exchange(held, erased);
            Retell(erased);
        }
    }

    private void Retell(Entry entry)
    {
        var component = _corrections.Component(entry);
        var members = component.Select(member => member.Id).ToHashSet();
        members.Add(entry.Id);
        for (var position = _occurrences.Count - 1; position >= 0; position--)
        {
            if (members.Contains(_occurrences[position].First.Id))
            {
                _occurrences.RemoveAt(position);
                _marks.ChangedFrom(position);
            }
        }

        foreach (var occurrence in _corrections.Tell(component))
        {
            Insert(occurrence);
        }
    }

    private void Insert(Occurrence occurrence)
    {
        var position = _occurrences.BinarySearch(occurrence, OrderOfTelling.Instance);
        position = position < 0 ? ~position : position;
        _occurrences.Insert(position, occurrence);
        _marks.ChangedFrom(position);
    }

    private static bool IsUnknown(Entry entry) =>
        Kinds.Find(entry.Envelope.Kind) is not { } kind || entry.Envelope.Version > kind.Version;
}
