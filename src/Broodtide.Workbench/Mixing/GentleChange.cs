namespace Broodtide.Workbench.Mixing;

/// <summary>How much the water of a vessel with animals may change at once. Practice, no source.</summary>
public static class GentleChange
{
    /// <summary>Greatest change of salinity at once, ppt.</summary>
    public const double MostPptAtOnce = 1;

    /// <summary>Greatest change of temperature at once, degC.</summary>
    public const double MostDegreesAtOnce = 1;

    /// <summary>Minutes between two changes.</summary>
    public const double RestMinutes = 60;

    /// <summary>How far apart two waters are, in steps of what is allowed at once.</summary>
    internal static double Apart(WaterMass left, WaterMass right) =>
        Math.Max(
            Math.Abs(left.SalinityPractical - right.SalinityPractical) / MostPptAtOnce,
            Math.Abs(left.Celsius - right.Celsius) / MostDegreesAtOnce
        );
}
