using Broodtide.Units;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Statistics;

/// <summary>A fitted regression with a normal effect of every row.</summary>
/// <param name="Coefficients">Coefficients, logarithm of the odds in a middling vessel.</param>
/// <param name="VesselSd">Standard deviation between vessels, logarithm of the odds; 0 where none shows.</param>
/// <param name="LogLikelihood">Log likelihood with the binomial coefficients, nat.</param>
/// <param name="Converged">Whether the search came to rest.</param>
public sealed record VesselEffectFit(
    IReadOnlyList<Coefficient> Coefficients,
    double VesselSd,
    double LogLikelihood,
    bool Converged
);

/// <summary>
/// Binomial regression in which every row, a vessel, has a normal effect of its own on the odds, integrated out by
/// adaptive Gauss-Hermite quadrature about the likeliest effect (Pinheiro and Bates 1995, J. Comput. Graph. Statist.
/// 4:12; one point is Laplace's approximation).
/// </summary>
public static class VesselEffectRegression
{
    private const double FirstSd = 0.3;
    private const double LeastSd = 1e-4;
    private const int NewtonSteps = 50;
    private const double Tolerance = 1e-12;

    /// <summary>Fits coefficients and the standard deviation between rows.</summary>
    /// <param name="tallies">One tally for each row of the design.</param>
    /// <param name="design">The right side.</param>
    /// <param name="points">Points of the quadrature, 1 to 100.</param>
    /// <exception cref="ArgumentException">Rows differ, or the columns say the same twice.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such number of points.</exception>
    public static VesselEffectFit Fit(IReadOnlyList<Tally> tallies, RegressionDesign design, int points = 15)
    {
        var rule = GaussHermite.Rule(points);
        var plain = BinomialRegression.Fit(tallies, design);
        var x = design.Matrix();
        var names = design.Names.Count;
        double[] start = [.. plain.Coefficients.Select(c => c.Estimate), Math.Log(FirstSd)];
        var found = Maximum.Find(
            parameters =>
            {
                var line = x * Vector<double>.Build.Dense(parameters[..names]);
                var sd = Math.Exp(parameters[names]);
                return Enumerable.Range(0, tallies.Count).Sum(i => Integrated(tallies[i], line[i], sd, rule));
            },
            start
        );
        var between = Math.Exp(found.At[names]);
        return between < LeastSd || found.Value <= plain.LogLikelihood
            ? new(plain.Coefficients, 0, plain.LogLikelihood, true)
            : new(
                Coefficients.Of(design.Names, found.At, found.StandardErrors()),
                between,
                found.Value,
                found.Converged
            );
    }

    // ln of the integral over u of Binomial(y; n, logistic(line + sd u)) times the normal density of u.
    private static double Integrated(Tally row, double line, double sd, (double Point, double Weight)[] rule)
    {
        var u = 0.0;
        var curvature = 1.0;
        for (var step = 0; step < NewtonSteps; step++)
        {
            var p = BinomialLink.Logit.Inverse(line + (sd * u));
            curvature = 1 + (sd * sd * row.Trials * p * (1 - p));
            // A step of the concave exponent, held short so that it cannot swing.
            var move = Math.Clamp(((sd * (row.Happened - (row.Trials * p))) - u) / curvature, -2, 2);
            u += move;
            if (Math.Abs(move) < Tolerance)
            {
                break;
            }
        }

        var scale = Math.Sqrt(2 / curvature);
        var top = Exponent(row, line, sd, u);
        var sum = 0.0;
        foreach (var (point, weight) in rule)
        {
            sum += weight * Math.Exp(Exponent(row, line, sd, u + (scale * point)) - top + (point * point));
        }

        return top + Math.Log(sum * scale / Math.Sqrt(2 * Math.PI));
    }

    private static double Exponent(Tally row, double line, double sd, double u) =>
        LogProbability.Binomial(
            row.Happened,
            row.Trials,
            Probability.FromFraction(BinomialLink.Logit.Inverse(line + (sd * u)))
        ) - (u * u / 2);
}
