using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Workbench.BadDays;

/// <summary>Who bears an absence unfed, and for how long; all others are to be portioned by the keeper.</summary>
internal static class AwayFasting
{
    /// <summary>Grown animals live on what grows in their tank for so long. Common practice, no source.</summary>
    public const int MostDays = 7;

    /// <summary>A vessel of which no advice was worked out.</summary>
    public static AwayVessel Unadvised(AwayVessel plain, Vessel vessel, int days) =>
        vessel.Role is VesselRole.EggVessel ? plain with { Remarks = [new Remark("badday-away-eggs")] }
        : !HoldsAdults(vessel)
            ? plain with
            {
                FoodNotKnown = true,
                Remarks = [new Remark("badday-away-feed-not-known")],
            }
        : days <= MostDays ? plain with { Remarks = [new Remark("badday-away-adults")] }
        : plain with { FoodNotKnown = true, Remarks = [new Remark("badday-away-feed-little")] };

    /// <summary>Whether a vessel is one for grown animals.</summary>
    public static bool HoldsAdults(Vessel vessel) =>
        vessel.Role is VesselRole.BroodTank or VesselRole.HatchingBox && WayHome.Began(vessel) is null;
}
