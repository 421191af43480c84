using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>What the salinity of a vessel is corrected with.</summary>
public enum CorrectionMeans
{
    /// <summary>None: the vessel is where it should be.</summary>
    None,

    /// <summary>Salt mix, dissolved in some of the vessel's own water.</summary>
    SaltMix,

    /// <summary>Saltier water at hand.</summary>
    Brine,

    /// <summary>Fresh, or fresher, water.</summary>
    FreshWater,
}

/// <summary>One change of a vessel.</summary>
/// <param name="OffsetMinutes">When, from the start.</param>
/// <param name="DrawOff">Water drawn off first; through mesh where animals are in it; 0 where there is room.</param>
/// <param name="AddWater">Brine or fresh water to add; 0 with salt mix.</param>
/// <param name="AddMix">Salt mix to weigh; 0 with water.</param>
/// <param name="After">The vessel afterwards.</param>
public sealed record CorrectionStep(
    double OffsetMinutes,
    Volume DrawOff,
    Volume AddWater,
    Mass AddMix,
    WaterBody After
);
