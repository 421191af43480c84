using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// A belief about a whole number as a mixture of gamma laws given by their means and variances. Not for several threads at
/// once.
/// </summary>
internal sealed class NumberMixture
{
    // Wilson and Hilferty (1931): the cube root of a gamma variable is nearly normal.
    private readonly double[] _weights;
    private readonly double[] _scales;
    private readonly double[] _middles;
    private readonly double[] _inverseSpreads;
    private readonly double[] _below;
    private readonly double _highest;

    /// <param name="weights">The share of each law, sum 1.</param>
    /// <param name="means">Mean of each.</param>
    /// <param name="variances">Variance of each.</param>
    internal NumberMixture(double[] weights, ReadOnlySpan<double> means, ReadOnlySpan<double> variances)
    {
        _weights = weights;
        _scales = new double[means.Length];
        _below = new double[means.Length];
        _middles = new double[means.Length];
        _inverseSpreads = new double[means.Length];
        for (var i = 0; i < means.Length; i++)
        {
            var mean = Math.Max(means[i], 0.02);
            var shape = Math.Max(0.1, mean * mean / Math.Max(variances[i], 1e-6));
            var ninth = 1 / (9 * shape);
            _scales[i] = Math.Cbrt(1 / mean);
            _middles[i] = 1 - ninth;
            _inverseSpreads[i] = 1 / Math.Sqrt(ninth);
            _highest = Math.Max(_highest, mean * Math.Pow(1 + (6 / Math.Sqrt(9 * shape)), 3));
        }
    }

    /// <summary>P(number is below a real number).</summary>
    internal double Below(double number)
    {
        var root = Math.Cbrt(number);
        var below = _below.AsSpan();
        for (var i = 0; i < below.Length; i++)
        {
            below[i] = ((root * _scales[i]) - _middles[i]) * _inverseSpreads[i];
        }

        NormalTable.Below(below);
        double sum = 0;
        for (var i = 0; i < below.Length; i++)
        {
            sum += _weights[i] * below[i];
        }

        return sum;
    }

    /// <summary>5, 50 and 95 % points in whole numbers.</summary>
    internal Interval Whole()
    {
        var low = Whole(0.05, 0);
        var middle = Whole(0.5, low);
        return Interval.FromPoints(low, middle, Whole(0.95, middle));
    }

    // The smallest whole number, from one that is none too large, with at least this much probability up to it; a
    // whole number stands for the real ones from half below it to half above.
    private double Whole(double probability, double from)
    {
        if (Below(from + 0.5) >= probability)
        {
            return from;
        }

        var low = from;
        var high = Math.Max(from + 1, Math.Ceiling(_highest));
        while (high - low > 1)
        {
            var middle = Math.Floor((low + high) / 2);
            if (Below(middle + 0.5) < probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }
}
