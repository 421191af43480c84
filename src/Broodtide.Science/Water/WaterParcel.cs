using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>An amount of water of one salinity and temperature. The default is none.</summary>
/// <param name="Mass">Mass, salt included.</param>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="Temperature">Temperature.</param>
public readonly record struct WaterParcel(Mass Mass, Salinity Salinity, Temperature Temperature);
