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

    /// <summary>A rival stands instead: a correction written later, or an entry of the same identity written earlier.</summary>
    LostToRival,

    /// <summary>It takes another entry back, or had it erased.</summary>
    TakesBack,

    /// <summary>Its facts were removed.</summary>
    Erased,
}

/// <summary>
/// Which entry is aimed at which. Of several entries with one identity only the first by writing is held here, so
/// everything is a function of the set: the order of arrival does not enter.
/// </summary>
internal sealed class Corrections
{
    private readonly Dictionary<EntryId, Entry> _byId = [];
    private readonly Dictionary<EntryId, List<Entry>> _aimedAt = [];

    /// <summary>One entry of each identity, in no order.</summary>
    public IReadOnlyCollection<Entry> Entries => _byId.Values;

    /// <summary>Identities that more than one correction is aimed at, in order.</summary>
    public IEnumerable<EntryId> AimedAtOften =>
        _aimedAt.Where(aimed => aimed.Value.Count > 1).Select(aimed => aimed.Key).OrderBy(id => id.Value);

    public Entry? Find(EntryId id) => _byId.GetValueOrDefault(id);

    /// <summary>
    /// What an entry replaces or retracts. An erasure takes facts away but does not enter into what is told.
    /// </summary>
    public static EntryId? TargetOf(Entry? entry) =>
        entry?.Envelope.Correction is { Kind: not CorrectionKind.Erases } correction
            ? correction.Target
            : null;

    public void EnsureCapacity(int identities) => _byId.EnsureCapacity(identities);

    public void Put(Entry entry)
    {
        _byId[entry.Id] = entry;
        if (TargetOf(entry) is { } target)
        {
            if (!_aimedAt.TryGetValue(target, out var list))
            {
                _aimedAt[target] = list = [];
            }

            list.Add(entry);
        }
    }

    public void Remove(Entry entry)
    {
        _byId.Remove(entry.Id);
        if (TargetOf(entry) is { } target)
        {
            var list = _aimedAt[target];
            list.Remove(entry);
            if (list.Count == 0)
            {
                _aimedAt.Remove(target);
            }
        }
    }

    /// <summary>Whether an entry stands alone: it corrects nothing and nothing corrects it.</summary>
    public bool StandsAlone(Entry entry) => TargetOf(entry) is null && !_aimedAt.ContainsKey(entry.Id);

    /// <summary>All entries that are tied to this identity by corrections, itself included.</summary>
    public CorrectionTree TreeOf(EntryId start)
    {
        var found = new HashSet<EntryId> { start };
        var open = new Stack<EntryId>([start]);
        var members = new List<Entry>();
        while (open.TryPop(out var id))
        {
            if (_byId.TryGetValue(id, out var entry))
            {
                members.Add(entry);
                if (TargetOf(entry) is { } target && found.Add(target))
                {
                    open.Push(target);
                }
            }

            foreach (var correction in _aimedAt.GetValueOrDefault(id) ?? [])
            {
                if (found.Add(correction.Id))
                {
                    open.Push(correction.Id);
                }
            }
        }

        return new CorrectionTree(members);
    }
}
