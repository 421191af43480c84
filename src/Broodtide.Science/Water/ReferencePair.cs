using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// The two temperatures of a specific gravity, written sample/water such as 25/4. The default is 0/0 degC.
/// </summary>
/// <param name="Sample">Temperature of the sample.</param>
/// <param name="Water">Temperature of the pure water it is compared with.</param>
public readonly record struct ReferencePair(Temperature Sample, Temperature Water)
{
    /// <summary>Sample and water at one temperature, such as 20/20.</summary>
    public static ReferencePair AtOne(Temperature temperature) => new(temperature, temperature);
}
