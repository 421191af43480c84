using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Continuous ranked probability score of forecasts of counts: the area between the forecast's steps and the step at
/// what happened, squared. Source: Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102:359.
/// </summary>
public static class CountScore
{
    // What is left above is below this; squared and summed it no longer shows.
    private const double Negligible = 1e-12;
    private const int MostSteps = 10_000_000;

    /// <summary>Of a Poisson forecast.</summary>
    /// <param name="mean">Mean, above zero.</param>
    /// <param name="happened">What happened, commonly a count.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the mean is not positive or over a million.</exception>
    public static double Poisson(double mean, double happened)
    {
        Finite.Within(mean, double.Epsilon, 1e6);
        return Area(k => SpecialFunctions.GammaUpperRegularized(k + 1, mean), happened);
    }

    /// <summary>Of a negative binomial forecast.</summary>
    /// <param name="size">Size, above zero.</param>
    /// <param name="probability">Probability of success, size / (size + mean), above 0 to 1.</param>
    /// <param name="happened">What happened, commonly a count.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not finite, not positive, or a mean over a million.
    /// </exception>
    public static double NegativeBinomial(double size, Probability probability, double happened)
    {
        var p = Finite.Positive(probability.Value, nameof(probability));
        Finite.Within(Finite.Positive(size) * (1 - p) / p, 0, 1e6, nameof(size));
        return Area(k => SpecialFunctions.BetaRegularized(size, k + 1, p), happened);
    }

    private static double Area(Func<int, double> cumulative, double happened)
    {
        var y = Finite.Within(happened, -1e7, MostSteps);
        // Below zero the forecast is 0 everywhere, so an impossible outcome counts by its distance.
        var area = Math.Max(0, -y);
        for (var k = 0; k < MostSteps; k++)
        {
            var below = cumulative(k);
            // On [k, k+1) the forecast is flat; what happened may lie inside.
            var before = Math.Clamp(y - k, 0, 1);
            area += (before * below * below) + ((1 - before) * (1 - below) * (1 - below));
            if (k + 1 >= y && 1 - below < Negligible)
            {
                break;
            }
        }

        return area;
    }
}
