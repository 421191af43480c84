namespace Broodtide.Workbench.Species;

/// <summary>How soon larvae need food after they came into the sea.</summary>
public enum FirstFoodNeed
{
    /// <summary>Nobody told: food stands ready as for larvae that need it at once.</summary>
    NotKnown,

    /// <summary>They moult to the second zoea on yolk.</summary>
    YolkFirst,

    /// <summary>They do not moult unfed: food at once.</summary>
    AtOnce,
}

public sealed partial class SpeciesProfile
{
    // The answers of the fact that carry larvae over the first moult without food.
    private static readonly string[] OnYolk = ["moults-if-salt", "moults-unfed"];

    /// <summary>How soon its larvae need food.</summary>
    public FirstFoodNeed FirstFood =>
        Fact("unfed-first-moult") is not { } told ? FirstFoodNeed.NotKnown
        : OnYolk.Contains(told.Is, StringComparer.Ordinal) ? FirstFoodNeed.YolkFirst
        : FirstFoodNeed.AtOnce;
}
