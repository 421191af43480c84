using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety.Mending;

/// <summary>The sea water that a vessel's water would be changed for.</summary>
/// <param name="Store">The vessel it stands ready in; none where it is still to be made, as salty as the vessel.</param>
/// <param name="Salinity">Its salinity.</param>
/// <param name="Celsius">Its temperature, degC.</param>
/// <param name="Content">What is in it.</param>
public sealed record NewWater(VesselId? Store, Salinity Salinity, double Celsius, IncomingWater Content)
{
    // Sea water that is kept ready for larvae: what stands in a store below this is for something else.
    private const double LeastSalinity = 10;

    /// <summary>
    /// The stored sea water that is nearest in salinity; where none stands ready, water made for the purpose: as salty and
    /// as warm as the vessel's own, at rest with room air.
    /// </summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">Salinity of the vessel now.</param>
    /// <param name="celsius">Temperature of the vessel now, degC.</param>
    public static NewWater For(Outlook outlook, Salinity vessel, double celsius) =>
        outlook
            .House.Vessels.Where(store => store.Role is VesselRole.Store)
            .Select(store => (store.Id, Ledger: outlook.LedgerOf(store.Id)))
            .Where(store => store.Ledger is { SalinityPpt.Middle: >= LeastSalinity, Litres.Middle: > 0.1 })
            .OrderBy(store => Math.Abs(store.Ledger!.SalinityPpt.Middle - vessel.Practical))
            .Select(store => new NewWater(
                store.Id,
                Salinity.FromPractical(store.Ledger!.SalinityPpt.Middle),
                store.Ledger.Temperature.Celsius,
                IncomingWater.Clean
            ))
            .FirstOrDefault()
        ?? new NewWater(null, vessel, celsius, IncomingWater.Clean);
}
