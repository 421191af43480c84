using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>A belief about a rate of events in the shape of a gamma distribution (shape and rate).</summary>
public sealed record GammaBelief
{
    /// <summary>A belief by its two parameters.</summary>
    /// <param name="shape">Shape, above zero.</param>
    /// <param name="rate">Rate, above zero, in units of exposure.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public GammaBelief(double shape, double rate)
    {
        Shape = Finite.Positive(shape);
        Rate = Finite.Positive(rate);
    }

    /// <summary>Shape.</summary>
    public double Shape { get; }

    /// <summary>Rate, in units of exposure.</summary>
    public double Rate { get; }

    /// <summary>Mean, events for each unit of exposure.</summary>
    public double Mean => Shape / Rate;

    /// <summary>Standard deviation, events for each unit of exposure.</summary>
    public double StandardDeviation => Math.Sqrt(Shape) / Rate;

    /// <summary>The belief after a Poisson count over an exposure: shape + count, rate + exposure.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public GammaBelief After(double count, double exposure) =>
        new(Shape + Finite.NotNegative(count), Rate + Finite.NotNegative(exposure));

    /// <summary>The point below which the rate lies with a probability.</summary>
    /// <param name="probability">0 to below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The probability is 1, whose point is infinite.</exception>
    public double Quantile(Probability probability) =>
        Finite.Required(Gamma.InvCDF(Shape, Rate, probability.Value));

    /// <summary>The belief as 5, 50 and 95 % points.</summary>
    public Interval ToInterval() =>
        Interval.FromPoints(
            Quantile(Probability.FromFraction(0.05)),
            Quantile(Probability.FromFraction(0.5)),
            Quantile(Probability.FromFraction(0.95))
        );
}
