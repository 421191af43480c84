using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Counting;

/// <summary>
/// How equal aliquots vary. Near 1 is what even mixing gives; far above is clumping; far below is too regular to be
/// chance: counter rounding, or the same water counted again.
/// </summary>
/// <param name="Mean">Mean count of an aliquot.</param>
/// <param name="Variance">Variance between aliquots, with n - 1.</param>
/// <param name="ChiSquare">Fisher's sum of (x - mean)^2 / mean.</param>
/// <param name="DegreesOfFreedom">Aliquots less one.</param>
/// <param name="ClumpedChance">Chance of varying at least so much under even mixing (upper tail).</param>
/// <param name="RegularChance">Chance of varying at most so much under even mixing (lower tail).</param>
public sealed record DispersionIndex(
    double Mean,
    double Variance,
    double ChiSquare,
    int DegreesOfFreedom,
    Probability ClumpedChance,
    Probability RegularChance
)
{
    /// <summary>Variance over mean.</summary>
    public double Index => Variance / Mean;

    /// <summary>
    /// Clumping k by moments, mean^2 / (variance - mean); none where the variance does not exceed the mean. A start for
    /// a fit, not for use.
    /// </summary>
    public double? MomentClumping => Variance > Mean ? Mean * Mean / (Variance - Mean) : null;
}

/// <summary>
/// Fisher's index of dispersion: under even mixing the chi-square has n - 1 degrees of freedom (Elliott 1977, Some
/// Methods for the Statistical Analysis of Samples of Benthic Invertebrates). For aliquots of one volume.
/// </summary>
public static class Dispersion
{
    /// <summary>The index of some counts.</summary>
    /// <param name="counts">Two counts or more, 0 or more each, of equal aliquots.</param>
    /// <exception cref="ArgumentException">Less than two counts, or nothing seen in any.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A count is negative.</exception>
    public static DispersionIndex Of(IReadOnlyList<int> counts) =>
        Of([.. counts.Select(count => new CountFrequency(count, 1))]);

    /// <summary>The index of a table of how often each count occurred.</summary>
    /// <exception cref="ArgumentException">Less than two counts, or nothing seen in any.</exception>
    public static DispersionIndex Of(IReadOnlyList<CountFrequency> table)
    {
        var times = table.Sum(row => (double)row.Times);
        var mean = table.Sum(row => (double)row.Count * row.Times) / times;
        if (times < 2 || !(mean > 0))
        {
            throw new ArgumentException(
                "Two counts or more are wanted, with something seen in one.",
                nameof(table)
            );
        }

        var squares = table.Sum(row => row.Times * Math.Pow(row.Count - mean, 2));
        var (chi, free) = (squares / mean, (int)times - 1);
        var lower = SpecialFunctions.GammaLowerRegularized(free / 2.0, chi / 2);
        var upper = chi > 0 ? SpecialFunctions.GammaUpperRegularized(free / 2.0, chi / 2) : 1;
        return new(
            mean,
            squares / free,
            chi,
            free,
            Probability.FromFraction(Math.Clamp(upper, 0, 1)),
            Probability.FromFraction(Math.Clamp(lower, 0, 1))
        );
    }
}
