using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Phone.Keeping;
using Broodtide.Workbench;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.WaterLedger;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Writing;

/// <summary>How a reading stands to what was known before it.</summary>
/// <param name="Expected">What the ledger expected.</param>
/// <param name="Fit">How it stands.</param>
public sealed record Comparison(Interval Expected, ReadingFit Fit);

/// <summary>What is told of a reading after it was written.</summary>
internal static class Answer
{
    /// <summary>What a reading means; none if it is no salinity.</summary>
    public static ReadingMeaning? Meaning(Desk desk, Entry entry) =>
        entry.Fact is ReadingTaken reading
            ? WaterMeanings.Of(desk.House, reading, entry.Envelope.Happened.Latest, SaltProduct.Unmeasured)
            : null;

    /// <summary>What the ledger expected; none where it had nothing to expect, or no number came of the reading.</summary>
    public static Comparison? Compare(Outlook outlook, EntryId first, ReadingTaken reading) =>
        reading.Vessel is { } vessel
        && outlook
            .LedgersOf(vessel)
            .SelectMany(ledger => ledger.Rows)
            .LastOrDefault(row => row.Occurrence.Id == first)
            is { Innovation: { } told, Fit: { } fit }
            ? new(Interval.FromNormal(told.Expected, told.ExpectedSd), fit)
            : null;
}
