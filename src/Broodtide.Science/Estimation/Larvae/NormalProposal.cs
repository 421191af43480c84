using Broodtide.Science.Statistics;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>A normal distribution from which points of the unknowns are laid.</summary>
internal sealed class NormalProposal
{
    private readonly double[] _mean;

    // Lower triangle whose product with its transpose is the covariance.
    private readonly double[][] _factor;
    private readonly double[] _inverseDiagonal;
    private readonly double _logDeterminant;

    private NormalProposal(double[] mean, double[][] factor)
    {
        _mean = mean;
        _factor = factor;
        _inverseDiagonal = [.. factor.Select((row, d) => 1 / row[d])];
        for (var d = 0; d < mean.Length; d++)
        {
            _logDeterminant += Math.Log(factor[d][d]);
        }
    }

    /// <summary>The standard normal distribution, which is believed beforehand.</summary>
    internal static NormalProposal Prior(int size) =>
        new(
            new double[size],
            [
                .. Enumerable
                    .Range(0, size)
                    .Select(d => Enumerable.Range(0, size).Select(e => d == e ? 1.0 : 0).ToArray()),
            ]
        );

    internal static NormalProposal Normal(double[] mean, Matrix<double> factor) =>
        new(mean, [.. Enumerable.Range(0, mean.Length).Select(d => factor.Row(d).ToArray())]);

    /// <summary>The point that Sobol point number <paramref name="index"/> becomes.</summary>
    internal double[] Draw(int index)
    {
        Span<double> normal = stackalloc double[_mean.Length];
        SobolPoints.Normal(index, normal);
        var point = new double[_mean.Length];
        for (var d = 0; d < point.Length; d++)
        {
            point[d] = _mean[d];
            for (var e = 0; e <= d; e++)
            {
                point[d] += _factor[d][e] * normal[e];
            }
        }

        return point;
    }

    /// <summary>Logarithm of the density, without the constant that depends on the number of unknowns only.</summary>
    internal double LogDensity(double[] point)
    {
        Span<double> normal = stackalloc double[_mean.Length];
        var squares = 0.0;
        for (var d = 0; d < normal.Length; d++)
        {
            var before = normal[..d];
            var row = _factor[d].AsSpan(0, before.Length);
            var off = point[d] - _mean[d];
            for (var e = 0; e < row.Length; e++)
            {
                off -= row[e] * before[e];
            }

            normal[d] = off * _inverseDiagonal[d];
            squares += normal[d] * normal[d];
        }

        return (-0.5 * squares) - _logDeterminant;
    }
}
