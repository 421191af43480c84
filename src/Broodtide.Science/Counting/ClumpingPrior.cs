using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Counting;

/// <summary>
/// What is believed of the clumping k of aliquots before they are counted: log-normal, or known, or no clumping. With
/// three to five aliquots the counts themselves hardly tell it.
/// </summary>
public sealed record ClumpingPrior
{
    // The logarithm of k is integrated over points a quarter of a standard deviation apart.
    private const double Reach = 3.5;
    private const double Apart = 0.25;

    private ClumpingPrior(double medianK, double logSd)
    {
        MedianK = medianK;
        LogSd = logSd;
    }

    /// <summary>
    /// Median 5, standard deviation of ln k 0.7, so that nine in ten lie from 1.6 to 16. Our choice for larvae stirred
    /// by hand: practice without a source.
    /// </summary>
    public static ClumpingPrior Usual { get; } = LogNormal(5, 0.7);

    /// <summary>Evenly mixed: no clumping, Poisson.</summary>
    public static ClumpingPrior EvenlyMixed { get; } = new(double.PositiveInfinity, 0);

    /// <summary>Median of k; infinite where evenly mixed.</summary>
    public double MedianK { get; }

    /// <summary>Standard deviation of ln k; 0 where known.</summary>
    public double LogSd { get; }

    /// <summary>Mean of 1/k, by which clumping enters the precision of a count: exp(sd^2 / 2) / median.</summary>
    public double MeanReciprocal => Math.Exp(LogSd * LogSd / 2) / MedianK;

    /// <summary>Log-normal about a median.</summary>
    /// <param name="medianK">Median, above zero.</param>
    /// <param name="logSd">Standard deviation of ln k, above 0 to 3.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static ClumpingPrior LogNormal(double medianK, double logSd) =>
        new(Finite.Positive(medianK), Finite.Within(logSd, 1e-6, 3));

    /// <summary>Known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public static ClumpingPrior Known(double k) => new(Finite.Positive(k), 0);

    /// <summary>Points of ln k, equally spaced, with their weights.</summary>
    internal (double LogK, double Weight)[] Points()
    {
        if (LogSd <= 0)
        {
            return [(Math.Log(MedianK), 1)];
        }

        var points = new (double LogK, double Weight)[(int)(2 * Reach / Apart) + 1];
        for (var i = 0; i < points.Length; i++)
        {
            var z = (i * Apart) - Reach;
            points[i] = (Math.Log(MedianK) + (LogSd * z), Apart * Normal.PDF(0, 1, z));
        }

        return points;
    }
}
