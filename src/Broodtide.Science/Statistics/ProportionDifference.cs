using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>Two groups whose proportions are compared; the difference is first minus second.</summary>
/// <param name="First">First group.</param>
/// <param name="Second">Second group.</param>
public sealed record TwoGroups(Tally First, Tally Second)
{
    /// <summary>Share of the first group minus share of the second, -1 to 1.</summary>
    public double Difference => First.Share - Second.Share;
}

/// <summary>Limits for the difference of two proportions of independent individuals.</summary>
public static class ProportionDifference
{
    /// <summary>Newcombe 1998, Stat. Med. 17:873, method 10: Wilson's limits of each group joined.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public static Limits Newcombe(TwoGroups groups, Probability level)
    {
        var first = Proportions.Wilson(groups.First, level);
        var second = Proportions.Wilson(groups.Second, level);
        var (p, q) = (groups.First.Share, groups.Second.Share);
        return new(
            groups.Difference - double.Hypot(p - first.Lower, second.Upper - q),
            groups.Difference + double.Hypot(first.Upper - p, q - second.Lower),
            level
        );
    }

    /// <summary>
    /// Agresti and Caffo 2000, Am. Stat. 54:280: the plain normal limits after one more of each kind in each group.
    /// Held to -1 to 1.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A level of 0 or 1.</exception>
    public static Limits AgrestiCaffo(TwoGroups groups, Probability level)
    {
        var z = -Normal.InvCDF(0, 1, Limits.Tail(level));
        var (p, first) = Enlarged(groups.First);
        var (q, second) = Enlarged(groups.Second);
        var reach = z * Math.Sqrt((p * (1 - p) / first) + (q * (1 - q) / second));
        return new(Math.Max(-1, p - q - reach), Math.Min(1, p - q + reach), level);
    }

    private static (double Share, double Trials) Enlarged(Tally tally) =>
        ((tally.Happened + 1.0) / (tally.Trials + 2.0), tally.Trials + 2.0);
}
