using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// What a vessel does to larvae over time, already told from temperature, salinity and food: how far development
/// has come, and how much hazard was met, each as a running sum at given days.
/// </summary>
public sealed record VesselCourse
{
    /// <summary>A course by its corners; straight lines run between them and go on beyond the last.</summary>
    /// <param name="days">Ascending, in days of the run's clock; at least two.</param>
    /// <param name="developmentDays">Reference days of development gone since the first corner; never falling.</param>
    /// <param name="hazardDays">Days weighted by how much the hazard is raised; never falling.</param>
    /// <exception cref="ArgumentException">Lengths differ, fewer than two, or not ascending.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public VesselCourse(
        IReadOnlyList<double> days,
        IReadOnlyList<double> developmentDays,
        IReadOnlyList<double> hazardDays
    )
    {
        if (days.Count < 2 || developmentDays.Count != days.Count || hazardDays.Count != days.Count)
        {
            throw new ArgumentException(
                "A course needs two corners or more, and as many of each number.",
                nameof(days)
            );
        }

        for (var i = 0; i < days.Count; i++)
        {
            Finite.Required(days[i], nameof(days));
            Finite.Required(developmentDays[i], nameof(developmentDays));
            Finite.Required(hazardDays[i], nameof(hazardDays));
            if (
                i > 0
                && (
                    days[i] <= days[i - 1]
                    || developmentDays[i] < developmentDays[i - 1]
                    || hazardDays[i] < hazardDays[i - 1]
                )
            )
            {
                throw new ArgumentException("Days ascend, and the sums never fall.", nameof(days));
            }
        }

        Days = [.. days];
        DevelopmentDays = [.. developmentDays];
        HazardDays = [.. hazardDays];
    }

    /// <summary>The corners, days of the run's clock.</summary>
    public ImmutableArray<double> Days { get; }

    /// <summary>Reference days of development gone at each corner.</summary>
    public ImmutableArray<double> DevelopmentDays { get; }

    /// <summary>Weighted days of hazard gone at each corner.</summary>
    public ImmutableArray<double> HazardDays { get; }

    /// <summary>A vessel in which a day is a day: reference temperature, good water, enough food.</summary>
    public static VesselCourse Plain { get; } = new([0, 1], [0, 1], [0, 1]);

    /// <summary>Reference days of development gone at a day.</summary>
    public double DevelopmentAt(double day) => At(DevelopmentDays, day);

    /// <summary>Weighted days of hazard gone at a day.</summary>
    public double HazardAt(double day) => At(HazardDays, day);

    private double At(ImmutableArray<double> sums, double day)
    {
        var right = Days.BinarySearch(day);
        right = Math.Clamp(right < 0 ? ~right : right, 1, Days.Length - 1);
        var left = right - 1;
        var slope = (sums[right] - sums[left]) / (Days[right] - Days[left]);
        return sums[left] + (slope * (day - Days[left]));
    }
}
