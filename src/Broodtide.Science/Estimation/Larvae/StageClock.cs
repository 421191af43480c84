using Broodtide.Science.Statistics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// Shares of larvae in each stage by their development: a larva needs a gamma-distributed amount, and goes through
/// its stages at fixed shares of its own need. The gamma law is computed by the cube root of Wilson and Hilferty
/// (1931), within 1e-3 of the exact law for coefficients of variation up to 0.5.
/// </summary>
internal readonly struct StageClock
{
    private readonly double[] _inverseRoots;
    private readonly double _need;
    private readonly double _middle;
    private readonly double _inverseSpread;

    internal StageClock(double[] inverseRoots, double need, double cv)
    {
        _inverseRoots = inverseRoots;
        _need = need;
        var ninth = cv * cv / 9;
        _middle = 1 - ninth;
        _inverseSpread = 1 / Math.Sqrt(ninth);
    }

    /// <summary>One over the cube roots of the ends of the stages.</summary>
    internal static double[] InverseRoots(LarvalStages stages) =>
        [.. stages.Ends.Select(end => 1 / Math.Cbrt(end))];

    /// <summary>Share of larvae of an age that are settled.</summary>
    internal double Settled(double age) =>
        age <= 0 ? 0 : NormalTable.Below((Math.Cbrt(age / _need) - _middle) * _inverseSpread);

    /// <summary>Share of larvae of an age that have passed the end of a larval stage.</summary>
    internal double Passed(double age, int stage) =>
        age <= 0
            ? 0
            : NormalTable.Below(
                ((Math.Cbrt(age / _need) * _inverseRoots[stage]) - _middle) * _inverseSpread
            );

    /// <summary>Adds a weight, spread over the stages, to their shares.</summary>
    internal void Spread(double age, double weight, Span<double> shares)
    {
        var root = age <= 0 ? 0 : Math.Cbrt(age / _need);
        var before = 1.0;
        for (var stage = 0; stage < _inverseRoots.Length; stage++)
        {
            var passed =
                root <= 0 || before <= 0
                    ? 0
                    : NormalTable.Below(((root * _inverseRoots[stage]) - _middle) * _inverseSpread);
            shares[stage] += weight * (before - passed);
            before = passed;
        }

        shares[_inverseRoots.Length] += weight * before;
    }
}
