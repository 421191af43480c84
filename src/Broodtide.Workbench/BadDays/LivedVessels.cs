using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.BadDays;

/// <summary>Vessels with something in them that bad days harm, how much water they hold and what it bears.</summary>
internal static class LivedVessels
{
    /// <summary>Vessels in which something lives that warmth harms, and that hold water.</summary>
    public static IEnumerable<Vessel> Of(Outlook outlook) =>
        outlook.House.Vessels.Where(vessel =>
            vessel.Standing is not null && vessel.Role is not (VesselRole.Store or VesselRole.Cup)
        );

    /// <summary>The water that stands in a vessel, litres; none where nobody told it.</summary>
    public static double? LitresOf(Outlook outlook, Vessel vessel) =>
        outlook.LedgerOf(vessel.Id) is { Litres.Middle: > 0.01 and var litres } ? litres
        : vessel.Capacity is { Litres: > 0.01 and var capacity } ? capacity
        : null;

    /// <summary>The stage whose limits hold; none for a culture.</summary>
    public static LifeStage? StageOf(Outlook outlook, Vessel vessel) =>
        SafetyTelling.StageOf(
            vessel,
            outlook.Profiles.Of(vessel),
            outlook.PopulationIn(vessel.Id) is { } population ? outlook.EstimateAtHand(population) : null
        );

    /// <summary>The warm limit of what lives in a vessel.</summary>
    public static LifeLimit? WarmLimit(Outlook outlook, Vessel vessel) =>
        StageOf(outlook, vessel) is { } stage
            ? outlook
                .Profiles.Of(vessel)
                .LimitsFor(stage)
                .FirstOrDefault(limit => limit.Quantity is LimitedQuantity.Temperature && limit.IsUpper)
            : null;
}
