namespace Broodtide.Workbench.BadDays;

/// <summary>What a keeper expects of hot days.</summary>
public sealed record HeatWishes
{
    /// <summary>The hottest that the room is expected to get by day, degC; as in the last days if left out.</summary>
    public double? HottestCelsius { get; init; }

    /// <summary>The coolest of the night, degC; by the readings, or six below the hottest, if left out.</summary>
    public double? CoolestCelsius { get; init; }

    /// <summary>Air that a fan would move over the surface, m/s; a small one beside it makes about 1 (practice).</summary>
    public double FanMetresPerSecond { get; init; } = 1;

    /// <summary>Dampness of the room's air, 0 to 1.</summary>
    public double RelativeHumidity { get; init; } = 0.5;

    /// <summary>Hours to look ahead, 6 to 120.</summary>
    public int Hours { get; init; } = 72;
}
