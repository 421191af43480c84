using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <content>Goes through the run for several suppositions in step.</content>
internal sealed partial class LarvalTelling
{
    private void Take(ReadOnlySpan<LarvalPoint> points)
    {
        // On the same steps with and without, so that nothing but what those looks say makes a difference.
        var without = _program.Raises ? Unraised(points) : Lane.Zero;
        var with = _pass.Forward(points, withRaising: true);
        for (var lane = 0; lane < points.Length; lane++)
        {
            _logWeights[_next + lane] =
                Math.Log(_chosen[_next + lane].Times) + Gained(with[lane], without[lane]);
            TakeSettlement(lane, points[lane]);
        }

        _trace.Backward(_totals);
        for (var s = 0; s < _program.Steps.Length; s++)
        {
            if (_program.Steps[s].Kind == StepKind.Tell)
            {
                TakeDay(s, _program.Steps[s].Telling, points.Length);
            }
        }

        for (var lane = 0; lane < points.Length; lane++)
        {
            var now = Place(_program.Tellings - 1, 0, _next + lane);
            _draws[_next + lane] = new(
                points[lane],
                0,
                _means[now],
                _variances[now],
                _settlement.HalfDay(_next + lane),
                _shares.AsSpan(now * _stages, _stages).ToArray()
            );
        }
    }

    private Lane Unraised(ReadOnlySpan<LarvalPoint> points)
    {
        var logProbability = _pass.Forward(points, withRaising: false);
        _trace.Backward(_totals);
        for (var telling = 0; telling < _program.Tellings; telling++)
        {
            for (var set = 0; set < SetsOn(telling); set++)
            {
                var (mean, variance) = _totals.Total(telling, set);
                var place = Place(telling, set, _next);
                for (var lane = 0; lane < points.Length; lane++)
                {
                    _unraisedMeans[place + lane] = mean[lane];
                    _unraisedVariances[place + lane] = variance[lane];
                }
            }
        }

        return logProbability;
    }

    private void TakeSettlement(int lane, LarvalPoint point)
    {
        var numbers = _last.AsSpan(0, _program.CellCount);
        var gone = _last.AsSpan(_program.CellCount);
        for (var c = 0; c < numbers.Length; c++)
        {
            numbers[c] = _pass.Filter.Mean[c][lane];
            gone[c] = _pass.SettledGone[c][lane];
        }

        _settlement.Take(_next + lane, point, numbers, gone);
    }

    private void TakeDay(int s, int telling, int lanes)
    {
        for (var set = 0; set < SetsOn(telling); set++)
        {
            var place = Place(telling, set, _next);
            var (mean, variance) = _totals.Total(telling, set);
            _pass.SharesAt(s, _sets[set], _totals.MeanAt(telling), _laneShares);
            for (var lane = 0; lane < lanes; lane++)
            {
                _means[place + lane] = mean[lane];
                _variances[place + lane] = variance[lane];
                for (var stage = 0; stage < _stages; stage++)
                {
                    _shares[((place + lane) * _stages) + stage] = _laneShares[stage][lane];
                }
            }
        }

        TakeSurvived(telling, lanes);
    }

    // Share alive of those that ever came: three points of a normal law for the ratio, from means and covariance.
    private void TakeSurvived(int telling, int lanes)
    {
        var (alive, variance) = _totals.Total(telling, 0);
        var (with, everVariance) = _totals.Ever(telling);
        var came = Vector.Max(_totals.MeanAt(telling)[_program.CellCount], new Lane(1e-9));
        var ratio = alive / came;
        var spread =
            (variance - (new Lane(2) * ratio * with) + (ratio * ratio * everVariance)) / (came * came);
        var sd = Vector.SquareRoot(Vector.Max(Lane.Zero, spread));
        for (var lane = 0; lane < lanes; lane++)
        {
            var place = ((telling * _count) + _next + lane) * 3;
            for (var k = 0; k < 3; k++)
            {
                _survived[place + k] = Math.Clamp(ratio[lane] + ((k - 1) * ThreePoints * sd[lane]), 0, 1);
            }
        }
    }
}
