namespace Broodtide.Workbench.Species;

/// <summary>
/// The codes of the quantities about adults. A profile may lack them: what rests on one is then not told, or told by this
/// project's own assumption, with a remark.
/// </summary>
public static class AdultQuantityCodes
{
    /// <summary>Time from hatching to the next laying, 5, 50 and 95 % points.</summary>
    public const string RestAfterHatch = "rest-after-hatch-days";

    /// <summary>Share of females in a shop lot, 5, 50 and 95 % points over lots.</summary>
    public const string LotFemaleShare = "lot-female-share";

    /// <summary>How long new animals are kept in water of their own.</summary>
    public const string Quarantine = "quarantine-days";

    /// <summary>Age at which they breed first.</summary>
    public const string MaturityAge = "maturity-age";

    /// <summary>Mass of an adult as it is weighed, wet. Without it nobody is told how long adults have air.</summary>
    public const string Mass = "adult-mass";
}
