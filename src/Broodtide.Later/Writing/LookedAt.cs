using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Browser;

namespace Broodtide.Phone.Writing;

/// <summary>The vessel that was last looked at on this phone: the likeliest one to write about.</summary>
internal static class LookedAt
{
    private const string Setting = "looked-at";

    /// <summary>Remembers a vessel.</summary>
    public static void Keep(VesselId vessel) => Glue.WriteSetting(Setting, vessel.Value.ToString());

    /// <summary>
    /// The one last looked at; else the newest larval vessel with water in it; else any vessel, those with water
    /// first.
    /// </summary>
    public static Vessel? Likeliest(House house)
    {
        var vessels = house.Vessels.ToList();
        return (
                Guid.TryParse(Glue.ReadSetting(Setting), out var last)
                    ? vessels.Find(vessel => vessel.Id.Value == last)
                    : null
            )
            ?? vessels.FindLast(vessel => vessel is { Role: VesselRole.LarvalVessel, Standing: not null })
            ?? vessels.FindLast(vessel => vessel.Standing is not null)
            ?? vessels.LastOrDefault();
    }
}
