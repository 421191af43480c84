using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Science.Comparing;
using Broodtide.Units;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>Prints treatments compared: intervals first, tests after them.</summary>
internal static class ComparedPage
{
    public static void Print(Page page, TreatmentsCompared compared, Saying saying)
    {
        page.Table(
            ["treatment", "vessels", "of", "share (5 to 95 %)", "within-vessel correlation", ""],
            compared.Arms.Select(arm =>
                (IReadOnlyList<string>)
                    [
                        arm.Treatment,
                        Whole(arm.Vessels.Count),
                        $"{Whole(arm.Vessels.Sum(vessel => vessel.Alive))} of {Whole(arm.Vessels.Sum(vessel => vessel.Started))}",
                        Shares(arm.Share.Share),
                        arm.Share.Correlation is { } correlation ? Figure(correlation, 3) : "",
                        Saying.Of(arm.Share.Basis),
                    ]
            )
        );
        foreach (var pair in compared.Pairs)
        {
            page.Line($"{pair.Treatment} less {pair.With}: {Shares(pair.Arms.Difference)}");
            if (pair.Arms.LogOddsRatio is { } odds)
            {
                page.Line(
                    $"  log odds ratio {Figure(odds.Middle, 2)} ({Figure(odds.Low, 2)} to {Figure(odds.High, 2)})"
                );
            }

            page.Line($"  {Tested(pair)}");
        }

        Factors(page, compared.Factors);
        foreach (var remark in compared.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }

    public static string Figure(double value, int places) =>
        value.ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Tested(ComparedPair pair) =>
        pair.Arms.Permutation is not { } test
            ? "No test is possible: one vessel of each."
            : $"p {P(test)}{(pair.AdjustedP is { } adjusted && adjusted.Value > test.P.Value ? $" ({Figure(adjusted.Value, 3)} for that many comparisons)" : "")}, the smallest possible {Smallest(test)}: {Whole(test.Arrangements)} {(test.IsExact ? "arrangements, all there are" : "arrangements, drawn")}";

    private static string P(PermutationOutcome test) =>
        test.P.Value < 0.0005 ? "under 0.001" : Figure(test.P.Value, 3);

    private static string Smallest(PermutationOutcome test) =>
        test.SmallestP.Value < 0.0005 ? "under 0.001" : Figure(test.SmallestP.Value, 3);

    private static void Factors(Page page, FactorsFitted? fitted)
    {
        if (fitted is null)
        {
            return;
        }

        page.Line()
            .Heading("One line over all factors")
            .Facts(
                (
                    "deviance",
                    $"{Figure(fitted.Deviance, 2)} on {Whole(fitted.DegreesOfFreedom)} degrees of freedom"
                ),
                (
                    "dispersion",
                    $"{Figure(fitted.Dispersion, 4)}: errors of independent individuals are {Figure(Math.Sqrt(Math.Max(0, fitted.Dispersion)), 1)} times too small"
                )
            );
        foreach (var (factor, value) in fitted.F)
        {
            page.Line($"without {factor}: F {Figure(value, 3)}");
        }

        if (fitted.BetaBinomial is { } clumped)
        {
            page.Line($"with a vessel effect (correlation {Figure(clumped.Correlation, 4)}), log odds:");
            page.Table(
                ["", "estimate", "standard error"],
                clumped.Coefficients.Select(it =>
                    (IReadOnlyList<string>)
                        [
                            it.Name,
                            Figure(it.Estimate, 3),
                            it.StandardError is { } error ? Figure(error, 3) : "",
                        ]
                )
            );
        }
    }

    private static string Shares(Interval share) =>
        $"{Percent(share.Middle)} ({Percent(share.Low)} to {Percent(share.High)})";

    private static string Percent(double share) => $"{Figure(100 * share, 1)} %";

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
