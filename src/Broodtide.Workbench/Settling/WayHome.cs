using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// Whether the water of a vessel is itself on its way to fresh water. It is written as juveniles returned out of a vessel
/// into the same one, when the first change is made: from then on nobody minds its salinity, and those in it count as
/// juveniles.
/// </summary>
public static class WayHome
{
    /// <summary>Whether settled ones were seen in the water that stands in a vessel.</summary>
    /// <param name="vessel">The vessel.</param>
    public static bool SettledSeen(Vessel vessel) =>
        vessel.Standing?.Occurrences.Any(told => told.Fact is SettlementSeen) is true;

    /// <summary>When the water that stands in a vessel began its way; none where it did not.</summary>
    /// <param name="vessel">The vessel.</param>
    public static Instant? Began(Vessel vessel) =>
        vessel
            .Standing?.Occurrences.Where(told =>
                told.Fact is JuvenilesReturned home && home.From == home.To && home.To == vessel.Id
            )
            .Select(told => (Instant?)told.Happened.Latest)
            .FirstOrDefault();
}
