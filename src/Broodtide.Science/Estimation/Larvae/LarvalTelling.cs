using System.Collections.Immutable;
using Broodtide.Units;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Tells the answer from weighted suppositions: goes through the run once more for those that speak.</summary>
internal sealed partial class LarvalTelling
{
    private readonly LarvalRun _run;
    private readonly LarvalQuestion _question;
    private readonly WeightedPoints _points;
    private readonly List<(int Point, int Times)> _chosen;
    private readonly LarvalProgram _program;
    private readonly LaneTrace _trace;
    private readonly LanePass _pass;
    private readonly LaneTotals _totals;
    private readonly LarvalPoint[] _batch = new LarvalPoint[Lane.Count];
    private readonly double[] _last;
    private readonly Lane[] _laneShares;
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
        _trace = new(_program);
        _pass = new(_program, _trace);
        _firstDays = question.DaysWithStageNumbers ?? int.MaxValue;
        List<ulong> sets = [.. question.Sets.Prepend(run.All).Distinct()];
        _setsEveryDay = sets.Count;
        sets.AddRange(question.SetsOnFirstDays.Except(sets));
        _sets = [.. sets];
        _setAsked = [.. question.Sets.Concat(question.SetsOnFirstDays).Select(set => sets.IndexOf(set))];
        _stages = run.Stages.Count;
        var tellings = _program.Tellings;
        _totals = new(_program.CellCount + 2, tellings, _sets, SetsOn);
        _last = new double[2 * _program.CellCount];
        _laneShares = new Lane[run.Stages.Count];
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
        // No sum that could overflow: some may be as large as a number can be.
        for (var left = Math.Min(some, _count - _next); left > 0; )
        {
            var points = _batch.AsSpan(0, Math.Min(left, Lane.Count));
            for (var lane = 0; lane < points.Length; lane++)
            {
                points[lane] = LarvalPoint.At(_run.Priors, _points.Points[_chosen[_next + lane].Point]);
            }

            Take(points);
            left -= points.Length;
            _next += points.Length;
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

    private int SetsOn(int telling) => telling < _firstDays ? _sets.Length : _setsEveryDay;

    private int Place(int telling, int set, int i) => (((telling * _sets.Length) + set) * _count) + i;
}
