namespace Broodtide.Workbench.Crossing;

/// <summary>Why there is no crossing as ordered, and what can be instead.</summary>
/// <param name="Code">The reason.</param>
/// <param name="Field">The part of the order that stands in the way.</param>
/// <param name="Given">What the order says, in the unit of the field.</param>
/// <param name="Needed">What it would take, in the unit of the field.</param>
/// <param name="Remedies">
/// The nearest things that can be, the nearest first; each holds a whole order for which there is a plan.
/// </param>
public sealed record CrossingRefusal(
    CrossingRefusalCode Code,
    CrossingField Field,
    double Given,
    double Needed,
    IReadOnlyList<CrossingRemedy> Remedies
)
{
    /// <summary>The nearest order for which there is a plan.</summary>
    public CrossingRemedy Nearest => Remedies[0];
}

/// <summary>A change of the order that makes it possible.</summary>
/// <param name="Code">What is changed; where more stands in the way, the order holds that changed too.</param>
/// <param name="Amount">The new value, in the unit the code names.</param>
/// <param name="Order">The whole order, for which there is a plan.</param>
public sealed record CrossingRemedy(CrossingRemedyCode Code, double Amount, CrossingOrder Order);

/// <summary>Why a crossing cannot be.</summary>
public enum CrossingRefusalCode
{
    /// <summary>A number lies outside what the density formula or a bench can hold.</summary>
    OutsideRange,

    /// <summary>The cup holds less than the water with the animals.</summary>
    CupTooSmall,

    /// <summary>The source is not salt enough (not fresh enough, on the way down) for what the cup is to reach.</summary>
    SourceCannotReach,

    /// <summary>There is not enough source water, even with drawing off through mesh.</summary>
    NotEnoughSource,

    /// <summary>The wished minutes would be spent in brackish water beyond the limit.</summary>
    BrackishTooLong,

    /// <summary>The receiving vessel has no room for the cup.</summary>
    ReceivingTooSmall,

    /// <summary>Without a jump in the receiving vessel the cup cannot be poured in a sensible number of portions.</summary>
    PourTooGreat,
}

/// <summary>What is changed in the order.</summary>
public enum CrossingRemedyCode
{
    /// <summary>The number moved into its range; amount in the unit of the field.</summary>
    MovedIntoRange,

    /// <summary>A cup of this capacity; litres.</summary>
    CupCapacity,

    /// <summary>A part of the water with animals at a time; litres.</summary>
    SmallerBatch,

    /// <summary>The cup brought no further than this salinity.</summary>
    CupTarget,

    /// <summary>A source of this salinity.</summary>
    SourceSalinity,

    /// <summary>This much source water; litres.</summary>
    SourceVolume,

    /// <summary>These minutes.</summary>
    WantedMinutes,

    /// <summary>A receiving vessel that holds this much; litres.</summary>
    ReceivingCapacity,

    /// <summary>This much water in the receiving vessel; litres.</summary>
    ReceivingVolume,

    /// <summary>A jump in the receiving vessel allowed; ppt or degC, the greater of the two changes.</summary>
    AllowJump,

    /// <summary>The limit of practice in brackish water; minutes.</summary>
    BrackishLimit,
}

/// <summary>The parts of an order that can stand in the way.</summary>
public enum CrossingField
{
    /// <summary>Capacity of the cup; litres.</summary>
    CupCapacity,

    /// <summary>Water with animals; litres.</summary>
    CupVolume,

    /// <summary>Salinity of the cup at the start.</summary>
    CupSalinity,

    /// <summary>Temperature of the cup; degC.</summary>
    CupTemperature,

    /// <summary>Source water; litres.</summary>
    SourceVolume,

    /// <summary>Salinity of the source.</summary>
    SourceSalinity,

    /// <summary>Temperature of the source; degC.</summary>
    SourceTemperature,

    /// <summary>Water in the receiving vessel; litres.</summary>
    ReceivingVolume,

    /// <summary>Salinity of the receiving vessel.</summary>
    ReceivingSalinity,

    /// <summary>Temperature of the receiving vessel; degC.</summary>
    ReceivingTemperature,

    /// <summary>Capacity of the receiving vessel; litres.</summary>
    ReceivingCapacity,

    /// <summary>Minutes wished.</summary>
    WantedMinutes,

    /// <summary>Salinity the cup is to reach.</summary>
    CupTarget,

    /// <summary>Pours wished.</summary>
    WantedSteps,

    /// <summary>Least water with the animals; litres.</summary>
    LeastWithAnimals,

    /// <summary>Target of the receiving vessel's band.</summary>
    BandTarget,

    /// <summary>Minutes between two changes of the receiving vessel.</summary>
    RestMinutes,

    /// <summary>Salinity of the brine.</summary>
    BrineSalinity,

    /// <summary>Temperature of the brine; degC.</summary>
    BrineTemperature,

    /// <summary>Brine at hand; litres.</summary>
    BrineVolume,
}
