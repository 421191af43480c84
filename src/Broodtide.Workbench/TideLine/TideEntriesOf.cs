using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.TideLine;

/// <summary>Entries of the journal as marks of a picture.</summary>
internal static class TideEntriesOf
{
    public static IReadOnlyList<TideEntry> Told(IEnumerable<Occurrence> occurrences) =>
        [
            .. occurrences
                .DistinctBy(occurrence => occurrence.Id)
                .OrderBy(occurrence => occurrence, OrderOfTelling.Instance)
                .Select(occurrence => new TideEntry(
                    occurrence.Happened.Middle,
                    MarkOf(occurrence.Fact),
                    occurrence.Id.Value,
                    occurrence.IsCorrected,
                    occurrence.Author.Name
                )),
        ];

    public static TideEntryMark MarkOf(Fact fact) =>
        fact switch
        {
            ReadingTaken or CellsCounted or LarvaeMeasured => TideEntryMark.Reading,
            WaterMoved moved => IsTopUp(moved) ? TideEntryMark.TopUp : TideEntryMark.WaterChange,
            VesselFilled or VesselSiphoned or CultureHarvested => TideEntryMark.WaterChange,
            VesselEmptied or RunEnded => TideEntryMark.Ended,
            VesselFed => TideEntryMark.Fed,
            LightChanged or AirChanged or HeaterChanged or FilterChanged => TideEntryMark.Light,
            CountMade or JuvenilesCounted => TideEntryMark.Count,
            StageSampleTaken => TideEntryMark.StageSample,
            DeadRemoved => TideEntryMark.Dead,
            CollectionMade or CrossingMade => TideEntryMark.Crossing,
            CohortsMoved or CohortsMerged or CohortSplit => TideEntryMark.Moved,
            SettlementSeen => TideEntryMark.Settled,
            JuvenilesReturned => TideEntryMark.Returned,
            PhotoAdded => TideEntryMark.Photo,
            UnknownFact => TideEntryMark.NeedsNewerVersion,
            _ => TideEntryMark.Note,
        };

    /// <summary>Whether fresh water was poured in from outside.</summary>
    public static bool IsTopUp(WaterMoved moved) =>
        moved is { From: null, To: not null, Mix: null, Evaporated: false }
        && moved.Salinity is not { Value: > 0 };
}
