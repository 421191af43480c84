using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The clock of the stages for several suppositions in step; <see cref="StageClock"/> is the twin.</summary>
internal sealed class LaneClock
{
    private readonly double[] _logEnds;
    private readonly Lane[] _inverseRoots;
    private readonly Lane[] _passed;
    private Lane _inverseNeedRoot;
    private Lane _middle;
    private Lane _inverseSpread;

    internal LaneClock(double[] logEnds)
    {
        _logEnds = logEnds;
        _inverseRoots = new Lane[logEnds.Length];
        _passed = new Lane[logEnds.Length];
    }

    /// <summary>Winds it for some suppositions.</summary>
    internal void Wind(ReadOnlySpan<LarvalPoint> points)
    {
        var bend = Lanes.Of(points, static point => -point.StageBend / 3);
        for (var stage = 0; stage < _logEnds.Length; stage++)
        {
            _inverseRoots[stage] = bend * new Lane(_logEnds[stage]);
        }

        Lanes.Exp(_inverseRoots);
        _inverseNeedRoot = Lanes.CubeRoot(Lanes.Of(points, static point => 1 / point.Development));
        var ninth = Lanes.Of(points, static point => point.Cv * point.Cv / 9);
        _middle = Lane.One - ninth;
        _inverseSpread = Lane.One / Vector.SquareRoot(ninth);
    }

    /// <summary>Turns cube roots of ages into shares that are settled.</summary>
    internal void Settled(Span<Lane> ageRoots)
    {
        foreach (ref var root in ageRoots)
        {
            root = At(root, Lane.One);
        }

        Lanes.NormalBelow(ageRoots);
    }

    /// <summary>Share that has not reached a stage, numbered from 0.</summary>
    internal Lane Before(Lane ageRoot, int stage) =>
        stage == 0 ? Lane.Zero
        : stage > _inverseRoots.Length ? Lane.One
        : Lane.One - Lanes.NormalBelow(At(ageRoot, _inverseRoots[stage - 1]));

    /// <summary>Adds a weight, spread over the stages, to their shares.</summary>
    internal void Spread(Lane ageRoot, Lane weight, Span<Lane> shares)
    {
        for (var stage = 0; stage < _passed.Length; stage++)
        {
            _passed[stage] = At(ageRoot, _inverseRoots[stage]);
        }

        Lanes.NormalBelow(_passed);
        var before = Lane.One;
        for (var stage = 0; stage < _passed.Length; stage++)
        {
            shares[stage] += weight * (before - _passed[stage]);
            before = _passed[stage];
        }

        shares[_passed.Length] += weight * before;
    }

    // Nobody is anywhere at an age of nothing: far below every bell.
    private Lane At(Lane ageRoot, Lane inverseRoot) =>
        Lanes.Where(
            Vector.LessThanOrEqual(ageRoot, Lane.Zero),
            new Lane(-100),
            ((ageRoot * _inverseNeedRoot * inverseRoot) - _middle) * _inverseSpread
        );
}
