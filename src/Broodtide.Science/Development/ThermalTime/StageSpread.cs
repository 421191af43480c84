using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.ThermalTime;

/// <summary>
/// How far animals of one age differ in the time they take. Distributions: MathNet.Numerics.
/// </summary>
public static class StageSpread
{
    /// <summary>
    /// Share that is done at a time, by Weibull's law with a delay, 1 - e^(-((x - gamma)/eta)^beta) (form of Wagner and
    /// others 1984, Ann. Entomol. Soc. Am. 77:475).
    /// </summary>
    /// <param name="time">x, the time over its usual length.</param>
    /// <param name="delay">gamma: nobody is done before.</param>
    /// <param name="scale">eta, above zero.</param>
    /// <param name="shape">beta, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Probability WeibullDone(double time, double delay, double scale, double shape) =>
        Probability.FromFraction(
            Weibull.CDF(
                Finite.Positive(shape),
                Finite.Positive(scale),
                Math.Max(0, Finite.Required(time) - Finite.Required(delay))
            )
        );

    /// <summary>Time at which a share is done, by the same law.</summary>
    /// <param name="done">The share, below one.</param>
    /// <param name="delay">gamma.</param>
    /// <param name="scale">eta, above zero.</param>
    /// <param name="shape">beta, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double WeibullTime(Probability done, double delay, double scale, double shape) =>
        Finite.Required(delay)
        + (
            Finite.Positive(scale)
            * Math.Pow(-Math.Log(Finite.Positive(done.Opposite, nameof(done))), 1 / Finite.Positive(shape))
        );

    /// <summary>Time at which a share is done where the logarithm of the time is normal.</summary>
    /// <param name="mean">Mean time, above zero.</param>
    /// <param name="variation">Standard deviation over the mean, above zero.</param>
    /// <param name="done">The share, between zero and one.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double LogNormalTime(double mean, double variation, Probability done)
    {
        var variance = Math.Log(1 + Math.Pow(Finite.Positive(variation), 2));
        return LogNormal.InvCDF(
            Math.Log(Finite.Positive(mean)) - (variance / 2),
            Math.Sqrt(variance),
            Finite.Within(done.Value, double.Epsilon, 1 - 1e-16, nameof(done))
        );
    }

    /// <summary>Steps of equal length that give a variation, 1/CV^2 (Manetsch 1976, IEEE Trans. Syst. Man Cybern. 6:547).</summary>
    /// <param name="variation">Standard deviation over the mean, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The variation is not above zero.</exception>
    public static double ErlangSteps(double variation) => 1 / Math.Pow(Finite.Positive(variation), 2);

    /// <summary>Share that is done where the time is a sum of so many steps, each exponential.</summary>
    /// <param name="steps">How many, 1 or more.</param>
    /// <param name="mean">Mean of the whole time, above zero.</param>
    /// <param name="time">0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static Probability ErlangDone(int steps, double mean, double time)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(steps, 1);
        return Probability.FromFraction(
            SpecialFunctions.GammaLowerRegularized(
                steps,
                steps * Finite.NotNegative(time) / Finite.Positive(mean)
            )
        );
    }
}
