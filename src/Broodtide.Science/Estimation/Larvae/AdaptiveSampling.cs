using Broodtide.Science.Statistics;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Weighted points of the unknowns.</summary>
/// <param name="Points">Each point on the standard normal scale of the prior.</param>
/// <param name="Weights">Their weights, sum 1.</param>
/// <param name="EffectiveSize">One over the sum of squared weights: how many points really speak.</param>
internal sealed record WeightedPoints(double[][] Points, double[] Weights, double EffectiveSize)
{
    /// <summary>
    /// The same in points of equal weight, taken at even steps of the running sum of weights (systematic
    /// resampling, Kitagawa 1996): each of the result is a number of a point, ascending.
    /// </summary>
    internal int[] Even(int count)
    {
        var chosen = new int[count];
        var place = 0;
        var sum = Weights[0];
        for (var i = 0; i < count; i++)
        {
            var level = (i + 0.5) / count;
            while (sum < level && place < Weights.Length - 1)
            {
                sum += Weights[++place];
            }

            chosen[i] = place;
        }

        return chosen;
    }
}

/// <summary>
/// Adaptive importance sampling on fixed points: each round lays Sobol points through a normal distribution fitted
/// to the weighted points of the round before. No chance is in it, so the same question has the same answer.
/// </summary>
internal static class AdaptiveSampling
{
    // Chosen by trying: see docs/science/alive.md.
    private static readonly int[] SearchRounds = [128, 128, 128];
    private const int LastRound = 256;
    private const double Widening = 1.3;
    private const double Ridge = 0.03;
    private const double LeastForFit = 20;
    private const int MostAgain = 1;

    /// <summary>Below this the answer is called rough.</summary>
    internal const double LeastEffective = 50;

    /// <summary>The weighted points last, and none at each pause before.</summary>
    /// <param name="unknowns">Number of unknowns, each standard normal beforehand.</param>
    /// <param name="logLikelihood">The log-likelihood of a point; told whether it is for keeps or to find the way.</param>
    /// <param name="pauseAfter">How many points to weigh between pauses.</param>
    internal static IEnumerable<WeightedPoints?> Run(
        int unknowns,
        Func<double[], bool, double> logLikelihood,
        int pauseAfter
    )
    {
        var proposal = Proposal.Prior(unknowns);
        var begin = 1;
        Draws draws;
        foreach (var count in SearchRounds)
        {
            draws = new(proposal, begin, count);
            while (draws.Weigh(pauseAfter, point => logLikelihood(point, false)))
            {
                yield return null;
            }

            proposal = Fit(draws.Weighted());
            begin += count;
        }

        for (var again = 0; ; again++)
        {
            draws = new(proposal, begin, LastRound);
            while (draws.Weigh(pauseAfter, point => logLikelihood(point, true)))
            {
                yield return null;
            }

            var last = draws.Weighted();
            if (last.EffectiveSize >= LeastEffective || again == MostAgain)
            {
                yield return last;
                yield break;
            }

            // The fit must not know what only the last round may know, so its points are weighed anew.
            draws = new(proposal, begin, LastRound);
            while (draws.Weigh(pauseAfter, point => logLikelihood(point, false)))
            {
                yield return null;
            }

            proposal = Fit(draws.Weighted());
            begin += LastRound;
        }
    }

    /// <summary>The points of one round, weighed a few at a time.</summary>
    private sealed class Draws(Proposal proposal, int begin, int count)
    {
        private readonly double[][] _points = new double[count][];
        private readonly double[] _logs = new double[count];
        private int _next;

        /// <returns>Whether any are left.</returns>
        internal bool Weigh(int some, Func<double[], double> logLikelihood)
        {
            for (var end = Math.Min(count, _next + some); _next < end; _next++)
            {
                _points[_next] = proposal.Draw(begin + _next, out var logRatio);
                var log = logLikelihood(_points[_next]) + logRatio;
                _logs[_next] = double.IsNaN(log) ? double.NegativeInfinity : log;
            }

            return _next < count;
        }

