using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Survival;

/// <summary>What the log-rank test says.</summary>
/// <param name="ChiSquare">The statistic.</param>
/// <param name="DegreesOfFreedom">Groups less one.</param>
/// <param name="PValue">Chance of one as large or larger if all groups die alike, 0 to 1.</param>
/// <param name="Observed">Deaths of each group.</param>
/// <param name="Expected">Deaths of each group if all died alike.</param>
public sealed record LogRankResult(
    double ChiSquare,
    int DegreesOfFreedom,
    double PValue,
    IReadOnlyList<double> Observed,
    IReadOnlyList<double> Expected
);

/// <summary>
/// Whether groups of lives die alike: deaths seen less deaths expected, with the hypergeometric variance
/// (Mantel 1966; Kalbfleisch and Prentice 1980, section 1.4). The lives must be independent: larvae that share a
/// vessel are one unit, not many.
/// </summary>
public static class LogRank
{
    /// <summary>Compares two or more groups.</summary>
    /// <param name="groups">The lives of each group, none of them empty.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than two groups, an empty one, or no death at a time at which two groups were followed.
    /// </exception>
    public static LogRankResult Compare(IReadOnlyList<IReadOnlyList<Lifetime>> groups)
    {
        if (groups.Count < 2 || groups.Any(group => group.Count == 0))
        {
            throw new ArgumentException("Two or more groups with lives are compared.", nameof(groups));
        }

        var count = groups.Count;
        var observed = new double[count];
        var expected = new double[count];
        var variance = Matrix<double>.Build.Dense(count, count);
        var deathTimes = groups
            .SelectMany(group => group)
            .Where(life => life.Died)
            .Select(life => life.Time)
            .Distinct()
            .Order();
        foreach (var time in deathTimes)
        {
            var atRisk = groups.Select(group => (double)group.Count(life => life.Time >= time)).ToArray();
            var dead = groups
                .Select(group => (double)group.Count(life => life.Died && life.Time.Equals(time)))
                .ToArray();
            var all = atRisk.Sum();
            var deaths = dead.Sum();
            var spread = all > 1 ? deaths * (all - deaths) / (all - 1) : 0;
            for (var i = 0; i < count; i++)
            {
                observed[i] += dead[i];
                expected[i] += deaths * atRisk[i] / all;
                for (var j = 0; j < count; j++)
                {
                    variance[i, j] += spread * atRisk[i] / all * ((i == j ? 1 : 0) - (atRisk[j] / all));
                }
            }
        }

        // The differences sum to zero, so the last group adds nothing.
        var apart = Vector<double>.Build.Dense(count - 1, i => observed[i] - expected[i]);
        var inner = variance.SubMatrix(0, count - 1, 0, count - 1);
        var chiSquare = apart * inner.Solve(apart);
        return double.IsFinite(chiSquare)
            ? new(
                chiSquare,
                count - 1,
                1 - ChiSquared.CDF(count - 1, Math.Max(0, chiSquare)),
                observed,
                expected
            )
            : throw new ArgumentException(
                "No death at a time at which the groups were followed together.",
                nameof(groups)
            );
    }
}
