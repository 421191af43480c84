using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <content>What happens in each kind of step.</content>
internal sealed partial class LanePass
{
    private void Arrive(LarvalStep step)
    {
        var cv = Vector.Min(new Lane(1.5), new Lane(step.ErrorCv) * _arrivalError);
        var number = new Lane(step.Number);
        var variance = (cv * cv * number * number) + new Lane(step.ErrorCv > 0 ? 0.25 : 0);
        if (step.SharedErrorCv > 0)
        {
            _filter.AddShared(step.To, step.Number, variance);
        }
        else
        {
            _filter.Add(step.To, step.Number, variance);
        }
    }

    private Lane Count(int s, LarvalStep step, double odd)
    {
        var term = step.Term!;
        var detection = Lane.Zero;
        if (term.Class >= 0)
        {
            detection = _detection[term.Class];
            if (term.FadesWithLight)
            {
                detection *= Vector.Min(Lane.One, Vector.Max(new Lane(0.02), DrawnToLight(s, step.Cells)));
            }
        }

        var result = _filter.Observe(step.Cells, term, _clumping, detection, odd, out var told);
        _trace?.Told(s, _filter.Gain, told);
        return result;
    }

    private Lane Raise(int s, LarvalStep step, double odd)
    {
        var result = _filter.Raise(step.Cells, step.Term!, odd, out var told);
        _trace?.Told(s, _filter.Gain, told);
        return result;
    }

    private Lane Nothing(int s)
    {
        _trace?.NothingTold(s);
        return Lane.Zero;
    }

    private Lane DrawnToLight(int s, ulong cells)
    {
        var (total, drawn) = (Lane.Zero, Lane.Zero);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            if (_program.Ages[(s * _cells) + i] >= 0)
            {
                var there = Vector.GreaterThan(_filter.Mean[i], Lane.Zero);
                var all = _filter.Mean[i] + _settledGone[i];
                var before = _clock.Before(AgeRoot(s, i), _program.Run.Stages.LightFadesFrom);
                total += Lanes.Where(there, _filter.Mean[i], Lane.Zero);
                drawn += Lanes.Where(there, all * before, Lane.Zero);
            }
        }

        return Lanes.Where(Vector.GreaterThan(total, Lane.Zero), drawn / total, Lane.Zero);
    }

    private Lane Stage(int s, LarvalStep step)
    {
        var any = SharesAt(s, step.Cells, _filter.Mean, _shares);
        var priors = _program.Run.Priors;
        // Nobody lives there by this supposition: every stage is as likely as any other.
        var mistakes = Lanes.Where(any, new Lane(priors.StagingMistakes), Lane.One);
        return DirichletMultinomial.Log(step.Tallies, _shares, mistakes, priors.StagePrecision);
    }

    /// <summary>Shares of the stages among some cells at a step; gives where anybody lives, the shares are zero elsewhere.</summary>
    internal Vector<long> SharesAt(int s, ulong cells, ReadOnlySpan<Lane> numbers, Span<Lane> shares)
    {
        shares.Clear();
        var (total, settledGone) = (Lane.Zero, Lane.Zero);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            if (_program.Ages[(s * _cells) + i] >= 0)
            {
                // Settled ones that were taken out are missing among the settled.
                var there = Vector.GreaterThan(numbers[i], Lane.Zero);
                var all = Lanes.Where(there, numbers[i] + _settledGone[i], Lane.Zero);
                _clock.Spread(AgeRoot(s, i), all, shares);
                total += all;
                settledGone += Lanes.Where(there, _settledGone[i], Lane.Zero);
            }
        }

        var taken = Vector.Min(settledGone, shares[^1]);
        shares[^1] -= taken;
        total -= taken;
        var any = Vector.GreaterThan(total, Lane.Zero);
        foreach (ref var share in shares)
        {
            share = Lanes.Where(any, share / total, Lane.Zero);
        }

        return any;
    }

    private Lane SettledSeen(int s, LarvalStep step)
    {
        var expected = Lane.Zero;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            expected += Vector.Max(Lane.Zero, _filter.Mean[i]) * SettledAt(s, i);
        }

        Span<double> each = stackalloc double[Lane.Count];
        expected.CopyTo(each);
        foreach (ref var one in each)
        {
            one = LarvalPass.LogSettledSeen(step.Number, one);
        }

        return new(each);
    }

    private Lane Remove(int s, LarvalStep step)
    {
        if (!step.Settled)
        {
            var before = _filter.Total(step.Cells);
            _filter.RemoveFrom(step.Cells, step.Number);
            return before - _filter.Total(step.Cells);
        }

        var settledThere = Lane.Zero;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            _common[i] = _filter.Mean[i] * Vector.Max(new Lane(1e-6), SettledAt(s, i));
            settledThere += _common[i];
        }

        var any = Vector.GreaterThan(settledThere, Lane.Zero);
        var gone = Lane.Zero;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var number = Lanes.Where(
                any,
                Vector.Min(_filter.Mean[i], new Lane(step.Number) * _common[i] / settledThere),
                Lane.Zero
            );
            _filter.Mean[i] = Vector.Max(Lane.Zero, _filter.Mean[i] - number);
            _settledGone[i] += number;
            gone += number;
        }

        return gone;
    }

    private Lane RemoveAll(int s, LarvalStep step)
    {
        Array.Fill(_survival, Lane.One);
        Array.Clear(_common);
        var gone = Lane.Zero;
        for (var left = step.Cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            _survival[i] = step.Settled ? Lane.One - SettledAt(s, i) : Lane.Zero;
            var number = _filter.Mean[i] * (Lane.One - _survival[i]);
            _settledGone[i] += step.Settled ? number : Lane.Zero;
            gone += number;
        }

        _filter.Thin(_survival, _common, _common, _program.Vessels);
        _trace?.Thinned(s, _survival);
        return gone;
    }
}
