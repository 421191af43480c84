using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Statistics;

/// <summary>
/// A normal belief of which everything below a point is ruled out, such as a hatch that has not come yet.
/// Formulas: mean = m + s l and variance = s^2 (1 + a l - l^2), with a = (cut - m)/s and l the normal density over
/// the upper tail at a (Johnson, Kotz and Balakrishnan 1994, Continuous Univariate Distributions 1, section 10.1).
/// </summary>
public sealed record TruncatedNormal
{
    // From here on the tail is so thin that a series in 1/a says it better than a ratio of tiny numbers.
    private const double FarTail = 25;

    private readonly double _cut;

    /// <summary>What is left of a belief above a point.</summary>
    /// <param name="whole">The belief before.</param>
    /// <param name="above">Nothing lies below this.</param>
    /// <exception cref="ArgumentOutOfRangeException">The point is not finite.</exception>
    public TruncatedNormal(NormalBelief whole, double above)
    {
        Whole = whole;
        Above = Finite.Required(above);
        _cut = (above - whole.Mean) / whole.StandardDeviation;
    }

    /// <summary>The belief before.</summary>
    public NormalBelief Whole { get; }

    /// <summary>Nothing lies below this.</summary>
    public double Above { get; }

    /// <summary>Mean of what is left.</summary>
    public double Mean =>
        _cut > FarTail
            ? Above + (Whole.StandardDeviation * ((1 / _cut) - (2 / Math.Pow(_cut, 3))))
            : Whole.Mean + (Whole.StandardDeviation * Hazard(_cut));

    /// <summary>Standard deviation of what is left.</summary>
    public double StandardDeviation
    {
        get
        {
            if (_cut > FarTail)
            {
                return Whole.StandardDeviation * Math.Sqrt((1 / (_cut * _cut)) - (6 / Math.Pow(_cut, 4)));
            }

            var hazard = Hazard(_cut);
            return Whole.StandardDeviation * Math.Sqrt(1 + (_cut * hazard) - (hazard * hazard));
        }
    }

    /// <summary>The point below which the number lies with a probability.</summary>
    /// <param name="probability">0 to below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The probability is 1, whose point is infinite, or the cut lies over 25 standard deviations above the mean.
    /// </exception>
    public double Quantile(Probability probability)
    {
        Finite.Within(_cut, double.MinValue, FarTail);
        var tail = (1 - probability.Value) * Tail(_cut);
        return Math.Max(
            Above,
            Finite.Required(Whole.Mean - (Whole.StandardDeviation * Normal.InvCDF(0, 1, tail)))
        );
    }

    // Density over upper tail.
    private static double Hazard(double a) => Normal.PDF(0, 1, a) / Tail(a);

    private static double Tail(double a) => 0.5 * SpecialFunctions.Erfc(a / Math.Sqrt(2));
}
