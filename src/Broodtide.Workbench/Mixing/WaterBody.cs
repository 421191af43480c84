using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>Water as a keeper tells of it: how much, how salt, how warm.</summary>
/// <param name="Volume">Volume at its own temperature.</param>
/// <param name="Salinity">Practical salinity.</param>
/// <param name="Temperature">Temperature.</param>
public readonly record struct WaterBody(Volume Volume, Salinity Salinity, Temperature Temperature);
