namespace Broodtide.Science.Statistics;

/// <summary>A fitted beta-binomial regression.</summary>
/// <param name="Coefficients">Coefficients of the mean, logarithm of the odds.</param>
/// <param name="Correlation">
/// Correlation between individuals of one vessel, 0 to 1, common to all rows; 0 where clumping does not show.
/// </param>
/// <param name="LogLikelihood">Log likelihood with the binomial coefficients, nat.</param>
/// <param name="Converged">Whether the search came to rest.</param>
public sealed record BetaBinomialFit(
    IReadOnlyList<Coefficient> Coefficients,
    double Correlation,
    double LogLikelihood,
    bool Converged
);

/// <summary>
/// Regression of shares between vessels that differ more than by chance: a = mu (1 - rho) / rho, variance
/// n mu (1 - mu) (1 + (n - 1) rho). Sources: Williams 1975, Biometrics 31:949; Crowder 1978, Appl. Statist. 27:34.
/// </summary>
public static class BetaBinomialRegression
{
    // Where the search for the correlation begins, and below which none is said to show.
    private const double FirstCorrelation = 0.05;
    private const double LeastCorrelation = 1e-7;

    /// <summary>Fits a mean that hangs on a design by its odds, and one correlation.</summary>
    /// <exception cref="ArgumentException">Rows differ, or the columns say the same twice.</exception>
    public static BetaBinomialFit Fit(IReadOnlyList<Tally> tallies, RegressionDesign design)
    {
        var plain = BinomialRegression.Fit(tallies, design);
        var x = design.Matrix();
        var names = design.Names.Count;
        double[] start =
        [
            .. plain.Coefficients.Select(coefficient => coefficient.Estimate),
            BinomialLink.Logit.Line(FirstCorrelation),
        ];
        var found = Maximum.Find(
            parameters =>
            {
                var line = x * MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(parameters[..names]);
                var correlation = BinomialLink.Logit.Inverse(parameters[names]);
                return Enumerable
                    .Range(0, tallies.Count)
                    .Sum(i => LogLikelihood(tallies[i], BinomialLink.Logit.Inverse(line[i]), correlation));
            },
            start
        );
        var rho = BinomialLink.Logit.Inverse(found.At[names]);
        return rho < LeastCorrelation || found.Value <= plain.LogLikelihood
            ? new(plain.Coefficients, 0, plain.LogLikelihood, true)
            : new(
                Coefficients.Of(design.Names, found.At, found.StandardErrors()),
                rho,
                found.Value,
                found.Converged
            );
    }

    /// <summary>The fitted mean of all rows where the design is one mean.</summary>
    public static double Mean(this BetaBinomialFit fit) =>
        BinomialLink.Logit.Inverse(fit.Coefficients.Named(RegressionDesign.Intercept).Estimate);

    private static double LogLikelihood(Tally row, double mean, double correlation)
    {
        var size = (1 - correlation) / correlation;
        return LogProbability.BetaBinomial(row.Happened, row.Trials, new(mean * size, (1 - mean) * size));
    }
}
