using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>The vessels of a brood's larvae, as its tide line shows them.</summary>
internal static class TideVesselsOf
{
    public static TideVessel Of(Outlook outlook, VesselId id, IReadOnlyList<Cohort> cohorts)
    {
        var from = cohorts
            .SelectMany(cohort => cohort.Groups)
            .Where(group => group.Vessel == id)
            .Min(group => group.Since.Earliest);
        var ledgers = LedgersSince(outlook, id, from);
        var (split, joined) = Links(outlook.House, id, cohorts);
        return new TideVessel
        {
            Id = id.Value,
            Name = outlook.House.Vessel(id).Name ?? "",
            Salinity = WasKnown(ledgers) ? Rows(ledgers) : [],
            Readings = Readings(ledgers),
            TopUps = TopUps(ledgers, id),
            SplitFrom = split,
            JoinedInto = joined,
        };
    }

    public static IReadOnlyList<TideRow> Rows(IEnumerable<VesselLedger> ledgers) =>
        [
            .. ledgers
                .SelectMany(ledger => ledger.Track)
                .OrderBy(point => point.At)
                .Select(point => new TideRow(point.At, point.SalinityPpt)),
        ];

    public static IReadOnlyList<TideReading> Readings(IEnumerable<VesselLedger> ledgers) =>
        [
            .. ledgers
                .SelectMany(ledger => ledger.Rows)
                .Where(row =>
                    row is { Innovation: not null, Occurrence.Fact: Domain.Readings.ReadingTaken reading }
                    && reading.Value.KnownUnit()?.Dimension is Dimension.Salinity
                )
                .Select(row => new TideReading(
                    row.When,
                    Interval.FromNormal(row.Innovation!.Value.Seen, row.Innovation.Value.SeenSd).AtLeast(0),
                    row.Fit is ReadingFit.Fits or ReadingFit.Confirmed
                )),
        ];

    public static IReadOnlyList<TideTopUp> TopUps(IEnumerable<VesselLedger> ledgers, VesselId id) =>
        [
            .. ledgers
                .SelectMany(ledger => ledger.Rows)
                .Where(row =>
                    row.Occurrence.Fact is WaterMoved moved
                    && moved.To == id
                    && TideEntriesOf.IsTopUp(moved)
                    && moved.Volume.AsVolume() is not null
                )
                .Select(row => new TideTopUp(
                    row.When,
                    ((WaterMoved)row.Occurrence.Fact).Volume.AsVolume()!.Value.Millilitres
                )),
        ];

    private static List<VesselLedger> LedgersSince(Outlook outlook, VesselId id, Instant from)
    {
        var fills = outlook.House.Vessel(id).Fills;
        return
        [
            .. outlook
                .LedgersOf(id)
                .Where(ledger =>
                    ledger.FillNumber >= fills.Count
                    || fills[ledger.FillNumber].Ended is not { } ended
                    || ended.Latest >= from
                ),
        ];
    }

    // Somebody said how salt the water was, in filling it or by a reading.
    private static bool WasKnown(IEnumerable<VesselLedger> ledgers) =>
        ledgers
            .SelectMany(ledger => ledger.Rows)
            .Any(row =>
                row.Fit is ReadingFit.Fits or ReadingFit.Confirmed
                || row.Occurrence.Fact
                    is VesselFilled { Salinity: not null }
                        or WaterMoved { Salinity: not null }
                        or WaterMoved { Mix: not null }
            );

    private static (TideLink? Split, TideLink? Joined) Links(
        House house,
        VesselId id,
        IReadOnlyList<Cohort> cohorts
    )
    {
        TideLink? split = null;
        TideLink? joined = null;
        var crossedInto = cohorts.Any(cohort =>
            cohort.Crossed is { } crossed
            && cohort.Groups.Any(group => group.Vessel == id && group.Since == crossed)
        );
        var subjects = cohorts.Select(cohort => Subject.Of(cohort.Id)).Append(Subject.Of(id));
        foreach (
            var occurrence in subjects
                .SelectMany(subject =>
                    house.Told<CohortSplit>(subject).Concat(house.Told<CohortsMoved>(subject))
                )
                .DistinctBy(occurrence => occurrence.Id)
                .OrderBy(occurrence => occurrence, OrderOfTelling.Instance)
        )
        {
            var at = occurrence.Happened.Middle;
            switch (occurrence.Fact)
            {
                case CohortSplit part when part.To == id && part.From != id && !crossedInto:
                    split ??= new(at, part.From.Value);
                    break;
                case CohortsMoved moved when moved.To == id && moved.From != id && !crossedInto:
                    split ??= new(at, moved.From.Value);
                    break;
                case CohortsMoved { Number: null } moved when moved.From == id && moved.To != id:
                    joined = new(at, moved.To.Value);
                    break;
                default:
                    break;
            }
        }

        return (split, joined);
    }
}
