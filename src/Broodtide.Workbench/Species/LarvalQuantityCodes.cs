namespace Broodtide.Workbench.Species;

/// <summary>
/// The codes of the quantities by which larvae are believed to develop and die. A profile may lack them: then this
/// project's assumptions stand in.
/// </summary>
public static class LarvalQuantityCodes
{
    /// <summary>Hazard of a larva that has got used to good water, per time.</summary>
    public const string Hazard = "larval-hazard";

    /// <summary>How many times that hazard comes on top right after hatching.</summary>
    public const string EarlyHazardFactor = "larval-early-hazard-factor";

    /// <summary>Spread of the time to settlement between larvae of one crossing, as a share of its mean.</summary>
    public const string DevelopmentCv = "larval-development-cv";

    /// <summary>Share of larvae lost at metamorphosis.</summary>
    public const string MetamorphosisLoss = "larval-metamorphosis-loss";

    /// <summary>Temperature that the days from hatching to settlement hold for.</summary>
    public const string ReferenceTemperature = "larval-reference-temperature";

    /// <summary>Temperature below which a larva does not develop, in the linear model.</summary>
    public const string BaseTemperature = "larval-base-temperature";
}
