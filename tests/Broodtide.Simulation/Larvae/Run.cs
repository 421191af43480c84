using System.Globalization;

namespace Broodtide.Simulation.Larvae;

/// <summary>One invented run: what was written down and what was true.</summary>
/// <param name="Events">In order of time.</param>
/// <param name="Vessel">The larvae.</param>
/// <param name="AliveDays">Days at which the living are told.</param>
public sealed record Run(IReadOnlyList<Row> Events, Vessel Vessel, IReadOnlyList<double> AliveDays)
{
    public const string TruthHeader = "t_days,quantity,value";

    public double LastDay => Events[^1].Day;

    /// <summary>The same, with the living told in the middle, at the end and seven days later.</summary>
    public Run AtThreeDays() =>
        this with
        {
            AliveDays = [Plan.Written(LastDay / 2), LastDay, Plan.Written(LastDay + 7)],
        };

    public IEnumerable<string> TruthRows()
    {
        foreach (var day in AliveDays)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{day:0.###},alive,{Vessel.AliveAt(day)}"
            );
        }

        if (Vessel.SettledMedianDay() is { } median)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{LastDay:0.###},settled_median_day,{median:0.###}"
            );
        }
    }
}
