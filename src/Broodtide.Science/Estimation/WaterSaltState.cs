using Broodtide.Units;

namespace Broodtide.Science.Estimation;

/// <summary>One vessel or sensor of a filter, as it is kept.</summary>
/// <param name="Row">Where it stands in the state, in steps of three numbers; -1 once it was dropped.</param>
/// <param name="Temperature">Temperature of the water; none of its own for a sensor.</param>
/// <param name="EvaporationPriorKgPerDay">Prior mean of evaporation, kg a day.</param>
/// <param name="SensorWanderSd">How far a sensor wanders in a day, practical salinity; none for a vessel.</param>
public readonly record struct WaterSaltSlot(
    int Row,
    Temperature Temperature,
    double EvaporationPriorKgPerDay,
    double? SensorWanderSd
);

/// <summary>All that a filter believes, as plain numbers: a filter made of it goes on to the last bit as the first would.</summary>
/// <param name="Slots">Vessels and sensors in the order in which they were added.</param>
/// <param name="Mean">Three numbers a row: water, kg; salt, kg; evaporation, kg a day.</param>
/// <param name="Covariance">Their covariance, row by row.</param>
public sealed record WaterSaltState(
    IReadOnlyList<WaterSaltSlot> Slots,
    IReadOnlyList<double> Mean,
    IReadOnlyList<double> Covariance
);
