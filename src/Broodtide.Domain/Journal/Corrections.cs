namespace Broodtide.Domain.Journal;

/// <summary>How an entry stands in the journal after all corrections.</summary>
public enum Standing
{
    /// <summary>Its words stand.</summary>
    Stands,

    /// <summary>Another entry tells the same fact better.</summary>
    Replaced,

    /// <summary>It was taken back.</summary>
    TakenBack,

    /// <summary>A rival correction, written later, stands instead.</summary>
    LostToRival,

    /// <summary>It takes another entry back, or had it erased.</summary>
    TakesBack,

    /// <summary>Its facts were removed.</summary>
    Erased,
}

/// <summary>
/// Which words stand in a set of entries. Everything here is a function of the set: the order of arrival does not
/// enter. Every correction of one entry competes; the latest by (written, replica, running number) stands. A
/// correction that was itself taken back does not compete.
/// </summary>
internal sealed class Corrections
{
    private readonly Dictionary<EntryId, Entry> _byId = [];
    private readonly Dictionary<EntryId, List<Entry>> _aimedAt = [];

    public void Add(Entry entry)
    {
        // Of two entries with one identity the first by writing counts, wherever it arrived.
        if (!_byId.TryGetValue(entry.Id, out var twin) || OrderOfTelling.ByWriting(entry, twin) < 0)
        {
            _byId[entry.Id] = entry;
        }

        if (entry.Envelope.Correction is { } correction)
        {
            if (!_aimedAt.TryGetValue(correction.Target, out var list))
            {
                _aimedAt[correction.Target] = list = [];
            }

            list.Add(entry);
        }
    }

    /// <summary>The same entry in another shape (facts removed).</summary>
    public void Exchange(Entry before, Entry after)
    {
        if (_byId.TryGetValue(before.Id, out var held) && ReferenceEquals(held, before))
        {
            _byId[before.Id] = after;
        }

        if (before.Envelope.Correction is { } correction)
        {
            var list = _aimedAt[correction.Target];
            list[list.IndexOf(before)] = after;
        }
    }

    public Entry? Find(EntryId id) => _byId.GetValueOrDefault(id);

    /// <summary>Whether an entry stands alone: it corrects nothing and nothing corrects it.</summary>
    public bool StandsAlone(Entry entry) =>
        entry.Envelope.Correction is null && !_aimedAt.ContainsKey(entry.Id);

    /// <summary>All entries that are tied to this one by corrections, itself included.</summary>
    public List<Entry> Component(Entry start)
    {
        var found = new HashSet<EntryId> { start.Id };
        var members = new List<Entry>();
        var open = new Stack<EntryId>([start.Id]);
        while (open.TryPop(out var id))
        {
            if (_byId.TryGetValue(id, out var entry))
            {
                members.Add(entry);
                if (entry.Envelope.Correction is { } correction && found.Add(correction.Target))
                {
                    open.Push(correction.Target);
                }
            }

            foreach (var correction in AimedAt(id))
            {
                if (found.Add(correction.Id))
                {
                    open.Push(correction.Id);
                }
            }
        }

        members.Sort(OrderOfTelling.ByWriting);
        return members;
    }

    /// <summary>What a component tells: one occurrence for each root that still stands.</summary>
    public IEnumerable<Occurrence> Tell(List<Entry> component)
    {
        var reached = new HashSet<EntryId>();
        foreach (var entry in component)
        {
            if (IsRoot(entry) && Occurrence(entry, reached) is { } occurrence)
            {
                yield return occurrence;
            }
        }

        // Entries that only correct each other in a ring have no root: the first by writing serves as one.
        foreach (var entry in component)
        {
            if (TellsSomething(entry) && !reached.Contains(entry.Id) && !LeadsToRoot(entry))
            {
                if (Occurrence(entry, reached) is { } occurrence)
                {
                    yield return occurrence;
                }
            }
        }
    }

    public Standing StandingOf(Entry entry)
    {
        if (!entry.HasBody)
        {
            return Standing.Erased;
        }

        if (!TellsSomething(entry))
        {
            return Withdrawn(entry, []) ? Standing.TakenBack : Standing.TakesBack;
        }

        if (Withdrawn(entry, []))
        {
            return Standing.TakenBack;
        }

        var component = Component(entry);
        foreach (var occurrence in Tell(component))
        {
            if (occurrence.Told.Id == entry.Id)
            {
                return Standing.Stands;
            }
        }

        return Competing(entry.Id).Any(TellsSomething) ? Standing.Replaced : Standing.LostToRival;
    }

    /// <summary>Corrections whose target is not here (yet).</summary>
    public IEnumerable<Entry> Orphans() =>
        _aimedAt.Where(aimed => !_byId.ContainsKey(aimed.Key)).SelectMany(aimed => aimed.Value);

    /// <summary>The corrections of one entry that compete, and whether there is more than one.</summary>
    public IEnumerable<Entry> Rivals(EntryId id) => Competing(id);

    private static bool TellsSomething(Entry entry) =>
        entry.Envelope.Correction is null or { Kind: CorrectionKind.Replaces };

    private bool IsRoot(Entry entry) =>
        entry.Envelope.Correction switch
        {
            null => true,
            { Kind: CorrectionKind.Replaces } correction => !_byId.TryGetValue(
                correction.Target,
                out var target
            )
                // "Told better" of something that told nothing is a fact of its own.
                || !TellsSomething(target),
            _ => false,
        };

    private bool LeadsToRoot(Entry entry)
    {
        var seen = new HashSet<EntryId>();
        while (seen.Add(entry.Id))
        {
            if (IsRoot(entry))
            {
                return true;
            }

            if (
                entry.Envelope.Correction is not { } correction
                || !_byId.TryGetValue(correction.Target, out var target)
            )
            {
                return true;
            }

            entry = target;
        }

        return false;
    }

    private Occurrence? Occurrence(Entry root, HashSet<EntryId> reached)
    {
        var told = root;
        var hasRivals = false;
        var mayBeWithdrawn = root.Envelope.Correction is not null;
        reached.Add(root.Id);
        if (mayBeWithdrawn && Withdrawn(root, []))
        {
            return null;
        }

        while (true)
        {
            Entry? latest = null;
            var number = 0;
            foreach (var correction in Competing(told.Id))
            {
                number++;
                latest =
                    latest is null || OrderOfTelling.ByWriting(correction, latest) > 0 ? correction : latest;
            }

            hasRivals |= number > 1;
            if (latest is null)
            {
                return new Occurrence(told, root, hasRivals);
            }

            if (!TellsSomething(latest))
            {
                return null;
            }

            if (!reached.Add(latest.Id))
            {
                return new Occurrence(told, root, hasRivals);
            }

            told = latest;
        }
    }

    private IEnumerable<Entry> Competing(EntryId id) =>
        AimedAt(id)
            .Where(correction =>
                correction.Envelope.Correction is { Kind: not CorrectionKind.Erases }
                && !Withdrawn(correction, [])
            );

    // A correction is withdrawn when a retraction of it stands that is not itself withdrawn.
    private bool Withdrawn(Entry correction, HashSet<EntryId> asked) =>
        correction.Envelope.Correction is not null
        && asked.Add(correction.Id)
        && AimedAt(correction.Id)
            .Any(by => by.Envelope.Correction is { Kind: CorrectionKind.Retracts } && !Withdrawn(by, asked));

    private List<Entry> AimedAt(EntryId id) => _aimedAt.GetValueOrDefault(id) ?? Nothing;

    private static readonly List<Entry> Nothing = [];
}
