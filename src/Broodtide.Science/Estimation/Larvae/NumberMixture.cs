using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>A belief about a whole number as an even mixture of gamma laws given by their means and variances.</summary>
internal sealed class NumberMixture
{
    // Wilson and Hilferty (1931): the cube root of a gamma variable is nearly normal.
    private readonly double[] _scales;
    private readonly double[] _middles;
    private readonly double[] _inverseSpreads;
    private readonly double _highest;

    internal NumberMixture(ReadOnlySpan<double> means, ReadOnlySpan<double> variances)
    {
        _scales = new double[means.Length];
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
        double sum = 0;
        for (var i = 0; i < _scales.Length; i++)
        {
            sum += NormalTable.Below(((root * _scales[i]) - _middles[i]) * _inverseSpreads[i]);
        }

        return sum / _scales.Length;
    }

    /// <summary>The smallest whole number with at least this much probability up to it.</summary>
    internal double Whole(double probability) => Math.Max(0, Math.Ceiling(Real(probability) - 0.5));

    /// <summary>The point with this much probability below it.</summary>
    internal double Real(double probability)
    {
        double low = 0;
        var high = _highest + 1;
        for (var i = 0; i < 60 && high - low > 1e-3 * (0.05 + low); i++)
        {
            var middle = (low + high) / 2;
            if (Below(middle) < probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return (low + high) / 2;
    }

    /// <summary>5, 50 and 95 % points in whole numbers.</summary>
    internal Interval Whole() => Interval.FromPoints(Whole(0.05), Whole(0.5), Whole(0.95));
}
