using Broodtide.Science.Statistics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// Shares of larvae in each stage by their development: a larva needs a gamma-distributed amount, and goes through
/// its stages at fixed shares of its own need. The gamma law is computed by the cube root of Wilson and Hilferty
/// (1931), so ages come as their cube roots; it is within 1e-3 of the exact law for coefficients of variation up to 0.5.
/// </summary>
internal readonly struct StageClock
{
    private readonly double[] _inverseRoots;
    private readonly double _inverseNeedRoot;
    private readonly double _middle;
    private readonly double _inverseSpread;

    /// <param name="inverseRoots">Room for one number a larval stage, filled here.</param>
    /// <param name="logEnds">Natural logarithms of the shares at which the larval stages end.</param>
    /// <param name="point">The supposition.</param>
    /// <param name="hastened">Divides the need: how much quicker those are that are seen to settle.</param>
    internal StageClock(double[] inverseRoots, double[] logEnds, LarvalPoint point, double hastened = 1)
    {
        for (var stage = 0; stage < logEnds.Length; stage++)
        {
            inverseRoots[stage] = Math.Exp(-point.StageBend / 3 * logEnds[stage]);
        }

        _inverseRoots = inverseRoots;
        _inverseNeedRoot = Math.Cbrt(hastened / point.Development);
        var ninth = point.Cv * point.Cv / 9;
        _middle = 1 - ninth;
        _inverseSpread = 1 / Math.Sqrt(ninth);
    }

    /// <summary>Share that is settled, of larvae whose age has this cube root.</summary>
    internal double Settled(double ageRoot) =>
        ageRoot <= 0 ? 0 : NormalTable.Below(((ageRoot * _inverseNeedRoot) - _middle) * _inverseSpread);

    /// <summary>Share that has not reached a stage, numbered from 0, of larvae whose age has this cube root.</summary>
    internal double Before(double ageRoot, int stage) =>
        stage == 0 ? 0
        : stage > _inverseRoots.Length || ageRoot <= 0 ? 1
        : 1
            - NormalTable.Below(
                ((ageRoot * _inverseNeedRoot * _inverseRoots[stage - 1]) - _middle) * _inverseSpread
            );

    /// <summary>Adds a weight, spread over the stages, to their shares.</summary>
    internal void Spread(double ageRoot, double weight, Span<double> shares)
    {
        var root = ageRoot * _inverseNeedRoot;
        var before = 1.0;
        var stage = 0;
        for (; stage < _inverseRoots.Length && before > 0; stage++)
        {
            var passed =
                root <= 0 ? 0 : NormalTable.Below(((root * _inverseRoots[stage]) - _middle) * _inverseSpread);
            shares[stage] += weight * (before - passed);
            before = passed;
        }

        if (stage == _inverseRoots.Length)
        {
            shares[stage] += weight * before;
        }
    }
}
