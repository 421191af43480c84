using System.Runtime.InteropServices;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The points of all rounds so far, each weighed by the mixture of what all of them were drawn from.</summary>
internal sealed class PointCloud
{
    private readonly List<(NormalProposal Proposal, int Count)> _rounds = [];
    private readonly List<double[]> _points = [];
    private readonly List<SuppositionResult> _results = [];

    // Logarithm of what was believed of each beforehand, without the constant.
    private readonly List<double> _logPriors = [];

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

            var squares = 0.0;
            foreach (var z in point)
            {
                squares += z * z;
            }

            _points.Add(point);
            _logPriors.Add(-0.5 * squares);
            _logMixture.Add(mixture);
        }
    }

    internal WeightedPoints Weighted()
    {
        var weights = new double[_points.Count];
        var highest = double.NegativeInfinity;
        for (var i = 0; i < weights.Length; i++)
        {
            var log = _results[i].LogLikelihood + _logPriors[i] - _logMixture[i];
            weights[i] = double.IsNaN(log) ? double.NegativeInfinity : log;
            highest = Math.Max(highest, weights[i]);
        }

        // Where no point is possible, all are as likely.
        var sum = 0.0;
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] = double.IsFinite(highest) ? Math.Exp(weights[i] - highest) : 1;
            sum += weights[i];
        }

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
