using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// Volume, salt and salinity of every vessel, from what was poured and what was read, each with its error. Vessels
/// that exchange water are believed jointly, so a reading of one tells of the others.
/// </summary>
public static class Ledger
{
    /// <summary>The ledgers of all fills, in the order of vessels.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="meaning">What numbers mean as salinity.</param>
    /// <param name="band">The band of a vessel; none for one whose salinity is not minded.</param>
    /// <param name="now">The instant the present is told for.</param>
    /// <param name="errors">How far off moves usually are.</param>
    /// <param name="means">What sensors showed of the waters, by time; nothing if left out.</param>
    public static IReadOnlyList<VesselLedger> Of(
        House house,
        WaterMeaning meaning,
        Func<Vessel, SalinityBand?> band,
        Instant now,
        LedgerErrors? errors = null,
        IReadOnlyList<WaterMean>? means = null
    ) =>
        [
            .. LedgerGroups
                .Of(house)
                .SelectMany(group =>
                    new LedgerTelling(errors ?? LedgerErrors.Usual).Tell(
                        new LedgerScene(house, group.Fills, meaning, band, now).Hearing(means ?? []),
                        group.Occurrences
                    )
                ),
        ];

    /// <summary>The ledger of the water that stands in a vessel now; none when it is empty or never held any.</summary>
    public static VesselLedger? Standing(IEnumerable<VesselLedger> ledgers, VesselId vessel) =>
        ledgers.LastOrDefault(ledger => ledger.Vessel == vessel && !ledger.Ended);

    /// <summary>The same of every vessel whose water stands.</summary>
    internal static Dictionary<VesselId, VesselLedger> Standing(IEnumerable<VesselLedger> ledgers)
    {
        var standing = new Dictionary<VesselId, VesselLedger>();
        foreach (var ledger in ledgers.Where(ledger => !ledger.Ended))
        {
            standing[ledger.Vessel] = ledger;
        }

        return standing;
    }
}
