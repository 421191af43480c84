using System.Runtime.InteropServices;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The points of all rounds so far, each weighed by the mixture of what all of them were drawn from.</summary>
internal sealed class PointCloud
{
    private readonly List<(NormalProposal Proposal, int Count)> _rounds = [];
    private readonly List<double[]> _points = [];
    private readonly List<SuppositionResult> _results = [];

    // Logarithm of the sum over rounds of points times density.
    private readonly List<double> _logMixture = [];

    /// <summary>Begins a round.</summary>
    internal void Begin(NormalProposal proposal, int count)
    {
        _rounds.Add((proposal, count));
        var logCount = Math.Log(count);
        for (var i = 0; i < _logMixture.Count; i++)
        {
            _logMixture[i] = LogSum(_logMixture[i], logCount + proposal.LogDensity(_points[i]));
        }
    }

    /// <summary>Weighs some more points of the round.</summary>
    /// <returns>Whether any are left.</returns>
    internal bool Weigh(int some, Supposing suppose)
    {
        var all = _rounds.Sum(round => round.Count);
        Span<SuppositionResult> results = stackalloc SuppositionResult[Lanes.Count];
        // No sum that could overflow: some may be as large as a number can be.
        for (var left = Math.Min(some, all - _points.Count); left > 0; )
        {
            var first = _points.Count;
            for (; left > 0 && _points.Count < first + Lanes.Count; left--)
            {
                Lay();
            }

            var points = CollectionsMarshal.AsSpan(_points)[first..];
            suppose(points, results);
            _results.AddRange(results[..points.Length]);
        }

        return _points.Count < all;

        void Lay()
        {
            // Sobol points are numbered from 1 and go on from round to round.
            var point = _rounds[^1].Proposal.Draw(_points.Count + 1);
            var mixture = double.NegativeInfinity;
            foreach (var (proposal, count) in _rounds)
            {
                mixture = LogSum(mixture, Math.Log(count) + proposal.LogDensity(point));
            }

            _points.Add(point);
            _logMixture.Add(mixture);
        }
    }

    internal WeightedPoints Weighted()
    {
        var logs = new double[_points.Count];
        for (var i = 0; i < logs.Length; i++)
        {
            var prior = -0.5 * _points[i].Sum(z => z * z);
            var log = _results[i].LogLikelihood + prior - _logMixture[i];
            logs[i] = double.IsNaN(log) ? double.NegativeInfinity : log;
        }

        var highest = logs.Max();
        var weights = double.IsFinite(highest)
            ? Array.ConvertAll(logs, log => Math.Exp(log - highest))
            : Array.ConvertAll(logs, _ => 1.0);
        var sum = weights.Sum();
        var squares = 0.0;
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
            squares += weights[i] * weights[i];
        }

        return new([.. _points], weights, [.. _results], 1 / squares);
    }

    private static double LogSum(double a, double b)
    {
        var (low, high) = a < b ? (a, b) : (b, a);
        return double.IsNegativeInfinity(high) ? high : high + Math.Log(1 + Math.Exp(low - high));
    }
}
