using Broodtide.Units;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;

namespace Broodtide.Science.Trials;

/// <summary>What is worth trying next.</summary>
public static class NextPoint
{
    /// <summary>
    /// How much better than the best so far a try will be on average, none counting as 0 (Jones, Schonlau and Welch 1998, J.
    /// Glob. Optim. 13:455): more is better.
    /// </summary>
    /// <param name="mean">What the try is expected to bring.</param>
    /// <param name="deviation">How unsure that is, standard deviation, 0 or more.</param>
    /// <param name="best">The best so far.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the deviation negative.</exception>
    public static double ExpectedImprovement(double mean, double deviation, double best)
    {
        var gain = Finite.Required(mean) - Finite.Required(best);
        if (Finite.NotNegative(deviation) == 0)
        {
            return Math.Max(0, gain);
        }

        var z = gain / deviation;
        return (gain * Normal.CDF(0, 1, z)) + (deviation * Normal.PDF(0, 1, z));
    }

    /// <summary>The probability that one share is above another, each believed as a beta distribution.</summary>
    /// <param name="first">Responded and not responded of the first, each above 0.</param>
    /// <param name="second">The same of the second.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not above 0.</exception>
    public static Probability FirstIsHigher((double A, double B) first, (double A, double B) second)
    {
        Finite.Positive(first.A, nameof(first));
        Finite.Positive(first.B, nameof(first));
        Finite.Positive(second.A, nameof(second));
        Finite.Positive(second.B, nameof(second));
        // Where the density of the first has no pole it is integrated itself; else over the share that lies below it.
        var above =
            first.A >= 1 && first.B >= 1
                ? GaussLegendreRule.Integrate(
                    x => Beta.PDF(first.A, first.B, x) * Beta.CDF(second.A, second.B, x),
                    0,
                    1,
                    256
                )
                : GaussLegendreRule.Integrate(
                    u => Beta.CDF(second.A, second.B, Beta.InvCDF(first.A, first.B, u)),
                    0,
                    1,
                    256
                );
        return Probability.FromFraction(Math.Clamp(above, 0, 1));
    }

    /// <summary>Distance between two shares on the scale of the arcsine of their root (Cohen 1988, chapter 6).</summary>
    public static double CohensH(Probability first, Probability second) =>
        (2 * Math.Asin(Math.Sqrt(first.Value))) - (2 * Math.Asin(Math.Sqrt(second.Value)));
}