        internal WeightedPoints Weighted() => AdaptiveSampling.Weighted(_points, _logs);
    }

    private static WeightedPoints Weighted(double[][] points, double[] logs)
    {
        var highest = logs.Max();
        var weights = double.IsFinite(highest)
            ? Array.ConvertAll(logs, log => Math.Exp(log - highest))
            : Array.ConvertAll(logs, _ => 1.0);
        var sum = weights.Sum();
        double squares = 0;
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
            squares += weights[i] * weights[i];
        }

        return new(points, weights, 1 / squares);
    }

    private static Proposal Fit(WeightedPoints seen)
    {
        var weights = Tempered(seen);
        var size = seen.Points[0].Length;
        var mean = new double[size];
        for (var i = 0; i < weights.Length; i++)
        {
            for (var d = 0; d < size; d++)
            {
                mean[d] += weights[i] * seen.Points[i][d];
            }
        }

        var spread = Matrix<double>.Build.Dense(size, size);
        for (var i = 0; i < weights.Length; i++)
        {
            if (weights[i] < 1e-8)
            {
                continue;
            }

            for (var d = 0; d < size; d++)
            {
                for (var e = 0; e <= d; e++)
                {
                    spread[d, e] +=
                        weights[i] * (seen.Points[i][d] - mean[d]) * (seen.Points[i][e] - mean[e]);
                }
            }
        }

        for (var d = 0; d < size; d++)
        {
            for (var e = 0; e <= d; e++)
            {
                spread[d, e] = (Widening * spread[d, e]) + (d == e ? Ridge : 0);
                spread[e, d] = spread[d, e];
            }
        }

        return Proposal.Normal(mean, spread.Cholesky().Factor);
    }

    // With too few points that speak the weights are flattened, so that the fit does not collapse on one of them.
    private static double[] Tempered(WeightedPoints seen)
    {
        if (seen.EffectiveSize >= LeastForFit)
        {
            return seen.Weights;
        }

        double low = 0;
        double high = 1;
        var result = seen.Weights;
        for (var step = 0; step < 20; step++)
        {
            var power = (low + high) / 2;
            result = Array.ConvertAll(seen.Weights, weight => weight > 0 ? Math.Pow(weight, power) : 0);
            var sum = result.Sum();
            var squares = result.Sum(weight => weight * weight);
            if (sum * sum / squares < LeastForFit)
            {
                high = power;
            }
            else
            {
                low = power;
            }

            result = Array.ConvertAll(result, weight => weight / sum);
        }

        return result;
    }

    private sealed class Proposal
    {
        private readonly double[] _mean;
        private readonly double[][] _factor;
        private readonly double _logDeterminant;

        private Proposal(double[] mean, double[][] factor)
        {
            _mean = mean;
            _factor = factor;
            for (var d = 0; d < mean.Length; d++)
            {
                _logDeterminant += Math.Log(factor[d][d]);
            }
        }

        internal static Proposal Prior(int size) =>
            new(
                new double[size],
                [
                    .. Enumerable
                        .Range(0, size)
                        .Select(d => Enumerable.Range(0, size).Select(e => d == e ? 1.0 : 0).ToArray()),
                ]
            );

        internal static Proposal Normal(double[] mean, Matrix<double> factor) =>
            new(mean, [.. Enumerable.Range(0, mean.Length).Select(d => factor.Row(d).ToArray())]);

        /// <summary>A point, and the logarithm of prior over proposal there.</summary>
        internal double[] Draw(int index, out double logRatio)
        {
            var size = _mean.Length;
            Span<double> normal = stackalloc double[size];
            SobolPoints.Normal(index, normal);
            var point = new double[size];
            logRatio = _logDeterminant;
            for (var d = 0; d < size; d++)
            {
                var value = _mean[d];
                for (var e = 0; e <= d; e++)
                {
                    value += _factor[d][e] * normal[e];
                }

                point[d] = value;
                logRatio += 0.5 * ((normal[d] * normal[d]) - (value * value));
            }

            return point;
        }
    }
}
