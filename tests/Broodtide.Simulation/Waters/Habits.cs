namespace Broodtide.Simulation.Waters;

/// <summary>How an invented keeper treats a larval vessel for a month.</summary>
/// <param name="Name">What the report calls it.</param>
/// <param name="Yeast">Dry yeast a day, mg/L.</param>
/// <param name="Powder">Powdered feed a day, mg/L.</param>
/// <param name="AlgaeEveryDays">Days between doses of green water; none at 0.</param>
/// <param name="AlgaeWanted">Cells a millilitre that a dose is meant to reach.</param>
/// <param name="Slips">Chance that a ration comes out three times as large.</param>
/// <param name="LightHours">Hours of light a day.</param>
/// <param name="Brightness">At the water, µmol photons m⁻² s⁻¹.</param>
/// <param name="ChangeEveryDays">Days between water changes; none at 0.</param>
/// <param name="ChangedShare">Share of the water changed.</param>
/// <param name="Air">Whether air bubbles through it.</param>
/// <param name="TestEveryDays">Days between test kits.</param>
public sealed record Habits(
    string Name,
    double Yeast,
    double Powder,
    int AlgaeEveryDays,
    double AlgaeWanted,
    double Slips,
    double LightHours,
    double Brightness,
    int ChangeEveryDays,
    double ChangedShare,
    bool Air,
    int TestEveryDays
)
{
    /// <summary>Five ways of keeping; which is whose is drawn by chance.</summary>
    public static IReadOnlyList<Habits> All { get; } =
    [
        new("green and lit", 0, 0, 2, 6e4, 0, 14, 90, 5, 0.15, true, 3),
        new("green with a little powder", 0, 1.5, 3, 6e4, 0.02, 12, 60, 4, 0.2, true, 4),
        new("yeast every day", 3, 0, 4, 6e4, 0.06, 10, 30, 3, 0.25, true, 5),
        new("heavy hand, still water", 6, 3, 6, 6e4, 0.1, 8, 20, 6, 0.15, false, 6),
        new("deep green, still water", 0, 0.5, 4, 2.5e5, 0.02, 16, 140, 7, 0.1, false, 5),
    ];
}
