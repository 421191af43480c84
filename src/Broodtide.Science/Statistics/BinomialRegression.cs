using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Statistics;

/// <summary>A fitted binomial regression.</summary>
/// <param name="Coefficients">Coefficients on the scale of the link.</param>
/// <param name="Fitted">Fitted probability of each row.</param>
/// <param name="Deviance">Residual deviance, twice the log likelihood short of one probability for each row.</param>
/// <param name="PearsonChiSquare">Sum of squared Pearson residuals.</param>
/// <param name="DegreesOfFreedom">Rows less coefficients.</param>
/// <param name="LogLikelihood">Log likelihood with the binomial coefficients, nat.</param>
/// <param name="Separated">
/// Whether a fitted probability ran to 0 or 1: a coefficient has then no finite estimate, only a direction.
/// </param>
public sealed record BinomialFit(
    IReadOnlyList<Coefficient> Coefficients,
    IReadOnlyList<double> Fitted,
    double Deviance,
    double PearsonChiSquare,
    int DegreesOfFreedom,
    double LogLikelihood,
    bool Separated
)
{
    /// <summary>
    /// Pearson chi-square over degrees of freedom: by how much the variance between rows exceeds that of independent
    /// individuals. Standard errors grow by its root. NaN without degrees of freedom.
    /// </summary>
    public double Dispersion => PearsonChiSquare / DegreesOfFreedom;
}

/// <summary>
/// Binomial regression by iteratively reweighted least squares (McCullagh and Nelder 1989, Generalized Linear
/// Models, section 4.4).
/// </summary>
public static class BinomialRegression
{
    private const int MostSteps = 100;
    private const double Tolerance = 1e-12;
    private const double NearlyCertain = 1e-7;

    /// <summary>Fits shares that respond to a design.</summary>
    /// <param name="tallies">One tally for each row of the design.</param>
    /// <param name="design">The right side.</param>
    /// <param name="link">How the probability hangs on it.</param>
    /// <exception cref="ArgumentException">Rows differ, or the columns say the same twice.</exception>
    public static BinomialFit Fit(
        IReadOnlyList<Tally> tallies,
        RegressionDesign design,
        BinomialLink link = BinomialLink.Logit
    )
    {
        var x = design.Matrix();
        if (tallies.Count != design.Rows || x.Rank() < x.ColumnCount)
        {
            throw new ArgumentException(
                "A regression needs one tally for each row, and columns of which none follows from the others.",
                nameof(tallies)
            );
        }

        var line = Vector<double>.Build.Dense(
            tallies.Count,
            i => link.Line((tallies[i].Happened + 0.5) / (tallies[i].Trials + 1.0))
        );
        var coefficients = Vector<double>.Build.Dense(x.ColumnCount);
        var deviance = double.MaxValue;
        var information = x.TransposeThisAndMultiply(x);
        for (var step = 0; step < MostSteps; step++)
        {
            var (weights, working) = Working(tallies, link, line);
            var weighted = Matrix<double>.Build.DenseOfDiagonalVector(weights) * x;
            information = x.TransposeThisAndMultiply(weighted);
            coefficients = information.Solve(weighted.TransposeThisAndMultiply(working));
            line = x * coefficients;
            var next = Deviance(tallies, link, line);
            var still = Math.Abs(next - deviance) <= Tolerance * (0.1 + Math.Abs(next));
            deviance = next;
            if (still)
            {
                break;
            }
        }

        var fitted = line.Select(eta => link.Inverse(eta)).ToArray();
        var errors = information.PseudoInverse().Diagonal().Select(v => (double?)Math.Sqrt(Math.Max(0, v)));
        return new(
            Statistics.Coefficients.Of(design.Names, coefficients.ToArray(), errors.ToArray()),
            fitted,
            deviance,
            Overdispersion.PearsonChiSquare(tallies, fitted),
            design.Rows - x.ColumnCount,
            LogLikelihood(tallies, fitted),
            fitted.Any(p => p < NearlyCertain || p > 1 - NearlyCertain)
        );
    }

    /// <summary>
    /// F of leaving a term out where rows vary more than independent individuals: the rise of the deviance over its
    /// degrees of freedom, divided by the residual deviance of the whole model over its own.
    /// </summary>
    /// <exception cref="ArgumentException">There is no such term, or no degree of freedom is left.</exception>
    public static double QuasiF(
        IReadOnlyList<Tally> tallies,
        RegressionDesign design,
        string term,
        BinomialLink link = BinomialLink.Logit
    )
    {
        var whole = Fit(tallies, design, link);
        var less = Fit(tallies, design.Without(term), link);
        if (whole.DegreesOfFreedom < 1)
        {
            throw new ArgumentException(
                "As many coefficients as rows leave nothing to test with.",
                nameof(design)
            );
        }

        var rise = (less.Deviance - whole.Deviance) / (less.DegreesOfFreedom - whole.DegreesOfFreedom);
        return rise / (whole.Deviance / whole.DegreesOfFreedom);
    }

    /// <summary>Log likelihood of probabilities, with the binomial coefficients.</summary>
    internal static double LogLikelihood(IReadOnlyList<Tally> tallies, IReadOnlyList<double> probabilities) =>
        tallies
            .Zip(probabilities)
            .Sum(row =>
                LogProbability.Binomial(
                    row.First.Happened,
                    row.First.Trials,
                    Units.Probability.FromFraction(row.Second)
                )
            );

    /// <summary>Covariance of the coefficients of a fit.</summary>
    internal static Matrix<double> Covariance(
        IReadOnlyList<Tally> tallies,
        RegressionDesign design,
        BinomialLink link,
        BinomialFit fit
    )
    {
        var x = design.Matrix();
        var line =
            x
            * Vector<double>.Build.DenseOfEnumerable(
                fit.Coefficients.Select(coefficient => coefficient.Estimate)
            );
        var (weights, _) = Working(tallies, link, line);
        return x.TransposeThisAndMultiply(Matrix<double>.Build.DenseOfDiagonalVector(weights) * x)
            .PseudoInverse();
    }

    private static (Vector<double> Weights, Vector<double> Working) Working(
        IReadOnlyList<Tally> tallies,
        BinomialLink link,
        Vector<double> line
    )
    {
        var weights = Vector<double>.Build.Dense(line.Count);
        var working = Vector<double>.Build.Dense(line.Count);
        for (var i = 0; i < line.Count; i++)
        {
            var (p, slope) = (link.Inverse(line[i]), link.Slope(line[i]));
            weights[i] = tallies[i].Trials * slope * slope / (p * (1 - p));
            working[i] = line[i] + ((tallies[i].Share - p) / slope);
        }

        return (weights, working);
    }

    private static double Deviance(IReadOnlyList<Tally> tallies, BinomialLink link, Vector<double> line)
    {
        var deviance = 0.0;
        for (var i = 0; i < line.Count; i++)
        {
            var (y, n, p) = (tallies[i].Happened, tallies[i].Trials, link.Inverse(line[i]));
            deviance += 2 * (Term(y, n * p) + Term(n - y, n * (1 - p)));
        }

        return deviance;
    }

    private static double Term(double seen, double expected) =>
        seen > 0 ? seen * Math.Log(seen / expected) : 0;
}
