using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Continuous ranked probability score (CRPS) of continuous forecasts: the smaller the better, in the unit of what is
/// forecast, and equal to the plain miss where the forecast is a point.
/// Source: Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102:359; closed forms as in Jordan, Krueger and Lerch
/// 2019, J. Stat. Softw. 90(12).
/// </summary>
public static class RankedProbabilityScore
{
    /// <summary>Of a normal forecast: s (z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)).</summary>
    /// <param name="forecast">The forecast.</param>
    /// <param name="happened">What happened.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Normal(NormalBelief forecast, double happened)
    {
        var z = (Finite.Required(happened) - forecast.Mean) / forecast.StandardDeviation;
        return forecast.StandardDeviation
            * (
                (z * Both(z))
                + (2 * MathNet.Numerics.Distributions.Normal.PDF(0, 1, z))
                - (1 / Math.Sqrt(Math.PI))
            );
    }

    /// <summary>Of a gamma forecast.</summary>
    /// <param name="forecast">The forecast.</param>
    /// <param name="happened">What happened; below zero is simply far off.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Gamma(GammaBelief forecast, double happened)
    {
        var y = Finite.Required(happened);
        var below = y > 0 ? MathNet.Numerics.Distributions.Gamma.CDF(forecast.Shape, forecast.Rate, y) : 0;
        var next = y > 0 ? MathNet.Numerics.Distributions.Gamma.CDF(forecast.Shape + 1, forecast.Rate, y) : 0;
        return (y * ((2 * below) - 1))
            - (forecast.Mean * ((2 * next) - 1))
            - (1 / (forecast.Rate * SpecialFunctions.Beta(0.5, forecast.Shape)));
    }

    /// <summary>Of a lognormal forecast.</summary>
    /// <param name="logForecast">The forecast of the natural logarithm.</param>
    /// <param name="happened">What happened; below zero is simply far off.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the forecast has no finite mean.</exception>
    public static double LogNormal(NormalBelief logForecast, double happened)
    {
        var y = Finite.Required(happened);
        var s = logForecast.StandardDeviation;
        var z = y > 0 ? (Math.Log(y) - logForecast.Mean) / s : double.NegativeInfinity;
        var mean = Finite.Required(Math.Exp(logForecast.Mean + (s * s / 2)));
        return (y * Both(z)) - (2 * mean * (Phi(z - s) + Phi(s / Math.Sqrt(2)) - 1));
    }

    /// <summary>
    /// Of members drawn from a forecast: mean |X - y| less half of mean |X - X'|.
    /// </summary>
    /// <param name="members">Members, at least one; two for the fair form.</param>
    /// <param name="happened">What happened.</param>
    /// <param name="fair">Divide the pairs by M (M - 1) instead of M^2, so that few members are not punished.</param>
    /// <exception cref="ArgumentException">Too few members.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public static double Ensemble(ReadOnlySpan<double> members, double happened, bool fair)
    {
        if (members.Length < (fair ? 2 : 1))
        {
            throw new ArgumentException("The score needs one member, the fair one two.", nameof(members));
        }

        Finite.Required(happened);
        double miss = 0;
        double spread = 0;
        foreach (var member in members)
        {
            miss += Math.Abs(Finite.Required(member, nameof(members)) - happened);
            foreach (var other in members)
            {
                spread += Math.Abs(member - other);
            }
        }

        double count = members.Length;
        return (miss / count) - (spread / (2 * count * (fair ? count - 1 : count)));
    }

    /// <summary>
    /// Of a forecast known by three points only: half of a normal on either side of the median, each as wide as its
    /// point says. The distribution goes through all three points; where a side is of no width, all of its half lies on
    /// the median.
    /// </summary>
    /// <param name="forecast">5, 50 and 95 % points.</param>
    /// <param name="happened">What happened, in the same unit.</param>
    /// <returns>0 or more, in that unit.</returns>
    /// <remarks>
    /// From the integral of Phi squared up to z, which is z Phi(z)^2 + 2 phi(z) Phi(z) - Phi(z sqrt 2) / sqrt pi.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Halves(Interval forecast, double happened)
    {
        var above = Finite.Required(happened) >= forecast.Middle;
        var far = Math.Abs(happened - forecast.Middle);
        var near = (above ? forecast.High - forecast.Middle : forecast.Middle - forecast.Low) / Point95;
        var other = (above ? forecast.Middle - forecast.Low : forecast.High - forecast.Middle) / Point95;
        if (near <= 0)
        {
            return far + (other * Tail(0));
        }

        var z = far / near;
        return (other * Tail(0)) + (near * (Tail(z) - Tail(0) + Tail(-z)));
    }

    // Standard normal, 95 % point.
    private const double Point95 = 1.6448536269514722;

    // The integral of Phi squared from minus infinity to z.
    private static double Tail(double z)
    {
        var below = Phi(z);
        var density = Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI);
        return (z * below * below) + (2 * below * density) - (Phi(z * Math.Sqrt(2)) / Math.Sqrt(Math.PI));
    }

    private static double Phi(double z) => 0.5 * SpecialFunctions.Erfc(-z / Math.Sqrt(2));

    // 2 Phi(z) - 1.
    private static double Both(double z) => SpecialFunctions.Erf(z / Math.Sqrt(2));
}
