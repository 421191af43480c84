using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>A belief about a probability in the shape of a beta distribution.</summary>
public sealed record BetaBelief
{
    /// <summary>A belief by its two shapes.</summary>
    /// <param name="a">Shape towards one, above zero; like a number that responded.</param>
    /// <param name="b">Shape towards zero, above zero; like a number that did not.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public BetaBelief(double a, double b)
    {
        A = Finite.Positive(a);
        B = Finite.Positive(b);
    }

    /// <summary>All probabilities alike.</summary>
    public static BetaBelief Flat { get; } = new(1, 1);

    /// <summary>Shape towards one.</summary>
    public double A { get; }

    /// <summary>Shape towards zero.</summary>
    public double B { get; }

    /// <summary>Mean probability.</summary>
    public double Mean => A / (A + B);

    /// <summary>The belief after some of a number responded.</summary>
    public BetaBelief After(Tally tally) => new(A + tally.Happened, B + tally.Trials - tally.Happened);

    /// <summary>The point below which the probability lies with a probability.</summary>
    public double Quantile(Probability probability) => Beta.InvCDF(A, B, probability.Value);
}
