using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Sensors;
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
)
{
    /// <summary>What sensors showed of the vessels of the group, by time.</summary>
    public IReadOnlyList<WaterMean> Means { get; init; } = [];

    /// <summary>The same scene with what sensors showed of its vessels; of six hours that are not over nothing.</summary>
    public LedgerScene Hearing(IReadOnlyList<WaterMean> means)
    {
        var vessels = Fills.Select(key => key.Vessel).ToHashSet();
        return this with { Means = [.. means.Where(mean => !mean.IsOpen && vessels.Contains(mean.Vessel))] };
    }
}
