using System.Numerics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// One way of a run from its first step to its last under one supposition of the unknowns, and back again: forward
/// it gives the probability of everything seen; backward it tells what the later entries say about earlier days.
/// </summary>
/// <remarks>
/// Backward: the adjoint recursions of Bryson and Frazier in the form of Bierman (1977, Factorization Methods for
/// Discrete Sequential Estimation; from memory), which need no inverse of a covariance.
/// </remarks>
internal sealed class LarvalPass
{
    private readonly LarvalProgram _program;
    private readonly NumberFilter _filter;
    private readonly int _cells;
    private readonly int _size;
    private readonly double[] _survival;
    private readonly double[] _gains;
    private readonly TotalTold[] _told;
    private readonly double[] _means;
    private readonly double[] _covariances;
    private readonly double[] _settled;
    private readonly double[] _common;
    private readonly double[] _badDays;
    private readonly double[] _shares;
    private readonly double[] _settledGone;
    private readonly double[] _inverseRoots;
    private readonly LarvalAdjoint _adjoint;

    internal LarvalPass(LarvalProgram program)
    {
        _program = program;
        _cells = program.CellCount;
        _filter = new(_cells);
        _size = _filter.Size;
        var steps = program.Steps.Length;
        _survival = new double[steps * _cells];
        _gains = new double[steps * _size];
        _told = new TotalTold[steps];
        _means = new double[program.Tellings * _size];
        _covariances = new double[program.Tellings * _size * _size];
        _settled = new double[_cells];
        _common = new double[_cells];
        _badDays = new double[_cells];
        _shares = new double[program.Run.Stages.Count];
        _settledGone = new double[_cells];
        _inverseRoots = new double[program.LogEnds.Length];
        _adjoint = new(_size);
    }

    /// <summary>The state in which the run ends.</summary>
    internal NumberFilter Filter => _filter;

    /// <summary>Smoothed means at a telling, larvae, by cell; then the number that ever arrived.</summary>
    internal ReadOnlySpan<double> MeanAt(int telling) => _means.AsSpan(telling * _size, _size);

    /// <summary>Smoothed covariance at a telling, row by row.</summary>
    internal ReadOnlySpan<double> CovarianceAt(int telling) =>
        _covariances.AsSpan(telling * _size * _size, _size * _size);

    /// <summary>Settled ones taken out of each cell, expected.</summary>
    internal ReadOnlySpan<double> SettledGone => _settledGone;

    /// <summary>
    /// Cube root of a cell's development at a step under a supposition about the future; negative where nobody
    /// lives.
    /// </summary>
    internal double AgeRoot(int step, int cell, LarvalPoint point)
    {
        var place = (step * _cells) + cell;
        return _program.FutureDays[step] <= 0 || _program.Ages[place] < 0
            ? _program.AgeRoots[place]
            : Math.Cbrt(
                Math.Max(
                    0,
                    _program.Ages[place]
                        + (
                            point.FutureWarmth
                            * _program.Run.Priors.DevelopmentPerKelvin
                            * _program.FutureDays[step]
                        )
                )
            );
    }

    /// <summary>Goes forward.</summary>
    /// <param name="point">The supposition.</param>
    /// <param name="withRaising">Whether looks that can only raise the estimate take part.</param>
    /// <returns>The natural logarithm of the probability of all that was seen.</returns>
    internal double Forward(LarvalPoint point, bool withRaising)
    {
        var priors = _program.Run.Priors;
        var clock = new StageClock(_inverseRoots, _program.LogEnds, point);
        var shared = _program.SharedErrorCv * point.ArrivalErrorFactor;
        _filter.Clear(shared * shared);
        Array.Clear(_settled);
        Array.Clear(_settledGone);
        var logProbability = 0.0;
        double gone = 0;
        for (var s = 0; s < _program.Steps.Length; s++)
        {
            var step = _program.Steps[s];
            Pass(s, point, clock);
            switch (step.Kind)
            {
                case StepKind.Arrive:
                    Arrive(step, point);
                    _settled[step.To] = clock.Settled(AgeRoot(s, step.To, point));
                    break;
                case StepKind.MoveShare:
                    _filter.Move(step.From, step.To, step.Share);
                    _settled[step.To] = Math.Max(_settled[step.To], _settled[step.From]);
                    break;
                case StepKind.MoveNumber:
                    logProbability += Count(s, step, point, clock, priors);
                    _filter.MoveNumber(step.From, step.To, step.Number);
                    _settled[step.To] = Math.Max(_settled[step.To], _settled[step.From]);
                    break;
                case StepKind.Count:
                    _told[s] = default;
                    logProbability +=
                        !step.OnlyRaises ? Count(s, step, point, clock, priors)
                        : withRaising ? Raise(s, step, priors)
                        : 0;
                    break;
                case StepKind.Stage:
                    logProbability += Stage(s, step, point, clock, priors);
                    break;
                case StepKind.SettledSeen:
                    logProbability += SettledSeen(s, step, point, clock);
                    break;
                case StepKind.DeadFound:
                    logProbability += _filter.ObserveDeaths(
                        gone,
                        _program.DeadSoFar[s]!,
                        priors.OddEntry,
                        out _told[s]
                    );
                    _filter.Gain.CopyTo(_gains.AsSpan(s * _size));
                    break;
                case StepKind.RemoveNumber:
                    gone += Remove(s, step, point, clock);
                    break;
                case StepKind.RemoveAll:
                    gone += RemoveAll(s, step, point, clock);
                    break;
                default:
                    _filter.Mean.CopyTo(_means.AsSpan(step.Telling * _size));
                    _filter.Covariance.CopyTo(_covariances.AsSpan(step.Telling * _size * _size));
                    break;
            }
        }

        return logProbability;
    }

