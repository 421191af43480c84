using Broodtide.Domain;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.TideLine;

/// <summary>The small picture of a vessel's salinity.</summary>
public static class LedgerRecordOf
{
    private static readonly Duration Before = Duration.FromDays(7);
    private static readonly Duration After = Duration.FromDays(3);

    /// <summary>The salinity of the water that stands in a vessel now.</summary>
    /// <param name="outlook">What is computed.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="before">How far back; a week if left out, never before the filling.</param>
    /// <param name="after">How far ahead; three days if left out.</param>
    /// <returns>The record; none when the vessel is empty or never held any.</returns>
    public static LedgerRecord? Vessel(
        Outlook outlook,
        VesselId vessel,
        Duration? before = null,
        Duration? after = null
    )
    {
        if (outlook.LedgerOf(vessel) is not { } ledger)
        {
            return null;
        }

        var view = outlook.House.Vessel(vessel);
        var band = outlook.Profiles.BandOf(view);
        var earliest = ledger.Track.Count > 0 ? ledger.Track[0].At : outlook.Now;
        VesselLedger[] one = [ledger];
        return new LedgerRecord
        {
            VesselName = view.Name ?? "",
            Now = outlook.Now,
            Zone = outlook.Zone,
            From = Instant.Min(outlook.Now, Instant.Max(earliest, outlook.Now - (before ?? Before))),
            To = outlook.Now + (after ?? After),
            Salinity = TideVesselsOf.Rows(one),
            NotFresherThanPpt = band?.Lower.Practical,
            NotSaltierThanPpt = band?.Upper.Practical,
            Readings = TideVesselsOf.Readings(one),
            TopUps = TideVesselsOf.TopUps(one, vessel),
        };
    }
}
