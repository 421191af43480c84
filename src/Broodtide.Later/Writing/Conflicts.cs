using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.WaterLedger;

namespace Broodtide.Phone.Writing;

/// <summary>What does not fit, by the entry beside which it is shown.</summary>
internal static class Conflicts
{
    /// <summary>What the journal itself says.</summary>
    public static ILookup<EntryId, Remark> Of(House house) =>
        house
            .Conflicts()
            // Rivals are shown in full.
            .Where(remark => remark["entry"] is EntryId && remark.Code is not "rival-corrections")
            .ToLookup(remark => (EntryId)remark["entry"]!);

    /// <summary>The readings that do not fit their ledger.</summary>
    public static ILookup<EntryId, Remark> OfLedgers(Outlook outlook) =>
        outlook
            .Ledgers.SelectMany(ledger => ledger.Rows)
            .Where(row =>
                row.Fit is ReadingFit.DoesNotFit or ReadingFit.Overruled && row.Innovation is not null
            )
            .ToLookup(
                row => row.Occurrence.Id,
                row => new Remark(
                    row.Fit is ReadingFit.Overruled ? "reading-overruled" : "reading-does-not-fit",
                    new("expectedPpt", Math.Round(row.Innovation!.Value.Expected, 1)),
                    new("seenPpt", Math.Round(row.Innovation.Value.Seen, 1))
                )
            );
}
