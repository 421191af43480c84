using System.Collections.Immutable;
using System.Numerics;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Tells the answer from weighted suppositions: goes through the run once more for those that speak.</summary>
internal sealed class LarvalTelling
{
    private readonly LarvalRun _run;
    private readonly LarvalQuestion _question;
    private readonly WeightedPoints _points;
    private readonly List<(int Point, int Times)> _chosen;
    private readonly LarvalProgram _program;
    private readonly LarvalPass _pass;
    private readonly int _count;
    private readonly ulong[] _sets;

    // Which of the sets stands for each one asked; the same cells are worked out once.
    private readonly int[] _setAsked;
    private readonly int _setsEveryDay;
    private readonly int _firstDays;
    private readonly int _stages;
    private readonly double[] _means;
    private readonly double[] _variances;

    // What is believed without the looks that can only raise; empty where there are none.
    private readonly double[] _unraisedMeans;
    private readonly double[] _unraisedVariances;
    private readonly double[] _evenWeights;
    private readonly double[] _shares;
    private readonly double[] _survived;
    private readonly double[] _weights;
    private readonly LarvalDraw[] _draws;
    private readonly SettlementTelling _settlement;
    private readonly double[] _logWeights;
    private int _next;

    /// <param name="run">The run.</param>
    /// <param name="question">What is asked.</param>
    /// <param name="points">Suppositions weighed by all entries but those that can only raise.</param>
    /// <param name="most">Into how many equal parts the belief is cut: at most so many suppositions are told from.</param>
    internal LarvalTelling(LarvalRun run, LarvalQuestion question, WeightedPoints points, int most)
    {
        _chosen = points.Even(most);
        var count = _chosen.Count;
        _run = run;
        _question = question;
        _points = points;
        _count = count;
        _program = LarvalProgram.Of(run, [.. question.Days, run.Now], withRaising: true);
        _pass = new(_program);
        _firstDays = question.DaysWithStageNumbers ?? int.MaxValue;
        List<ulong> sets = [.. question.Sets.Prepend(run.All).Distinct()];
        _setsEveryDay = sets.Count;
        sets.AddRange(question.SetsOnFirstDays.Except(sets));
        _sets = [.. sets];
        _setAsked = [.. question.Sets.Concat(question.SetsOnFirstDays).Select(set => sets.IndexOf(set))];
        _stages = run.Stages.Count;
        var tellings = _program.Tellings;
        _means = new double[tellings * _sets.Length * count];
        _variances = new double[_means.Length];
        _unraisedMeans = new double[_program.Raises ? _means.Length : 0];
        _unraisedVariances = new double[_unraisedMeans.Length];
        _evenWeights = [.. _chosen.Select(chosen => (double)chosen.Times / most)];
        _shares = new double[_means.Length * _stages];
        _survived = new double[tellings * count * 3];
        _weights = new double[count];
        _draws = new LarvalDraw[count];
        _settlement = new(_program, count);
        _logWeights = new double[count];
    }

    /// <summary>Goes through some more suppositions.</summary>
    /// <returns>Whether any are left.</returns>
    internal bool Take(int some)
    {
        for (var taken = 0; taken < some && _next < _count; taken++, _next++)
        {
            var (chosen, times) = _chosen[_next];
            var point = LarvalPoint.At(_run.Priors, _points.Points[chosen]);
            // On the same steps with and without, so that nothing but what those looks say makes a difference.
            var without = _program.Raises ? Unraised(point) : 0;
            var with = _pass.Forward(point, withRaising: true);
            _logWeights[_next] = Math.Log(times) + Gained(with, without);
            _settlement.Take(_next, point, _pass);
            _pass.Backward();
            Take(_next, point);
        }

        return _next < _count;
    }

