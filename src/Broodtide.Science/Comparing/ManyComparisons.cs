using Broodtide.Units;

namespace Broodtide.Science.Comparing;

/// <summary>How several comparisons at once are kept from finding something by chance.</summary>
public enum ManyComparisonsRule
{
    /// <summary>Each p times their number (Bonferroni).</summary>
    Bonferroni,

    /// <summary>Step by step from the smallest (Holm 1979, Scand. J. Stat. 6:65): for claims.</summary>
    Holm,

    /// <summary>The share of false finds among the finds (Benjamini and Hochberg 1995, J. R. Stat. Soc. B 57:289): for screening.</summary>
    BenjaminiHochberg,
}

/// <summary>Several p values together.</summary>
public static class ManyComparisons
{
    /// <summary>The p values raised so that each may be compared with the level wanted for all.</summary>
    /// <param name="p">The p values, in any order.</param>
    /// <param name="rule">How they are kept in check.</param>
    /// <returns>In the order given, none above 1.</returns>
    public static IReadOnlyList<Probability> Adjusted(IReadOnlyList<Probability> p, ManyComparisonsRule rule)
    {
        var order = Enumerable.Range(0, p.Count).OrderBy(i => p[i].Value).ToArray();
        var raised = new double[p.Count];
        switch (rule)
        {
            case ManyComparisonsRule.Bonferroni:
                foreach (var i in order)
                {
                    raised[i] = p.Count * p[i].Value;
                }

                break;
            case ManyComparisonsRule.Holm:
                var most = 0.0;
                for (var rank = 0; rank < order.Length; rank++)
                {
                    most = Math.Max(most, (p.Count - rank) * p[order[rank]].Value);
                    raised[order[rank]] = most;
                }

                break;
            case ManyComparisonsRule.BenjaminiHochberg:
                var least = 1.0;
                for (var rank = order.Length - 1; rank >= 0; rank--)
                {
                    least = Math.Min(least, p.Count / (rank + 1.0) * p[order[rank]].Value);
                    raised[order[rank]] = least;
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(rule), rule, "No such rule.");
        }

        return [.. raised.Select(value => Probability.FromFraction(Math.Min(1, value)))];
    }

    /// <summary>How many of the comparisons find something at a level.</summary>
    public static int Finds(IReadOnlyList<Probability> p, ManyComparisonsRule rule, Probability level) =>
        Adjusted(p, rule).Count(value => value <= level);
}
