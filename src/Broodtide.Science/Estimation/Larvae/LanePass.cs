using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// The way of a run from its first step to its last for several suppositions in step, one a lane of the processor's
/// vectors: what <see cref="LarvalPass.Forward"/> does for one, which is the twin.
/// </summary>
internal sealed partial class LanePass
{
    private readonly LarvalProgram _program;
    private readonly LaneFilter _filter;
    private readonly LaneClock _clock;
    private readonly LarvalPoint[] _points = new LarvalPoint[Lane.Count];
    private readonly int _cells;
    private readonly Lane[] _survival;
    private readonly LaneTrace? _trace;
    private readonly Lane[] _settled;
    private readonly Lane[] _settledNow;
    private readonly Lane[] _settledGone;
    private readonly Lane[] _common;
    private readonly Lane[] _badDays;
    private readonly Lane[] _shares;
    private readonly Lane[] _detection;
    private Lane _baseHazard;
    private Lane _early;
    private Lane _loss;
    private Lane _badDaysEach;
    private Lane _clumping;
    private Lane _arrivalError;
    private Lane _warmth;

    /// <param name="program">The run.</param>
    /// <param name="trace">Keeps what the way back needs; if left out, there is none.</param>
    internal LanePass(LarvalProgram program, LaneTrace? trace = null)
    {
        _trace = trace;
        _program = program;
        _cells = program.CellCount;
        _filter = new(_cells);
        _clock = new(program.LogEnds);
        _survival = new Lane[_cells];
        _settled = new Lane[_cells];
        _settledNow = new Lane[_cells];
        _settledGone = new Lane[_cells];
        _common = new Lane[_cells];
        _badDays = new Lane[_cells];
        _shares = new Lane[program.Run.Stages.Count];
        _detection = new Lane[program.Run.Priors.Detection.Count];
    }

    /// <summary>Goes forward.</summary>
    /// <param name="points">One supposition or more, at most one a lane, on the standard normal scale of the prior.</param>
    /// <param name="results">Receives what follows from each.</param>
    internal void Forward(ReadOnlySpan<double[]> points, Span<SuppositionResult> results)
    {
        for (var lane = 0; lane < points.Length; lane++)
        {
            _points[lane] = LarvalPoint.At(_program.Run.Priors, points[lane]);
        }

        var logProbability = Forward(_points.AsSpan(0, points.Length), withRaising: false);
        var alive = _filter.Total(_program.Run.All);
        for (var lane = 0; lane < points.Length; lane++)
        {
            results[lane] = new(logProbability[lane], alive[lane]);
        }
    }

    /// <summary>The state in which the run ends.</summary>
    internal LaneFilter Filter => _filter;

    /// <summary>Settled ones taken out of each cell, expected.</summary>
    internal ReadOnlySpan<Lane> SettledGone => _settledGone;

    /// <summary>Goes forward.</summary>
    /// <param name="points">One supposition or more, at most one a lane.</param>
    /// <param name="withRaising">Whether looks that can only raise the estimate take part.</param>
    /// <returns>The natural logarithm of the probability of all that was seen, by lane.</returns>
    internal Lane Forward(ReadOnlySpan<LarvalPoint> points, bool withRaising)
    {
        Suppose(points);
        var odd = _program.Run.Priors.OddEntry;
        var shared = new Lane(_program.SharedErrorCv) * _arrivalError;
        _filter.Clear(shared * shared);
        Array.Clear(_settled);
        Array.Clear(_settledGone);
        var (logProbability, gone) = (Lane.Zero, Lane.Zero);
        for (var s = 0; s < _program.Steps.Length; s++)
        {
            var step = _program.Steps[s];
            Pass(s);
            switch (step.Kind)
            {
                case StepKind.Arrive:
                    Arrive(step);
                    _settled[step.To] = SettledAt(s, step.To);
                    break;
                case StepKind.MoveShare:
                    _filter.Move(step.From, step.To, step.Share);
                    _settled[step.To] = Vector.Max(_settled[step.To], _settled[step.From]);
                    break;
                case StepKind.MoveNumber:
                    logProbability += Count(s, step, odd);
                    _filter.MoveNumber(step.From, step.To, step.Number);
                    _settled[step.To] = Vector.Max(_settled[step.To], _settled[step.From]);
                    break;
                case StepKind.Count:
                    logProbability +=
                        !step.OnlyRaises ? Count(s, step, odd)
                        : withRaising ? Raise(s, step, odd)
                        : Nothing(s);
                    break;
                case StepKind.Stage:
                    logProbability += Stage(s, step);
                    break;
                case StepKind.SettledSeen:
                    logProbability += SettledSeen(s, step);
                    break;
                case StepKind.DeadFound:
                    logProbability += _filter.ObserveDeaths(gone, _program.DeadSoFar[s]!, odd, out var told);
                    _trace?.Told(s, _filter.Gain, told);
                    break;
                case StepKind.RemoveNumber:
                    gone += Remove(s, step);
                    break;
                case StepKind.RemoveAll:
                    gone += RemoveAll(s, step);
                    break;
                default:
                    _trace?.Tell(step.Telling, _filter.Mean, _filter.Covariance);
                    break;
            }
        }

        return logProbability;
    }