    /// <summary>Goes back from the last step, so that every telling knows all entries.</summary>
    internal void Backward()
    {
        _adjoint.Clear();
        for (var s = _program.Steps.Length - 1; s >= 0; s--)
        {
            var step = _program.Steps[s];
            switch (step.Kind)
            {
                case StepKind.Count or StepKind.MoveNumber:
                    _adjoint.Told(step.Cells, ever: 0, _gains.AsSpan(s * _size, _size), _told[s]);
                    break;
                case StepKind.DeadFound:
                    _adjoint.Told(_program.Run.All, ever: -1, _gains.AsSpan(s * _size, _size), _told[s]);
                    break;
                case StepKind.Arrive when step.SharedErrorCv > 0:
                    _adjoint.Arrived(step.To, step.Number);
                    break;
                case StepKind.MoveShare:
                    _adjoint.Moved(step.From, step.To, step.Share);
                    break;
                case StepKind.Tell:
                    _adjoint.Smooth(
                        _means.AsSpan(step.Telling * _size, _size),
                        _covariances.AsSpan(step.Telling * _size * _size, _size * _size)
                    );
                    break;
                default:
                    break;
            }

            _adjoint.Thinned(_survival.AsSpan(s * _cells, _cells));
        }
    }

    /// <summary>Shares of the stages among some cells at a step, by the numbers of a state.</summary>
    internal void SharesAt(
        int step,
        ulong cells,
        ReadOnlySpan<double> numbers,
        LarvalPoint point,
        in StageClock clock,
        Span<double> shares
    )
    {
        shares.Clear();
        double total = 0;
        double settledGone = 0;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var age = AgeRoot(step, i, point);
            if (age >= 0 && numbers[i] > 0)
            {
                // Settled ones that were taken out are missing among the settled.
                var all = numbers[i] + _settledGone[i];
                clock.Spread(age, all, shares);
                total += all;
                settledGone += _settledGone[i];
            }
        }

        if (settledGone > 0)
        {
            var taken = Math.Min(settledGone, shares[^1]);
            shares[^1] -= taken;
            total -= taken;
        }

        if (total <= 0)
        {
            return;
        }

