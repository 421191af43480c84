using Broodtide.Units;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Series;

/// <summary>
/// How many readings pass on average before a chart of cumulative sums gives a signal: how often it cries wolf where
/// nothing has changed, and how long it takes where something has. For readings that are normal and independent; readings
/// that follow each other's errors signal more often than this says.
/// </summary>
public static class RunLength
{
    // Nodes of the quadrature; 465.4 and 10.38 of the printed tables stand to their last digit from 20 on.
    private const int Nodes = 60;

    // Mean overshoot of a sum of standard normals over a boundary, at both ends (Siegmund 1985, Sequential Analysis, 2.4 and 10.2).
    private const double Overshoot = 1.166;

    /// <summary>
    /// One side, from zero, by the integral equation of the sum (Page 1954, Biometrika 41:100) on Gauss-Legendre nodes.
    /// </summary>
    /// <param name="slack">The slack in standard deviations of a reading, not below 0.</param>
    /// <param name="threshold">The threshold in standard deviations, above 0, at most 20.</param>
    /// <param name="shift">How far the readings lie above the target, in standard deviations, from -5 to 5; where the
    /// slack exceeds it by so much that a signal takes more than about 1e12 readings the figure is rough.</param>
    /// <returns>Mean number of readings up to and with the signal, at least 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public static double OneSided(double slack, double threshold, double shift)
    {
        var height = Check(slack, threshold, shift);
        var drift = shift - slack;
        var rule = new GaussLegendreRule(0, height, Nodes);
        // The last unknown is the mean from zero, where a sum that ran out waits.
        var matrix = Matrix<double>.Build.Dense(
            Nodes + 1,
            Nodes + 1,
            (row, column) =>
            {
                var from = row < Nodes ? rule.GetAbscissa(row) : 0;
                var leads =
                    column < Nodes
                        ? rule.GetWeight(column) * Normal.PDF(0, 1, rule.GetAbscissa(column) - from - drift)
                        : Normal.CDF(0, 1, -from - drift);
                return (row == column ? 1 : 0) - leads;
            }
        );
        return matrix.Solve(Vector<double>.Build.Dense(Nodes + 1, 1))[Nodes];
    }

    /// <summary>Either side, whichever signals first: the rates of both sides add (Van Dobben de Bruyn 1968).</summary>
    /// <inheritdoc cref="OneSided"/>
    public static double TwoSided(double slack, double threshold, double shift) =>
        Both(OneSided(slack, threshold, shift), OneSided(slack, threshold, -shift));

    /// <summary>One side, by a formula without a system of equations (Siegmund 1985, Sequential Analysis), good to a few per cent.</summary>
    /// <inheritdoc cref="OneSided"/>
    public static double OneSidedRoughly(double slack, double threshold, double shift)
    {
        var drift = Finite.Within(shift, -5, 5) - Finite.NotNegative(slack);
        var height = Check(slack, threshold, shift) + Overshoot;
        // Near no drift the two terms cancel; the limit is the square.
        return Math.Abs(drift * height) < 1e-4
            ? height * height
            : (Math.Exp(-2 * drift * height) + (2 * drift * height) - 1) / (2 * drift * drift);
    }

    /// <summary>Either side, by the formula.</summary>
    /// <inheritdoc cref="OneSided"/>
    public static double TwoSidedRoughly(double slack, double threshold, double shift) =>
        Both(OneSidedRoughly(slack, threshold, shift), OneSidedRoughly(slack, threshold, -shift));

    private static double Both(double one, double other) => 1 / ((1 / one) + (1 / other));

    private static double Check(double slack, double threshold, double shift)
    {
        Finite.NotNegative(slack);
        Finite.Within(shift, -5, 5);
        return Finite.Within(threshold, double.Epsilon, 20);
    }
}
