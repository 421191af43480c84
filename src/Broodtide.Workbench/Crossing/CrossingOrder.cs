using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Crossing;

/// <summary>
/// What a crossing starts from and what is wished of it. Larvae go from fresh to salt, juveniles from salt to
/// fresh: which way it goes follows from the cup and the receiving vessel.
/// </summary>
public sealed record CrossingOrder
{
    /// <summary>What the cup holds when full.</summary>
    public required Volume CupCapacity { get; init; }

    /// <summary>The water with the animals in the cup at the start.</summary>
    public required WaterBody Cup { get; init; }

    /// <summary>The water at hand to pour into the cup.</summary>
    public required WaterBody Source { get; init; }

    /// <summary>The receiving vessel before. Volume 0 for an empty one: the cup's water then fills it.</summary>
    public required WaterBody Receiving { get; init; }

    /// <summary>What the receiving vessel holds when full; none where it is not known and room is taken for granted.</summary>
    public Volume? ReceivingCapacity { get; init; }

    /// <summary>
    /// Minutes from the first pour to pouring the cup out. One to one over three to five minutes is common
    /// practice, no source; the default is 4.
    /// </summary>
    public double WantedMinutes { get; init; } = 4;

    /// <summary>
    /// Salinity of the cup when it is poured out; none for just out of brackish water, in the direction of the
    /// receiving vessel.
    /// </summary>
    public Salinity? CupTarget { get; init; }

    /// <summary>Number of pours wished, 1 to 60; none for about one a minute, at most ten. More are made where the cup is too small.</summary>
    public int? WantedSteps { get; init; }

    /// <summary>
    /// Least water the animals are left in when water is drawn off through mesh; none for a fifth of what the cup
    /// holds at the start. Practice, no source.
    /// </summary>
    public Volume? LeastWithAnimals { get; init; }

    /// <summary>Which water is brackish and for how long it may be.</summary>
    public BrackishRule Brackish { get; init; } = BrackishRule.Practice;

    /// <summary>The band of the receiving vessel.</summary>
    public SalinityBand ReceivingBand { get; init; } = SalinityBand.Larvae;

    /// <summary>
    /// Whether the receiving vessel may change by more than 1 ppt or 1 degC at once, which spares portions and
    /// waiting where nothing lives in it yet.
    /// </summary>
    public bool AllowJump { get; init; }

    /// <summary>Minutes between two changes of the receiving vessel. Practice, no source: an hour.</summary>
    public double RestMinutes { get; init; } = GentleChange.RestMinutes;

    /// <summary>The salt mix a correction upward is made with.</summary>
    public SaltProduct Mix { get; init; } = SaltProduct.Unmeasured;

    /// <summary>Saltier water for a correction upward, used before the mix where it suffices.</summary>
    public WaterBody? Brine { get; init; }
}
