using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Comparing;

/// <summary>
/// Losses to a treatment beside those that occur without it: share = c + (1 - c) F(a + b dose), and c where there is no
/// dose (Abbott 1925, J. Econ. Entomol. 18:265; fitted together, Finney 1971, chapter 7).
/// </summary>
/// <param name="NaturalShare">Share lost without treatment.</param>
/// <param name="Intercept">The line at dose 0 of its scale.</param>
/// <param name="Slope">Its rise.</param>
/// <param name="LogLikelihood">Log likelihood with the binomial coefficients, nat.</param>
/// <param name="Converged">Whether the search came to rest.</param>
public sealed record NaturalLosses(
    Probability NaturalShare,
    double Intercept,
    double Slope,
    double LogLikelihood,
    bool Converged
)
{
    /// <summary>What a treatment takes of those that would have lived: (treated - control) / (1 - control).</summary>
    /// <param name="treated">Share lost under treatment.</param>
    /// <param name="control">Share lost without it, below 1.</param>
    /// <returns>Below 0 where fewer were lost under treatment.</returns>
    /// <exception cref="ArgumentOutOfRangeException">All were lost without treatment.</exception>
    public static double Corrected(Probability treated, Probability control)
    {
        Finite.Positive(control.Opposite, nameof(control));
        return (treated.Value - control.Value) / control.Opposite;
    }

    /// <summary>The dose, on the scale of the line, at which half of those that would have lived are lost.</summary>
    /// <param name="link">The link that was fitted.</param>
    public double HalfDose(BinomialLink link) => (link.Line(0.5) - Intercept) / Slope;

    /// <summary>Fits all three numbers together.</summary>
    /// <param name="doses">Dose of each row on the scale of the line; minus infinity where there was none.</param>
    /// <param name="tallies">How many were lost.</param>
    /// <param name="link">How the share hangs on the line.</param>
    /// <exception cref="ArgumentException">Rows differ, or fewer than two doses.</exception>
    public static NaturalLosses Of(
        IReadOnlyList<double> doses,
        IReadOnlyList<Tally> tallies,
        BinomialLink link = BinomialLink.Probit
    )
    {
        var dosed = doses.Where(double.IsFinite).Distinct().Count();
        if (
            doses.Count != tallies.Count
            || dosed < 2
            || doses.Any(dose => double.IsNaN(dose) || double.IsPositiveInfinity(dose))
        )
        {
            throw new ArgumentException(
                "Each row needs a dose, and two doses at least must differ.",
                nameof(doses)
            );
        }

        var without = doses
            .Zip(tallies)
            .Where(row => !double.IsFinite(row.First))
            .Select(row => row.Second)
            .ToList();
        var seen =
            without.Count > 0
                ? (without.Sum(t => t.Happened) + 0.5) / (without.Sum(t => t.Trials) + 1.0)
                : 0.02;
        var rows = doses.Zip(tallies).Where(row => double.IsFinite(row.First)).ToList();
        var start = BinomialRegression.Fit(
            [.. rows.Select(row => row.Second)],
            RegressionDesign.OneMean(rows.Count).With("slope", [.. rows.Select(row => row.First)]),
            link
        );
        var found = Maximum.Find(
            at => doses.Zip(tallies).Sum(row => LogLikelihoodOf(row.First, row.Second, at, link)),
            [BinomialLink.Logit.Line(seen), start.Coefficients[0].Estimate, start.Coefficients[1].Estimate]
        );
        return new(
            Probability.FromFraction(BinomialLink.Logit.Inverse(found.At[0])),
            found.At[1],
            found.At[2],
            found.Value,
            found.Converged
        );
    }

    private static double LogLikelihoodOf(double dose, Tally tally, double[] at, BinomialLink link)
    {
        var natural = BinomialLink.Logit.Inverse(at[0]);
        var share = double.IsFinite(dose) ? link.Inverse(at[1] + (at[2] * dose)) : 0;
        return LogProbability.Binomial(
            tally.Happened,
            tally.Trials,
            Probability.FromFraction(natural + ((1 - natural) * share))
        );
    }
}
