using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Domain.Tests.Kit;

/// <summary>
/// The plain twin of the account: what a set of entries tells, worked out from nothing by recursion over lists, as
/// slowly as it likes. Shares no code with the account but the entries.
/// </summary>
internal sealed class NaiveAccount
{
    private readonly List<Entry> _here;
    private readonly HashSet<EntryId> _erased;

    public NaiveAccount(IEnumerable<Entry> entries, Instant? asKnownAt = null)
    {
        var all = entries.ToList();
        _erased = [.. all.Where(IsErasure).Select(entry => entry.Envelope.Correction!.Value.Target)];
        _here =
        [
            .. all.Where(entry => asKnownAt is null || entry.Envelope.Written <= asKnownAt)
                .GroupBy(entry => entry.Id)
                .Select(twins => twins.OrderBy(Rank).First()),
        ];
    }

    /// <summary>One line an occurrence: what is told, what it began with, whether there were rivals, whether the facts are here.</summary>
    public List<string> Tell()
    {
        // A tree hangs from an entry without a target, from an identity that is not here, or from the first of a ring.
        var tops = _here
            .Where(entry => Target(entry) is null)
            .Select(entry => entry.Id)
            .Concat(_here.Select(Target).OfType<EntryId>().Where(id => Find(id) is null))
            .Concat(_here.Select(FirstOfRing).OfType<EntryId>())
            .Distinct();
        return
        [
            .. tops.Select(Path)
                .Where(path => path.Count > 0 && Find(path[^1]) is { } last && Tells(last))
                .OrderBy(path => Find(path[^1])!.Envelope.Happened.Earliest)
                .ThenBy(path => Find(path[^1])!.Envelope.Happened.Latest)
                .ThenBy(path => Rank(Find(path[^1])!))
                .Select(Line),
        ];
    }

    private string Line(List<EntryId> path)
    {
        var told = Find(path[^1])!;
        var first = path.Select(Find).First(entry => entry is not null && Tells(entry))!;
        var rivals = path.Exists(id => Competing(id).Count > 1);
        return $"{told.Digest} {first.Digest} {rivals} {!_erased.Contains(told.Id)}";
    }

    private List<EntryId> Path(EntryId top)
    {
        var path = new List<EntryId> { top };
        while (Competing(path[^1]) is { Count: > 0 } competing)
        {
            path.Add(competing[^1].Id);
        }

        return path;
    }

    private List<Entry> Competing(EntryId id) =>
        [
            .. _here
                .Where(entry => Target(entry) == id && FirstOfRing(entry) != entry.Id && !IsTakenBack(entry))
                .OrderBy(Rank),
        ];

    private bool IsTakenBack(Entry entry)
    {
        var end = Path(entry.Id)[^1];
        return end != entry.Id && Find(end)!.Envelope.Correction is { Kind: CorrectionKind.Retracts };
    }

    // The first by writing of the ring that an entry is in, or none.
    private EntryId? FirstOfRing(Entry entry)
    {
        var ring = new List<Entry> { entry };
        while (Target(ring[^1]) is { } target && Find(target) is { } next && ring.Count <= _here.Count)
        {
            if (next.Id == entry.Id)
            {
                return ring.OrderBy(Rank).First().Id;
            }

            ring.Add(next);
        }

        return null;
    }

    private Entry? Find(EntryId id) => _here.Find(entry => entry.Id == id);

    private static EntryId? Target(Entry entry) =>
        IsErasure(entry) ? null : entry.Envelope.Correction?.Target;

    private static bool IsErasure(Entry entry) =>
        entry.Envelope.Correction is { Kind: CorrectionKind.Erases };

    private static bool Tells(Entry entry) =>
        entry.Envelope.Correction is null || entry.Envelope.Correction.Value.Kind == CorrectionKind.Replaces;

    private static (Instant, Guid, long, string) Rank(Entry entry) =>
        (
            entry.Envelope.Written,
            entry.Envelope.Replica.Value,
            entry.Envelope.Sequence,
            entry.Digest.ToString()
        );
}
