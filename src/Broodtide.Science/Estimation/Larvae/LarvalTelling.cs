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
    private readonly LarvalProgram _program;
    private readonly LarvalPass _pass;
    private readonly int _count;
    private readonly ulong[] _sets;
    private readonly int _stages;
    private readonly double[] _means;
    private readonly double[] _variances;
    private readonly double[] _shares;
    private readonly double[] _survived;
    private readonly LarvalDraw[] _draws;
    private readonly SettlementTelling _settlement;
    private readonly int[] _chosen;
    private int _next;

    internal LarvalTelling(LarvalRun run, LarvalQuestion question, WeightedPoints points, int count)
    {
        _run = run;
        _question = question;
        _points = points;
        _count = count;
        _program = LarvalProgram.Of(run, [.. question.Days, run.Now]);
        _pass = new(_program);
        _sets = [run.All, .. question.Sets];
        _stages = run.Stages.Count;
        var tellings = _program.Tellings;
        _means = new double[tellings * _sets.Length * count];
        _variances = new double[_means.Length];
        _shares = new double[_means.Length * _stages];
        _survived = new double[tellings * count * 3];
        _draws = new LarvalDraw[count];
        _settlement = new(_program, count);
        _chosen = points.Even(count);
    }

    /// <summary>Goes through some more suppositions.</summary>
    /// <returns>Whether any are left.</returns>
    internal bool Take(int some)
    {
        for (var taken = 0; taken < some && _next < _count; taken++, _next++)
        {
            if (_next > 0 && _chosen[_next] == _chosen[_next - 1])
            {
                Repeat(_next);
                continue;
            }

            var point = LarvalPoint.At(_run.Priors, _points.Points[_chosen[_next]]);
            _pass.Forward(point, withLowerBounds: true);
            _settlement.Take(_next, point, _pass);
            _pass.Backward();
            Take(_next, point);
        }

        return _next < _count;
    }

    /// <summary>The estimate last, and none at each pause before.</summary>
    internal IEnumerable<LarvalEstimate?> Tell()
    {
        var days = new List<LarvalDay>();
        foreach (var day in _question.Days)
        {
            days.Add(Day(day, days.Count));
            yield return null;
        }

        var window = _settlement.Window();
        yield return new()
        {
            Days = days,
            Settlement = window,
            JuvenilesDay = window.NineTenths.Middle,
            Juveniles = _settlement.Juveniles(_draws, window.NineTenths.Middle),
            EffectiveSize = _points.EffectiveSize,
            IsRough = _points.EffectiveSize < AdaptiveSampling.LeastEffective,
            Detection =
            [
                .. Enumerable
                    .Range(0, _run.Priors.Detection.Count)
                    .Select(look => OfDraws(draw => draw.Point.Detection[look])),
            ],
            DevelopmentDays = OfDraws(draw => draw.Point.Development),
            BaseHazardPerDay = OfDraws(draw => draw.Point.BaseHazard),
            Draws = _draws,
        };
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
            for (var set = 0; set < _sets.Length; set++)
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

    private void Repeat(int i)
    {
        for (var telling = 0; telling < _program.Tellings; telling++)
        {
            for (var set = 0; set < _sets.Length; set++)
            {
                var place = Place(telling, set, i);
                _means[place] = _means[place - 1];
                _variances[place] = _variances[place - 1];
                _shares
                    .AsSpan((place - 1) * _stages, _stages)
                    .CopyTo(_shares.AsSpan(place * _stages, _stages));
            }

            var survived = ((telling * _count) + i) * 3;
            _survived.AsSpan(survived - 3, 3).CopyTo(_survived.AsSpan(survived, 3));
        }

        _draws[i] = _draws[i - 1];
        _settlement.Repeat(i);
    }

    private LarvalDay Day(double day, int telling)
    {
        var survived = _survived.AsSpan(telling * _count * 3, _count * 3).ToArray();
        Array.Sort(survived);
        return new(
            day,
            Numbers(telling, 0),
            [.. Enumerable.Range(1, _sets.Length - 1).Select(set => Numbers(telling, set))],
            Quantiles(survived)
        );
    }

    private LarvalNumbers Numbers(int telling, int set)
    {
        var first = Place(telling, set, 0);
        var means = _means.AsSpan(first, _count);
        var variances = _variances.AsSpan(first, _count);
        var alive = new NumberMixture(means, variances).Whole();
        var shares = new double[_stages];
        var stages = new Interval[_stages];
        double total = 0;
        var inNumbers = telling < (_question.DaysWithStageNumbers ?? int.MaxValue);
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
                sum += Math.Max(0, stageMeans[i]);
            }

            shares[stage] = sum;
            total += sum;
            stages[stage] =
                !inNumbers || sum / _count < 0.01
                    ? Interval.Exactly(0)
                    : new NumberMixture(stageMeans, stageVariances).Whole();
        }

        return new(
            alive,
            [.. shares.Select(share => total > 0 ? share / total : 0)],
            inNumbers ? ImmutableArray.Create(stages) : []
        );
    }

    private Interval OfDraws(Func<LarvalDraw, double> what)
    {
        var values = Array.ConvertAll(_draws, draw => what(draw));
        Array.Sort(values);
        return Quantiles(values);
    }

    /// <summary>5, 50 and 95 % points of sorted values of equal weight.</summary>
    internal static Interval Quantiles(double[] sorted) =>
        Interval.FromPoints(At(sorted, 0.05), At(sorted, 0.5), At(sorted, 0.95));

    private static double At(double[] sorted, double probability)
    {
        var place = Math.Clamp((probability * sorted.Length) - 0.5, 0, sorted.Length - 1);
        var left = (int)place;
        var right = Math.Min(left + 1, sorted.Length - 1);
        return sorted[left] + ((place - left) * (sorted[right] - sorted[left]));
    }

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

    private int Place(int telling, int set, int i) => (((telling * _sets.Length) + set) * _count) + i;
}
