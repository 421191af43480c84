using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>
/// A belief about a number in the shape of a normal distribution. The unit is that of whatever is believed in.
/// </summary>
public sealed record NormalBelief
{
    /// <summary>A belief by its two parameters.</summary>
    /// <param name="mean">Mean.</param>
    /// <param name="standardDeviation">Standard deviation, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not finite, or the standard deviation is not positive.
    /// </exception>
    public NormalBelief(double mean, double standardDeviation)
    {
        Mean = Finite.Required(mean);
        StandardDeviation = Finite.Positive(standardDeviation);
    }

    /// <summary>Mean.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation, above zero.</summary>
    public double StandardDeviation { get; }

    /// <summary>
    /// The belief after observations with normal errors: precisions add, means weigh by precision.
    /// </summary>
    /// <param name="observations">What was observed.</param>
    /// <param name="standardDeviations">The error of each, above zero.</param>
    /// <exception cref="ArgumentException">The lists differ in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or an error not positive.</exception>
    public NormalBelief After(ReadOnlySpan<double> observations, ReadOnlySpan<double> standardDeviations)
    {
        if (observations.Length != standardDeviations.Length)
        {
            throw new ArgumentException(
                "Every observation needs its standard deviation.",
                nameof(standardDeviations)
            );
        }

        var precision = 1 / (StandardDeviation * StandardDeviation);
        var weighted = Mean * precision;
        for (var i = 0; i < observations.Length; i++)
        {
            var sd = Finite.Positive(standardDeviations[i], nameof(standardDeviations));
            precision += 1 / (sd * sd);
            weighted += Finite.Required(observations[i], nameof(observations)) / (sd * sd);
        }

        return new(weighted / precision, Math.Sqrt(1 / precision));
    }

    /// <summary>The point below which the number lies with a probability.</summary>
    /// <param name="probability">Above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is 0 or 1, whose points are infinite.</exception>
    public double Quantile(Probability probability) =>
        Finite.Required(Normal.InvCDF(Mean, StandardDeviation, probability.Value));

    /// <summary>The belief as 5, 50 and 95 % points.</summary>
    public Interval ToInterval() => Interval.FromNormal(Mean, StandardDeviation);
}
