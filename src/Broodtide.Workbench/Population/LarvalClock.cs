using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>The clock of a population: days since its first larvae crossed.</summary>
/// <param name="Origin">When its clock began.</param>
public sealed record LarvalClock(Instant Origin)
{
    /// <summary>Days since the origin.</summary>
    public double DayOf(Instant instant) => (instant - Origin).TotalDays;

    /// <summary>The instant of a day, to the second.</summary>
    public Instant At(double day) =>
        Origin + Duration.FromSeconds(Math.Round(Math.Clamp(day, -4000, 4000) * 86400));
}
