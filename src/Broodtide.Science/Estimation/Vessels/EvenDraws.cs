using Broodtide.Science.Statistics;
using MathNet.Numerics;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// Draws that fill a space of many dimensions evenly: points of Sobol in groups of sixteen dimensions, each group with its
/// own order of the points and each dimension turned by a shift (Cranley and Patterson 1976), both told by the seed.
/// </summary>
internal sealed class EvenDraws
{
    private readonly int[][] _orders;
    private readonly double[] _shifts;

    internal EvenDraws(int dimensions, int points, ulong seed)
    {
        var state = seed;
        _shifts = new double[dimensions];
        for (var i = 0; i < dimensions; i++)
        {
            _shifts[i] = (Mixed(ref state) >> 11) / (double)(1UL << 53);
        }

        var groups = (dimensions + SobolPoints.MostDimensions - 1) / SobolPoints.MostDimensions;
        _orders = new int[groups][];
        for (var group = 0; group < groups; group++)
        {
            int[] order = [.. Enumerable.Range(0, points)];
            for (var last = points - 1; group > 0 && last > 0; last--)
            {
                var other = (int)(Mixed(ref state) % (ulong)(last + 1));
                (order[last], order[other]) = (order[other], order[last]);
            }

            _orders[group] = order;
        }
    }

    /// <summary>One point of the standard normal distribution in all dimensions.</summary>
    internal void Normal(int index, Span<double> point)
    {
        Span<double> even = stackalloc double[SobolPoints.MostDimensions];
        for (var from = 0; from < point.Length; from += even.Length)
        {
            var part = even[..Math.Min(even.Length, point.Length - from)];
            SobolPoints.Even(_orders[from / even.Length][index] + 1, part);
            for (var i = 0; i < part.Length; i++)
            {
                var turned = part[i] + _shifts[from + i];
                turned = Math.Clamp(turned - Math.Floor(turned), 1e-9, 1 - 1e-9);
                point[from + i] = -Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * turned);
            }
        }
    }

    // SplitMix64 (Steele, Lea and Flood 2014): the next of a stream that depends on its seed alone.
    internal static ulong Mixed(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
