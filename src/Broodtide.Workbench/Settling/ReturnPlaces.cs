using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Settling;

/// <summary>Where a return goes if nobody says: into the nursery that stands, with plenty of fresh water as warm as the vessel.</summary>
public static class ReturnPlaces
{
    private const double PlentyLitres = 100;
    private const double EmptyNurseryLitres = 10;
    private const double UsualCelsius = 24;

    /// <summary>The order of a vessel.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The larval vessel.</param>
    public static ReturnOrder Order(Outlook outlook, VesselId vessel)
    {
        var warmth = outlook.LedgerOf(vessel)?.Temperature ?? Temperature.FromCelsius(UsualCelsius);
        var nursery = outlook
            .House.Vessels.Where(other => other.Role is VesselRole.Nursery && other.Id != vessel)
            .Select(other => (other.Id, Ledger: outlook.LedgerOf(other.Id)))
            .FirstOrDefault(pair => pair.Ledger is not null);
        return new()
        {
            Vessel = vessel,
            Fresh = new(Volume.FromLitres(PlentyLitres), default, warmth),
            Nursery = nursery.Ledger is { } ledger
                ? new(
                    Volume.FromLitres(Math.Max(0.1, ledger.Litres.Middle)),
                    Salinity.FromPractical(Math.Max(0, ledger.SalinityPpt.Middle)),
                    ledger.Temperature
                )
                : new(Volume.FromLitres(EmptyNurseryLitres), default, warmth),
            HardnessMilligramsPerLitre = nursery.Ledger is null
                ? null
                : HardnessRead.Of(outlook.House, nursery.Id, outlook.Now),
        };
    }
}