    /// <summary>The estimate last, and none at each pause before.</summary>
    internal IEnumerable<LarvalEstimate?> Tell()
    {
        var effective = _points.EffectiveSize * Weigh();
        var days = new List<LarvalDay>();
        foreach (var day in _question.Days)
        {
            days.Add(Day(day, days.Count));
            yield return null;
        }

        var window = _settlement.Window(_weights);
        yield return new()
        {
            Days = days,
            Settlement = window,
            JuvenilesDay = window.NineTenths.Middle,
            Juveniles = _settlement.Juveniles(_draws, window.NineTenths.Middle),
            EffectiveSize = effective,
            IsRough = effective < AdaptiveSampling.LeastEffective,
            Detection =
            [
                .. Enumerable
                    .Range(0, _run.Priors.Detection.Count)
                    .Select(look => OfDraws(draw => draw.Point.Detection[look])),
            ],
            DevelopmentDays = OfDraws(draw => draw.Point.Development),
            BaseHazardPerDay = OfDraws(draw => draw.Point.BaseHazard),
            EarlyMultiplier = OfDraws(draw => draw.Point.Early),
            DevelopmentCv = OfDraws(draw => draw.Point.Cv),
            MetamorphosisLoss = OfDraws(draw => draw.Point.MetamorphosisLoss),
            Draws = _draws,
        };
    }

    private double Unraised(LarvalPoint point)
    {
        var logProbability = _pass.Forward(point, withRaising: false);
        _pass.Backward();
        for (var telling = 0; telling < _program.Tellings; telling++)
        {
            for (var set = 0; set < SetsOn(telling); set++)
            {
                var place = Place(telling, set, _next);
                (_unraisedMeans[place], _unraisedVariances[place]) = Total(
                    _pass.MeanAt(telling),
                    _pass.CovarianceAt(telling),
                    _sets[set]
                );
            }
        }

        return logProbability;
    }

    // What looks that can only raise say for a supposition; nothing where even the other entries are impossible.
    private double Gained(double with, double without) =>
        !_program.Raises || !double.IsFinite(without) || double.IsNaN(with) ? 0 : with - without;

    // Gives the share of the effective size that is left.
    private double Weigh()
    {
        var highest = _logWeights.Max();
        var sum = 0.0;
        for (var i = 0; i < _count; i++)
        {
            _weights[i] = Math.Exp(_logWeights[i] - highest);
            sum += _weights[i];
        }

        var squares = 0.0;
        var squaresBefore = 0.0;
        for (var i = 0; i < _count; i++)
        {
            _weights[i] /= sum;
            squares += _weights[i] * _weights[i];
            squaresBefore += _evenWeights[i] * _evenWeights[i];
            _draws[i] = _draws[i] with { Weight = _weights[i] };
        }

        return Math.Min(1, squaresBefore / squares);
    }

    private void Take(int i, LarvalPoint point)
    {
        var clock = new StageClock(new double[_program.LogEnds.Length], _program.LogEnds, point);
        for (var s = 0; s < _program.Steps.Length; s++)
        {
            var step = _program.Steps[s];
            if (step.Kind != StepKind.Tell)
            {
                continue;
            }

            var telling = step.Telling;
            var mean = _pass.MeanAt(telling);
            var covariance = _pass.CovarianceAt(telling);
            for (var set = 0; set < SetsOn(telling); set++)
            {
                var place = Place(telling, set, i);
                (_means[place], _variances[place]) = Total(mean, covariance, _sets[set]);
                _pass.SharesAt(s, _sets[set], mean, point, clock, _shares.AsSpan(place * _stages, _stages));
            }

            TakeSurvived(telling, i, mean, covariance);
        }

        var now = Place(_program.Tellings - 1, 0, i);
        _draws[i] = new(
            point,
            0,
            _means[now],
            _variances[now],
            _settlement.HalfDay(i),
            _shares.AsSpan(now * _stages, _stages).ToArray()
        );
    }

