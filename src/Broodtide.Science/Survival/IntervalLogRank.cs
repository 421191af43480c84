using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Survival;

/// <summary>How a life seen only at visits is scored when groups are compared.</summary>
public enum WindowScore
{
    /// <summary>Sun 1996: a sum of hazards, the log-rank score where every death is seen.</summary>
    Sun,

    /// <summary>Finkelstein 1986: proportional hazards.</summary>
    Finkelstein,
}

/// <summary>What the comparison says.</summary>
/// <param name="Z">Standardised difference; above zero where the first group dies earlier.</param>
/// <param name="PValue">Two-sided, by the normal approximation of the permutations, 0 to 1.</param>
public sealed record IntervalLogRankResult(double Z, double PValue);

/// <summary>
/// Whether two groups of lives seen only at visits die alike: scores from the common <see cref="Turnbull"/> shares,
/// compared by their permutation variance (Fay and Shaw 2010, J. Stat. Softw. 36(2)). The looks must not depend on
/// the group, and the lives must be independent.
/// </summary>
public static class IntervalLogRank
{
    /// <summary>Compares two groups.</summary>
    /// <exception cref="ArgumentException">A group is empty, or all lives score alike.</exception>
    public static IntervalLogRankResult Compare(
        ReadOnlySpan<DeathWindow> first,
        ReadOnlySpan<DeathWindow> second,
        WindowScore score
    )
    {
        if (first.IsEmpty || second.IsEmpty)
        {
            throw new ArgumentException("Both groups need lives.", nameof(second));
        }

        DeathWindow[] all = [.. first, .. second];
        var scores = Scores(all, score);
        var mean = scores.Average();
        var squares = scores.Sum(value => (value - mean) * (value - mean));
        if (squares <= 1e-12)
        {
            throw new ArgumentException("All lives score alike: there is nothing to compare.", nameof(first));
        }

        double n = all.Length;
        var apart = scores.Take(first.Length).Sum() - (first.Length * mean);
        var variance = first.Length * (double)second.Length / (n * (n - 1)) * squares;
        var z = apart / Math.Sqrt(variance);
        return new(z, 2 * Normal.CDF(0, 1, -Math.Abs(z)));
    }

    private static double[] Scores(DeathWindow[] windows, WindowScore score)
    {
        var shares = Turnbull.Of(windows);
        var holds = Turnbull.Holds(windows, shares);
        return score == WindowScore.Sun ? Sun(shares, holds) : Finkelstein(shares, holds);
    }

    // 1 - H, averaged over where this life may have ended; H sums deaths over lives at risk.
    private static double[] Sun(IReadOnlyList<DeathShare> shares, bool[][] holds)
    {
        var own = holds
            .Select(held =>
            {
                var sum = shares.Where((_, j) => held[j]).Sum(share => share.Share);
                return shares.Select((share, j) => held[j] ? share.Share / sum : 0).ToArray();
            })
            .ToArray();
        var deaths = shares.Select((_, j) => own.Sum(row => row[j])).ToArray();
        var hazard = new double[shares.Count];
        var sumOfHazards = 0.0;
        for (var j = 0; j < hazard.Length; j++)
        {
            // A stretch whose share has gone to nothing has neither deaths nor a hazard.
            var atRisk = deaths[j..].Sum();
            sumOfHazards += atRisk > 0 ? deaths[j] / atRisk : 0;
            hazard[j] = sumOfHazards;
        }

        return [.. own.Select(row => row.Select((share, j) => share * (1 - hazard[j])).Sum())];
    }

    // (S(L) ln S(L) - S(R) ln S(R)) / (S(L) - S(R)), the survivors before and after the window.
    private static double[] Finkelstein(IReadOnlyList<DeathShare> shares, bool[][] holds) =>
        [
            .. holds.Select(held =>
            {
                var inside = shares.Where((_, j) => held[j]).Sum(share => share.Share);
                var after = shares.Skip(Array.LastIndexOf(held, true) + 1).Sum(share => share.Share);
                return (TimesLog(after + inside) - TimesLog(after)) / inside;
            }),
        ];

    private static double TimesLog(double share) => share > 0 ? share * Math.Log(share) : 0;
}
