using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.WaterLedger;

/// <content>
/// Ledgers that are gone on with from one opening of the journal to the next. What was kept is offered, and believed where it fits;
/// such an account knows the water that stands, not what was thrown away before.
/// </content>
internal sealed partial class LedgersKept
{
    private readonly Dictionary<EntryId, byte[]> _offered = [];
    private readonly Dictionary<EntryId, LedgerTelling> _resumed = [];
    private readonly HashSet<LedgerTelling> _handedOut = [];

    /// <summary>Offers what was kept from an earlier opening.</summary>
    public void Offer(IEnumerable<Checkpoint> checkpoints)
    {
        foreach (var (first, bytes) in checkpoints.SelectMany(LedgerCheckpoint.Read))
        {
            _offered[first] = bytes;
        }
    }

    /// <summary>
    /// An account of a group that begins where one was kept, or goes on from there; none where nothing that was kept fits, or
    /// where the whole account is at hand already.
    /// </summary>
    public LedgerTelling? Resumed(LedgerScene scene, IReadOnlyList<Occurrence> occurrences)
    {
        if (occurrences.Count == 0)
        {
            return null;
        }

        var first = occurrences[0].Id;
        if (_tellings.TryGetValue(first, out var whole) && whole.MayGoOn(scene, occurrences))
        {
            return null;
        }

        if (_resumed.TryGetValue(first, out var resumed) && resumed.MayGoOn(scene, occurrences))
        {
            return resumed;
        }

        _resumed.Remove(first);
        if (
            _offered.TryGetValue(first, out var kept)
            && LedgerTelling.From(kept, LedgerErrors.Usual, scene, occurrences) is { } telling
        )
        {
            return _resumed[first] = telling;
        }

        return null;
    }

    /// <summary>The ledgers of a group by one account in pieces, nothing in each but the last.</summary>
    public IEnumerable<IReadOnlyList<VesselLedger>?> InPieces(
        LedgerTelling telling,
        LedgerScene scene,
        IReadOnlyList<Occurrence> occurrences
    )
    {
        var before = telling.Taken;
        foreach (var told in telling.InPieces(scene, occurrences))
        {
            Taken += telling.Taken - before;
            before = telling.Taken;
            yield return told;
        }
    }

    /// <summary>What is worth keeping for the next opening; none where nothing new came of it since it was asked last.</summary>
    /// <param name="groups">The groups there are.</param>
    public Checkpoint? TakeCheckpoint(IReadOnlyList<LedgerGroup> groups)
    {
        var isNew = false;
        var kept = new List<(EntryId First, byte[] Bytes)>();
        foreach (var first in groups.Where(group => group.Occurrences.Count > 0).Select(First))
        {
            var telling = Telling(first);
            isNew |= telling is { IsKeptAnew: true } && _handedOut.Add(telling);
            if ((telling?.Kept ?? _offered.GetValueOrDefault(first)) is { } bytes)
            {
                kept.Add((first, bytes));
                _offered[first] = bytes;
            }
        }

        return isNew ? LedgerCheckpoint.Write(kept) : null;

        static EntryId First(LedgerGroup group) => group.Occurrences[0].Id;
    }

    // What was kept before and was gone on from is kept on, until enough came after it.
    private LedgerTelling? Telling(EntryId first)
    {
        var (whole, resumed) = (_tellings.GetValueOrDefault(first), _resumed.GetValueOrDefault(first));
        return
            whole?.Kept is not null
            && (resumed is null || whole.KeptAt - resumed.KeptAt >= LedgerTelling.WorthKeeping)
            ? whole
            : resumed;
    }
}
