using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// All that is given to a twin from outside, as it is or as it would be under a change: a vessel, what is around it hour by
/// hour, and what is done to it.
/// </summary>
public sealed record VesselScene
{
    /// <summary>The vessel.</summary>
    public required VesselSite Site { get; init; }

    /// <summary>What is around it: hour 0 runs from the start of the clock to 1.</summary>
    public required ImmutableArray<VesselHour> Hours { get; init; }

    /// <summary>What is done to it, in any order of hours; several of one hour in the order they stand here.</summary>
    public ImmutableArray<VesselEvent> Events { get; init; } = [];

    /// <summary>Water in the vessel when the clock starts.</summary>
    public required Volume WaterAtStart { get; init; }

    /// <summary>What is the same in every member.</summary>
    public VesselChemistry Chemistry { get; init; } = VesselChemistry.Usual;
}
