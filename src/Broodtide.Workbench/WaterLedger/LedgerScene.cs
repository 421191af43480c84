using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>What a ledger is told from, beside what happened.</summary>
/// <param name="House">What is known.</param>
/// <param name="Fills">The fills of the group.</param>
/// <param name="Meaning">What numbers mean as salinity.</param>
/// <param name="Band">The band of a vessel; none for one whose salinity is not minded.</param>
/// <param name="Now">The instant the present is told for.</param>
internal sealed record LedgerScene(
    House House,
    IReadOnlySet<FillKey> Fills,
    WaterMeaning Meaning,
    Func<Vessel, SalinityBand?> Band,
    Instant Now
);
