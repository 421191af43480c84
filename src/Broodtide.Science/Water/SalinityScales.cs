using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Other ways to say how salty water is, tied to practical salinity by definition and thus without a formula's
/// range: absolute salinity, chlorinity, percent of sea water. They hold for water with the ions of the sea.
/// </summary>
public static class SalinityScales
{
    /// <summary>
    /// Grams of salt per kilogram for each unit of practical salinity, 35.16504/35: Millero et al. 2008,
    /// Deep-Sea Res. I 55:50, the reference composition of TEOS-10.
    /// </summary>
    public const double AbsolutePerPractical = 35.16504 / 35;

    /// <summary>
    /// Practical salinity for each g/kg of chlorinity, 1.80655: Wooster, Lee and Dietrich 1969, kept by PSS-78 at
    /// S = 35; value from memory.
    /// </summary>
    public const double PracticalPerChlorinity = 1.80655;

    /// <summary>Practical salinity of what keepers call full sea water, 100 percent.</summary>
    public const double FullSeaWater = 35;

    /// <summary>Absolute salinity, grams of dissolved salt per kilogram of sea water.</summary>
    public static double AbsoluteGramsPerKilogram(Salinity salinity) =>
        AbsolutePerPractical * salinity.Practical;

    /// <summary>Practical salinity of an absolute salinity in g/kg, 0 to 1000.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative or above 1000.</exception>
    public static Salinity FromAbsolute(double gramsPerKilogram) =>
        Salinity.FromPractical(Finite.Within(gramsPerKilogram, 0, 1000) / AbsolutePerPractical);

    /// <summary>Chlorinity, g/kg.</summary>
    public static double ChlorinityGramsPerKilogram(Salinity salinity) =>
        salinity.Practical / PracticalPerChlorinity;

    /// <summary>Practical salinity of a chlorinity in g/kg, 0 to 500.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative or above 500.</exception>
    public static Salinity FromChlorinity(double gramsPerKilogram) =>
        Salinity.FromPractical(PracticalPerChlorinity * Finite.Within(gramsPerKilogram, 0, 500));

    /// <summary>Percent of sea water of S = 35.</summary>
    public static double PercentOfSeaWater(Salinity salinity) => 100 * salinity.Practical / FullSeaWater;

    /// <summary>Practical salinity of a percentage of sea water of S = 35, 0 to 1000.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative or above 1000.</exception>
    public static Salinity FromPercentOfSeaWater(double percent) =>
        Salinity.FromPractical(FullSeaWater * Finite.Within(percent, 0, 1000) / 100);
}