        foreach (ref var share in shares)
        {
            share /= total;
        }
    }

    // Time passes: each larva survives or not, days strike all of a vessel alike.
    private void Pass(int s, LarvalPoint point, in StageClock clock)
    {
        var survival = _survival.AsSpan(s * _cells, _cells);
        if (!_program.ShocksAt[s])
        {
            survival.Fill(1);
            return;
        }

        var elapsed = _program.Elapsed[s];
        var daily = Math.Sqrt(_program.DailyShockVariance / elapsed);
        var badDays = point.BadDays * Math.Sqrt(elapsed);
        for (var c = 0; c < _cells; c++)
        {
            var place = (s * _cells) + c;
            var age = _program.Ages[place];
            if (age < 0 || _filter.Mean[c] <= 0)
            {
                survival[c] = 1;
                _common[c] = 0;
                _badDays[c] = 0;
                continue;
            }

            var hazard =
                point.BaseHazard * (_program.Hazard[place] + (point.Early * _program.EarlyHazard[place]));
            var settled = clock.Settled(AgeRoot(s, c, point));
            var through =
                (1 - (point.MetamorphosisLoss * settled)) / (1 - (point.MetamorphosisLoss * _settled[c]));
            _settled[c] = settled;
            survival[c] = Math.Exp(-hazard) * Math.Min(1, through);
            var left = survival[c] * _filter.Mean[c];
            _common[c] = left * daily * hazard;
            _badDays[c] = left * badDays;
        }

        _filter.Thin(survival);
        foreach (var cells in _program.Together)
        {
            _filter.Shake(cells, _common, _badDays);
        }
    }

    private void Arrive(LarvalStep step, LarvalPoint point)
    {
        var cv = Math.Min(1.5, step.ErrorCv * point.ArrivalErrorFactor);
        var variance = (cv * cv * step.Number * step.Number) + (step.ErrorCv > 0 ? 0.25 : 0);
        if (step.SharedErrorCv > 0)
        {
            _filter.AddShared(step.To, step.Number, variance);
        }
        else
        {
            _filter.Add(step.To, step.Number, variance);
        }
    }

    private double Count(int s, LarvalStep step, LarvalPoint point, in StageClock clock, LarvalPriors priors)
    {
        var term = step.Term!;
        var detection = 0.0;
        if (term.Class >= 0)
        {
            detection = point.Detection[term.Class];
            if (term.FadesWithLight)
            {
                detection *= Math.Clamp(DrawnToLight(s, step.Cells, point, clock), 0.02, 1);
            }
        }

        var result = _filter.Observe(
            step.Cells,
            term,
            new CountUnknowns(point.Clumping, detection),
            priors.OddEntry,
            out _told[s]
        );
        _filter.Gain.CopyTo(_gains.AsSpan(s * _size));
        return result;
    }

    private double Raise(int s, LarvalStep step, LarvalPriors priors)
    {
        var result = _filter.Raise(step.Cells, step.Term!, priors.OddEntry, out _told[s]);
        _filter.Gain.CopyTo(_gains.AsSpan(s * _size));
        return result;
    }

    // Share of larvae in stages that are drawn to light.
    private double DrawnToLight(int s, ulong cells, LarvalPoint point, in StageClock clock)
    {
        double total = 0;
        double drawn = 0;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var age = AgeRoot(s, i, point);
            if (age >= 0 && _filter.Mean[i] > 0)
            {
                // Settled ones that were taken out are missing from the total only.
                var all = _filter.Mean[i] + _settledGone[i];
                total += _filter.Mean[i];
                drawn += all * clock.Before(age, _program.Run.Stages.LightFadesFrom);
            }
        }

        return total > 0 ? drawn / total : 0;
    }

    private double Stage(int s, LarvalStep step, LarvalPoint point, in StageClock clock, LarvalPriors priors)
    {
        SharesAt(s, step.Cells, _filter.Mean, point, clock, _shares);
        var mistakes = priors.StagingMistakes;
        var any = 0.0;
        foreach (var share in _shares)
        {
            any += share;
        }

        // Nobody lives there by this supposition: every stage is as likely as any other.
        mistakes = any > 0 ? mistakes : 1;
        return DirichletMultinomial.Log(step.Tallies, _shares, mistakes, priors.StagePrecision);
    }

    private double SettledSeen(int s, LarvalStep step, LarvalPoint point, in StageClock clock)
    {
        double expected = 0;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            expected += Math.Max(0, _filter.Mean[i]) * clock.Settled(AgeRoot(s, i, point));
        }

        return LogSettledSeen(step.Number, expected);
    }

    /// <summary>ln P(at least so many settled ones are seen) of an expected number, with a chance that somebody erred.</summary>
    internal static double LogSettledSeen(double number, double expected) =>
        Math.Log(1e-6 + ((1 - 1e-6) * AtLeastSo(number, expected)));

    // P(Poisson with a mean is at least n).
    private static double AtLeastSo(double number, double mean)
    {
        if (mean <= 0)
        {
            return 0;
        }

        if (number > 30)
        {
            return Statistics.NormalTable.Below((mean - number + 0.5) / Math.Sqrt(mean));
        }

        var term = Math.Exp(-mean);
        var below = term;
        for (var i = 1; i < number; i++)
        {
            term *= mean / i;
            below += term;
        }

        return Math.Max(0, 1 - below);
    }

    private double Remove(int s, LarvalStep step, LarvalPoint point, in StageClock clock)
    {
        var before = _filter.Total(step.Cells).Mean;
        if (!step.Settled)
        {
            _filter.RemoveFrom(step.Cells, step.Number);
            return before - _filter.Total(step.Cells).Mean;
        }

        double settledThere = 0;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            _common[i] = _filter.Mean[i] * Math.Max(1e-6, clock.Settled(AgeRoot(s, i, point)));
            settledThere += _common[i];
        }

        if (settledThere <= 0)
        {
            return 0;
        }

        double gone = 0;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var number = Math.Min(_filter.Mean[i], step.Number * _common[i] / settledThere);
            _filter.Remove(i, number);
            _settledGone[i] += number;
            gone += number;
        }

        return gone;
    }

    private double RemoveAll(int s, LarvalStep step, LarvalPoint point, in StageClock clock)
    {
        Span<double> stays = stackalloc double[_cells];
        stays.Fill(1);
        double gone = 0;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            stays[i] = step.Settled ? 1 - clock.Settled(AgeRoot(s, i, point)) : 0;
            var number = _filter.Mean[i] * (1 - stays[i]);
            _settledGone[i] += step.Settled ? number : 0;
            gone += number;
            _survival[(s * _cells) + i] *= stays[i];
        }

        _filter.Thin(stays);
        return gone;
    }
}
