using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>What goes into a batch of sea water. The default is nothing.</summary>
/// <param name="Product">Salt product as weighed, with its own water.</param>
/// <param name="FreshWater">Fresh water to pour.</param>
public readonly record struct SeaWaterBatch(Mass Product, Mass FreshWater);