    private void Suppose(ReadOnlySpan<LarvalPoint> points)
    {
        _clock.Wind(points);
        _baseHazard = Lanes.Of(points, static point => point.BaseHazard);
        _early = Lanes.Of(points, static point => point.Early);
        _loss = Lanes.Of(points, static point => point.MetamorphosisLoss);
        _badDaysEach = Lanes.Of(points, static point => point.BadDays);
        _clumping = Lanes.Of(points, static point => point.Clumping);
        _arrivalError = Lanes.Of(points, static point => point.ArrivalErrorFactor);
        _warmth = Lanes.Of(points, static point => point.FutureWarmth);
        for (var look = 0; look < _detection.Length; look++)
        {
            var place = look;
            _detection[look] = Lanes.Of(points, point => point.Detection[place]);
        }
    }

    // Cube root of a cell's development; negative where nobody lives.
    private Lane AgeRoot(int s, int cell)
    {
        var place = (s * _cells) + cell;
        return _program.FutureDays[s] <= 0 || _program.Ages[place] < 0
            ? new(_program.AgeRoots[place])
            : Lanes.CubeRoot(
                Vector.Max(
                    Lane.Zero,
                    new Lane(_program.Ages[place])
                        + (
                            _warmth
                            * new Lane(_program.Run.Priors.DevelopmentPerKelvin * _program.FutureDays[s])
                        )
                )
            );
    }

    private Lane SettledAt(int s, int cell)
    {
        Span<Lane> one = [AgeRoot(s, cell)];
        _clock.Settled(one);
        return one[0];
    }

    private void Pass(int s)
    {
        _trace?.NotThinned(s);
        if (!_program.ShocksAt[s])
        {
            return;
        }

        var elapsed = _program.Elapsed[s];
        var daily = new Lane(Math.Sqrt(_program.DailyShockVariance / elapsed));
        var badDays = _badDaysEach * new Lane(Math.Sqrt(elapsed));
        for (var c = 0; c < _cells; c++)
        {
            var place = (s * _cells) + c;
            _settledNow[c] = AgeRoot(s, c);
            _common[c] =
                _baseHazard
                * (new Lane(_program.Hazard[place]) + (_early * new Lane(_program.EarlyHazard[place])));
            _survival[c] = -_common[c];
        }

        _clock.Settled(_settledNow);
        Lanes.Exp(_survival);
        for (var c = 0; c < _cells; c++)
        {
            var lives =
                _program.Ages[(s * _cells) + c] < 0
                    ? Vector<long>.Zero
                    : Vector.GreaterThan(_filter.Mean[c], Lane.Zero);
            var through = (Lane.One - (_loss * _settledNow[c])) / (Lane.One - (_loss * _settled[c]));
            var survival = _survival[c] * Vector.Min(Lane.One, through);
            var left = survival * _filter.Mean[c];
            _settled[c] = Lanes.Where(lives, _settledNow[c], _settled[c]);
            _survival[c] = Lanes.Where(lives, survival, Lane.One);
            _common[c] = Lanes.Where(lives, left * daily * _common[c], Lane.Zero);
            _badDays[c] = Lanes.Where(lives, left * badDays, Lane.Zero);
        }

        _filter.Thin(_survival, _common, _badDays, _program.Vessels);
        _trace?.Thinned(s, _survival);
    }
}
