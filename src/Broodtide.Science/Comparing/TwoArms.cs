using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Comparing;

/// <summary>Two treatments held against each other, vessels as the unit.</summary>
/// <param name="Difference">
/// Share of the first less that of the second, 5, 50 and 95 %: the limits of both joined by their squares (Zou and Donner
/// 2008, Stat. Med. 27:1693).
/// </param>
/// <param name="LogOddsRatio">
/// Log odds of the first less that of the second by a beta-binomial regression with one correlation; none where a treatment
/// has no vessel-to-vessel difference to go by.
/// </param>
/// <param name="Correlation">That correlation, 0 to 1.</param>
/// <param name="Permutation">
/// How often dealing the vessels anew brings a difference of the mean shares as large; none with one vessel of each.
/// </param>
/// <param name="CanTest">Whether any test is possible: two vessels of one of them at least.</param>
public sealed record TwoArms(
    Interval Difference,
    Interval? LogOddsRatio,
    double? Correlation,
    PermutationOutcome? Permutation,
    bool CanTest
)
{
    /// <summary>Holds two treatments against each other.</summary>
    /// <param name="first">How many lived of how many, vessel by vessel.</param>
    /// <param name="second">The same of the other.</param>
    /// <param name="firstShare">Share and limits of the first where they are known better than by its tallies.</param>
    /// <param name="secondShare">The same of the other.</param>
    /// <param name="blocks">The block of each vessel, first those of the first; all in one if none are said.</param>
    /// <exception cref="ArgumentException">A treatment has no vessel, or blocks are not as many as vessels.</exception>
    public static TwoArms Of(
        IReadOnlyList<Tally> first,
        IReadOnlyList<Tally> second,
        Interval? firstShare = null,
        Interval? secondShare = null,
        IReadOnlyList<int>? blocks = null
    )
    {
        if (blocks is not null && blocks.Count != first.Count + second.Count)
        {
            throw new ArgumentException("Every vessel needs its block.", nameof(blocks));
        }

        var isBlocked = blocks?.Distinct().Skip(1).Any() is true;
        var (one, other) = (firstShare ?? ArmShare.Of(first).Share, secondShare ?? ArmShare.Of(second).Share);
        var middle = one.Middle - other.Middle;
        double Joined(double left, double right) => Math.Sqrt((left * left) + (right * right));
        var difference = Interval.FromPoints(
            middle - Joined(one.Middle - one.Low, other.High - other.Middle),
            middle,
            middle + Joined(one.High - one.Middle, other.Middle - other.Low)
        );
        // With one vessel of each the two arrangements are the two treatments: no test.
        var dealt = isBlocked ? Dealt(first, second, blocks!) : [];
        var canTest = isBlocked
            ? dealt.Exists(block => block.First.Count > 0 && block.Second.Count > 0)
            : first.Count + second.Count > 2;
        if (!canTest)
        {
            return new(difference, null, null, null, false);
        }

        var (odds, correlation) = Odds(first, second, isBlocked ? blocks! : []);
        return new(
            difference,
            odds,
            correlation,
            isBlocked
                ? VesselPermutation.OfBlocks(dealt)
                : VesselPermutation.OfGroups(
                    [.. first.Select(vessel => vessel.Share)],
                    [.. second.Select(vessel => vessel.Share)]
                ),
            true
        );
    }

    private static List<(IReadOnlyList<double> First, IReadOnlyList<double> Second)> Dealt(
        IReadOnlyList<Tally> first,
        IReadOnlyList<Tally> second,
        IReadOnlyList<int> blocks
    ) =>
        [
            .. blocks
                .Distinct()
                .Select(block =>
                    (
                        (IReadOnlyList<double>)
                            [.. first.Where((_, at) => blocks[at] == block).Select(vessel => vessel.Share)],
                        (IReadOnlyList<double>)
                            [
                                .. second
                                    .Where((_, at) => blocks[first.Count + at] == block)
                                    .Select(vessel => vessel.Share),
                            ]
                    )
                ),
        ];

    private static (Interval? Odds, double? Correlation) Odds(
        IReadOnlyList<Tally> first,
        IReadOnlyList<Tally> second,
        IReadOnlyList<int> blocks
    )
    {
        var all = first.Concat(second).ToList();
        var others = blocks.Distinct().Skip(1).ToList();
        bool Parted(IReadOnlyList<Tally> arm) =>
            arm.Any(vessel => vessel.Happened > 0) && arm.Any(vessel => vessel.Happened < vessel.Trials);
        if (!Parted(first) || !Parted(second) || all.Count < 4 + others.Count)
        {
            return (null, null);
        }

        var design = RegressionDesign
            .OneMean(all.Count)
            .With("first", [.. first.Select(_ => 1.0), .. second.Select(_ => 0.0)]);
        foreach (var other in others)
        {
            design = design.With($"block {other}", [.. blocks.Select(block => block == other ? 1.0 : 0.0)]);
        }

        var fit = BetaBinomialRegression.Fit(all, design);
        var found = fit.Coefficients.Named("first");
        if (found.StandardError is not { } error)
        {
            return (null, fit.Correlation);
        }

        var reach = StudentT.InvCDF(0, 1, all.Count - 2 - others.Count, 0.95) * error;
        return (
            Interval.FromPoints(found.Estimate - reach, found.Estimate, found.Estimate + reach),
            fit.Correlation
        );
    }
}
