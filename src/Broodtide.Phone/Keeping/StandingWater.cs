using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Browser;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Mixing;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Keeping;

/// <summary>A vessel of the house with the water that stands in it by its ledger.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Water">Its water now; none when it is empty or never held any.</param>
/// <param name="SalinityPpt">Its salinity with its interval, where there is water.</param>
internal sealed record VesselWater(Vessel Vessel, WaterBody? Water, Interval? SalinityPpt)
{
    public VesselId Id => Vessel.Id;

    public bool IsEmpty => Water is null;
}

/// <summary>The waters that stand in the house now, told anew when the journal or the quarter of an hour changes.</summary>
internal sealed class StandingWater(Desk desk, PhoneClock clock)
{
    private static readonly Duration Fresh = Duration.FromMinutes(15);

    private House? _house;
    private Instant _told;
    private IReadOnlyList<VesselWater> _waters = [];
    private HouseProfiles? _profiles;

    /// <summary>Every vessel that has a name, first named first.</summary>
    public IReadOnlyList<VesselWater> All
    {
        get
        {
            Renew();
            return _waters;
        }
    }

    /// <summary>Whose numbers apply.</summary>
    public HouseProfiles Profiles
    {
        get
        {
            Renew();
            return _profiles!;
        }
    }

    public VesselWater? Of(VesselId? vessel) =>
        vessel is { } id ? All.FirstOrDefault(water => water.Id == id) : null;

    private void Renew()
    {
        var now = clock.GetCurrentInstant();
        if (ReferenceEquals(_house, desk.House) && now - _told < Fresh)
        {
            return;
        }

        (_house, _told) = (desk.House, now);
        _profiles = new HouseProfiles(desk.House, now);
        var outlook = desk.OutlookAt(now);
        _waters =
        [
            .. desk
                .House.Vessels.Where(vessel => vessel.Name is not null)
                .Select(vessel => Told(outlook, vessel)),
        ];
    }

    private static VesselWater Told(Outlook outlook, Vessel vessel) =>
        vessel.Standing is not null && outlook.LedgerOf(vessel.Id) is { } ledger
            ? new(
                vessel,
                new WaterBody(
                    Volume.FromLitres(Math.Max(0, ledger.Litres.Middle)),
                    Salinity.FromPractical(Math.Max(0, ledger.SalinityPpt.Middle)),
                    ledger.Temperature
                ),
                ledger.SalinityPpt
            )
            : new(vessel, null, null);
}
