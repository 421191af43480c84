using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// Ledgers that are gone on with from one outlook to the next: each group from where it was told to, if what was told
/// still holds, else anew.
/// </summary>
internal sealed partial class LedgersKept
{
    private const int OccurrencesAtOnce = 256;

    private readonly GroupedFills _groups = new();
    private readonly Dictionary<EntryId, LedgerTelling> _tellings = [];

    /// <summary>How many occurrences were taken in so far, each as often as it was.</summary>
    public int Taken { get; private set; }

    /// <summary>The groups of a house.</summary>
    public IReadOnlyList<LedgerGroup> GroupsOf(House house) => _groups.Of(house);

    /// <summary>Groups the fills of a house that none were grouped of yet, in pieces.</summary>
    public IEnumerable<LedgerGroup?> PrepareGroups(House house) => _groups.Prepare(house, OccurrencesAtOnce);

    /// <summary>The ledgers of a group in pieces, nothing in each but the last; the same as told anew.</summary>
    public IEnumerable<IReadOnlyList<VesselLedger>?> InPieces(
        LedgerScene scene,
        IReadOnlyList<Occurrence> occurrences
    )
    {
        if (occurrences.Count == 0)
        {
            yield return [];
            yield break;
        }

        var first = occurrences[0].Id;
        if (!_tellings.TryGetValue(first, out var telling) || !telling.MayGoOn(scene, occurrences))
        {
            // What was kept and still fits stays kept: the whole account does not replace it.
            _ = Resumed(scene, occurrences);
            _tellings[first] = telling = new LedgerTelling(LedgerErrors.Usual);
        }

        foreach (var told in InPieces(telling, scene, occurrences))
        {
            yield return told;
        }
    }
}