    // Share alive of those that ever came: three points of a normal law for the ratio, from means and covariance.
    private void TakeSurvived(int telling, int i, ReadOnlySpan<double> mean, ReadOnlySpan<double> covariance)
    {
        var size = mean.Length;
        var ever = size - 2;
        var (alive, variance) = Total(mean, covariance, _run.All);
        var came = Math.Max(mean[ever], 1e-9);
        double with = 0;
        for (var c = 0; c < ever; c++)
        {
            with += covariance[(c * size) + ever];
        }

        var ratio = Math.Max(0, alive) / came;
        var spread =
            (variance - (2 * ratio * with) + (ratio * ratio * covariance[(ever * size) + ever]))
            / (came * came);
        var sd = Math.Sqrt(Math.Max(0, spread));
        for (var k = 0; k < 3; k++)
        {
            _survived[(((telling * _count) + i) * 3) + k] = Math.Clamp(
                ratio + ((k - 1) * ThreePoints * sd),
                0,
                1
            );
        }
    }

    // The points of the three-point rule with equal weights that keeps the variance.
    internal const double ThreePoints = 1.224744871391589;

    private LarvalDay Day(double day, int telling)
    {
        double[] each = [.. _weights.SelectMany(weight => Enumerable.Repeat(weight / 3, 3))];
        LarvalNumbers[] sets = [.. Enumerable.Range(0, SetsOn(telling)).Select(set => Numbers(telling, set))];
        var asked = telling < _firstDays ? _setAsked.Length : _question.Sets.Count;
        return new(
            day,
            sets[0],
            [.. _setAsked.Take(asked).Select(set => sets[set])],
            WeightedPoint.Interval(_survived.AsSpan(telling * _count * 3, _count * 3).ToArray(), each)
        );
    }

    private LarvalNumbers Numbers(int telling, int set)
    {
        var first = Place(telling, set, 0);
        var means = _means.AsSpan(first, _count);
        var variances = _variances.AsSpan(first, _count);
        var alive = new NumberMixture(_weights, means, variances).Whole();
        if (_program.Raises)
        {
            // Reweighted bells are not quite the exact law, which could not lower any point; so none is let fall.
            var unraised = new NumberMixture(
                _evenWeights,
                _unraisedMeans.AsSpan(first, _count),
                _unraisedVariances.AsSpan(first, _count)
            ).Whole();
            alive = Interval.FromPoints(
                Math.Max(alive.Low, unraised.Low),
                Math.Max(alive.Middle, unraised.Middle),
                Math.Max(alive.High, unraised.High)
            );
        }

        var shares = new double[_stages];
        var stages = new Interval[_stages];
        double total = 0;
        var inNumbers = telling < _firstDays;
        var stageMeans = new double[_count];
        var stageVariances = new double[_count];
        for (var stage = 0; stage < _stages; stage++)
        {
            double sum = 0;
            for (var i = 0; i < _count; i++)
            {
                var share = _shares[((first + i) * _stages) + stage];
                stageMeans[i] = means[i] * share;
                stageVariances[i] =
                    (variances[i] * share * share) + (Math.Max(0, means[i]) * share * (1 - share));
                sum += _weights[i] * Math.Max(0, stageMeans[i]);
            }

            shares[stage] = sum;
            total += sum;
            stages[stage] =
                !inNumbers || sum < 0.01
                    ? Interval.Exactly(0)
                    : new NumberMixture(_weights, stageMeans, stageVariances).Whole();
        }

        return new(
            alive,
            [.. shares.Select(share => total > 0 ? share / total : 0)],
            inNumbers ? ImmutableArray.Create(stages) : []
        );
    }

    private Interval OfDraws(Func<LarvalDraw, double> what) =>
        WeightedPoint.Interval(Array.ConvertAll(_draws, draw => what(draw)), _weights);

    private static (double Mean, double Variance) Total(
        ReadOnlySpan<double> mean,
        ReadOnlySpan<double> covariance,
        ulong cells
    )
    {
        double sum = 0;
        double variance = 0;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            sum += mean[i];
            for (var others = cells; others != 0; others &= others - 1)
            {
                variance += covariance[(i * mean.Length) + BitOperations.TrailingZeroCount(others)];
            }
        }

        return (Math.Max(0, sum), Math.Max(0, variance));
    }

    private int SetsOn(int telling) => telling < _firstDays ? _sets.Length : _setsEveryDay;

    private int Place(int telling, int set, int i) => (((telling * _sets.Length) + set) * _count) + i;
}
