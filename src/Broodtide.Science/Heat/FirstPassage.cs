using Broodtide.Units;

namespace Broodtide.Science.Heat;

/// <summary>
/// When something uncertain first comes to a limit. A point is left out where it lies beyond the hours looked ahead: the
/// middle is there only if it is as likely reached as not.
/// </summary>
/// <param name="HorizonHours">Hours looked ahead.</param>
/// <param name="EarlyHours">One chance in twenty that it is earlier.</param>
/// <param name="MiddleHours">As likely before as after.</param>
/// <param name="LateHours">One chance in twenty that it is later.</param>
/// <param name="Chance">Chance that it is reached within the horizon.</param>
public sealed record FirstPassage(
    double HorizonHours,
    double? EarlyHours,
    double? MiddleHours,
    double? LateHours,
    Probability Chance
)
{
    /// <summary>From the hours of weighted members; infinite where a member never comes to the limit.</summary>
    /// <param name="members">Hours and weight of each.</param>
    /// <param name="horizonHours">Hours looked ahead, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The horizon is not above zero.</exception>
    /// <exception cref="ArgumentException">There is no member.</exception>
    public static FirstPassage Of(IEnumerable<(double Hours, double Weight)> members, double horizonHours)
    {
        Finite.Positive(horizonHours);
        var sorted = members.OrderBy(member => member.Hours).ToList();
        if (sorted.Count == 0)
        {
            throw new ArgumentException("There is no member.", nameof(members));
        }

        var sum = sorted.Sum(member => member.Weight);
        var within = sorted.Where(member => member.Hours <= horizonHours).Sum(member => member.Weight);
        return new(
            horizonHours,
            At(0.05),
            At(0.5),
            At(0.95),
            Probability.FromFraction(Math.Clamp(within / sum, 0, 1))
        );

        double? At(double share)
        {
            var passed = 0.0;
            foreach (var (hours, weight) in sorted)
            {
                passed += weight;
                if (passed >= share * sum * (1 - 1e-12))
                {
                    return hours <= horizonHours ? hours : null;
                }
            }

            return null;
        }
    }
}
