using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// A solution to set a refractometer with, and for nothing else: plain sodium chloride with the refractive index of
/// sea water. For S 35 it is 3.65 % by mass, 36.5 g of dry salt and 963.5 g of water (R. Holmes-Farley from the
/// CRC Handbook, 57th edition).
/// </summary>
/// <param name="DrySodiumChloride">Dry salt to weigh, without iodine or anti-caking.</param>
/// <param name="Water">Pure water to weigh.</param>
public sealed record RefractometerStandard(Mass DrySodiumChloride, Mass Water)
{
    /// <summary>The standard of S 35.</summary>
    /// <param name="total">Mass of solution to make.</param>
    public static RefractometerStandard Of35(Mass total)
    {
        var percent = SodiumChlorideSolution
            .PercentMatchingIndexOf(
                Salinity.FromPractical(SalinityScales.FullSeaWater),
                Temperature.FromCelsius(SodiumChlorideSolution.TableCelsius)
            )
            .Value;
        return new(percent / 100 * total, (1 - (percent / 100)) * total);
    }
}
