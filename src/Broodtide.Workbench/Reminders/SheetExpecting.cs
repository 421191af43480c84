using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Reminders;

/// <summary>What the ledger, the forecast and the estimate expect a line of the sheet to find.</summary>
internal static class SheetExpecting
{
    public static SheetExpected? Of(Outlook outlook, SheetLine line, Instant at, LocalDate day)
    {
        var about = line.Action.About;
        return line.Blank switch
        {
            SheetBlank.Salinity when LedgerOf(outlook, about) is { } ledger => new(
                line.Blank,
                about,
                at,
                SalinityAt(ledger, at),
                null
            ),
            SheetBlank.Temperature when LedgerOf(outlook, about) is { Temperature.Celsius: var celsius } =>
                new(line.Blank, about, at, Interval.Exactly(celsius), null),
            SheetBlank.Counted when AliveIn(outlook, about) is { } alive => new(
                line.Blank,
                about,
                outlook.Now,
                alive,
                null
            ),
            SheetBlank.Eggs when ForecastOf(outlook, about)?.WorthOfALook is { } look => new(
                line.Blank,
                about,
                at,
                null,
                look.Eyed
            ),
            SheetBlank.Hatching
                when ForecastOf(outlook, about)
                    ?.Nights.Where(night => night.Evening == day)
                    .Select(night => (Probability?)night.Chance)
                    .FirstOrDefault()
                    is { } chance => new(line.Blank, about, at, null, chance),
            _ => null,
        };
    }

    private static VesselLedger? LedgerOf(Outlook outlook, Subject about) =>
        about.Kind is SubjectKind.Vessel
        && outlook.LedgerOf(new VesselId(about.Id)) is { Ended: false } ledger
            ? ledger
            : null;

    private static Hatching.BroodForecast? ForecastOf(Outlook outlook, Subject about) =>
        about.Kind is SubjectKind.Brood
            ? outlook.Forecasts.FirstOrDefault(forecast => forecast.Brood.Value == about.Id)
            : null;

    // The ledger looks ahead of now; the last point before the instant holds until the next.
    private static Interval SalinityAt(VesselLedger ledger, Instant at)
    {
        var expected = ledger.SalinityPpt;
        foreach (var point in ledger.Track)
        {
            if (point.At > ledger.Now && point.At <= at)
            {
                expected = point.SalinityPpt;
            }
        }

        return expected;
    }

    private static Interval? AliveIn(Outlook outlook, Subject about)
    {
        if (about.Kind is not SubjectKind.Vessel)
        {
            return null;
        }

        var vessel = new VesselId(about.Id);
        return
            outlook.PopulationIn(vessel) is { } population
            && outlook.EstimateAtHand(population) is { } estimate
            ? estimate.Vessels.FirstOrDefault(part => part.Id == vessel)?.Now.Alive
            : null;
    }
}
