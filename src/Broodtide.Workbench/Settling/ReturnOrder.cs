using Broodtide.Domain;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Settling;

/// <summary>What a return to fresh water starts from.</summary>
public sealed record ReturnOrder
{
    /// <summary>The larval vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>The fresh water that waits, and its warmth.</summary>
    public required WaterBody Fresh { get; init; }

    /// <summary>The nursery before; volume 0 where it is still empty.</summary>
    public required WaterBody Nursery { get; init; }

    /// <summary>Hardness of the fresh water as calcium carbonate, mg/L; none where nobody measured.</summary>
    public double? HardnessMilligramsPerLitre { get; init; }

    /// <summary>Alkalinity of the fresh water as calcium carbonate, mg/L; none where nobody measured.</summary>
    public double? AlkalinityMilligramsPerLitre { get; init; }

    /// <summary>
    /// Whether the keeper looked for swimming zoeae in the dark and by lamp and found none: the keeper's word goes before the
    /// estimate where settled ones were ever seen or most have settled by it.
    /// </summary>
    public bool NoZoeaeByWord { get; init; }
}
