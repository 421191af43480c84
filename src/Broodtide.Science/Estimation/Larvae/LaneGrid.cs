using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The belief about a total after a count, one supposition a lane.</summary>
internal readonly record struct LaneTotal(Lane Mean, Lane Variance, Lane LogEvidence);

/// <summary>
/// The grid of a count for several suppositions in step; <see cref="CountGrid"/> is the same for one and the twin, and
/// does those kinds of counts that are cut off at what was seen or exact.
/// </summary>
internal sealed class LaneGrid
{
    private const int Points = 16;
    private readonly Lane[] _totals = new Lane[Points];
    private readonly Lane[] _logTotals = new Lane[Points];
    private readonly Lane[] _terms = new Lane[Points];
    private readonly Lane[] _room = new Lane[Points];
    private readonly CountGrid _single = new();

    internal LaneTotal Update(
        Lane mean,
        Lane variance,
        CountTerm term,
        Lane clumping,
        Lane detection,
        double oddEntry
    )
    {
        if (!term.HasLanes)
        {
            return OneByOne(mean, variance, term, clumping, detection, oddEntry);
        }

        // A total nearer to none than this is told from none by no count.
        mean = Vector.Max(mean, new Lane(0.02));
        variance = Vector.Max(variance, new Lane(1e-4));
        var width = Lay(mean, variance, term, clumping, detection);
        term.LogLikelihood(_totals, _logTotals, clumping, detection, _terms, _room);
        // As spans of a length that is known, so that no place is checked.
        var totals = _totals.AsSpan(0, Points);
        var logTotals = _logTotals.AsSpan(0, Points);
        var terms = _terms.AsSpan(0, Points);
        var rate = mean / variance;
        var shape = mean * mean / variance;
        var power = shape - new Lane(1.0 / 3);
        var highest = new Lane(double.NegativeInfinity);
        for (var i = 0; i < Points; i++)
        {
            terms[i] += (power * logTotals[i]) - (totals[i] * rate);
            highest = Vector.Max(highest, terms[i]);
        }

        for (var i = 0; i < Points; i++)
        {
            // Far below the highest nothing counts, and numbers next to nothing are slow.
            terms[i] = Vector.Max(terms[i] - highest, new Lane(-200));
        }

        Lanes.Exp(terms);
        var (sum, first, second) = (Lane.Zero, Lane.Zero, Lane.Zero);
        for (var i = 0; i < Points; i++)
        {
            var off = totals[i] - mean;
            var weighted = terms[i] * off;
            sum += terms[i];
            first += weighted;
            second += weighted * off;
        }

        first /= sum;
        second = (second / sum) - (first * first);
        Span<Lane> logs = [rate, new Lane(3) * sum * width];
        Lanes.Log(logs);
        var logEvidence = highest - (Lanes.LogGamma(shape) - (shape * logs[0])) + logs[1];
        return Mixed(mean, variance, first, second, logEvidence, term, oddEntry);
    }

    /// <summary>A look that can only raise, one by one: see <see cref="CountGrid.Raise"/>.</summary>
    internal LaneTotal Raise(Lane mean, Lane variance, CountTerm term, double oddEntry)
    {
        var told = new LaneEach();
        for (var lane = 0; lane < Lane.Count; lane++)
        {
            told.Set(lane, _single.Raise(mean[lane], variance[lane], term, oddEntry));
        }

        return told.All;
    }

    private Lane Lay(Lane mean, Lane variance, CountTerm term, Lane clumping, Lane detection)
    {
        var sd = Vector.SquareRoot(variance);
        var low = Vector.Max(Lane.Zero, mean - (new Lane(4.5) * sd));
        var high = mean + (new Lane(6) * sd) + (new Lane(2) * variance / mean);
        var (middle, spread) = term.Focus(clumping, detection);
        var narrow = Vector.LessThan(spread, new Lane(2) * sd);
        var nearLow = Vector.Max(low, Vector.Min(middle - (new Lane(7) * spread), high - sd));
        var nearHigh = Vector.Min(high, Vector.Max(middle + (new Lane(9) * spread), nearLow + sd));
        low = Lanes.Where(narrow, nearLow, low);
        high = Lanes.Where(narrow, nearHigh, high);
        Span<Lane> roots = [low, high];
        Lanes.CubeRoot(roots);
        var lowRoot = roots[0];
        var width = (roots[1] - lowRoot) / new Lane(Points);
        var totals = _totals.AsSpan(0, Points);
        var logTotals = _logTotals.AsSpan(0, Points);
        for (var i = 0; i < Points; i++)
        {
            var root = lowRoot + (new Lane(i + 0.5) * width);
            logTotals[i] = root;
            totals[i] = root * root * root;
        }

        Lanes.Log(logTotals);
        for (var i = 0; i < Points; i++)
        {
            logTotals[i] *= new Lane(3);
        }

        return width;
    }

    private static LaneTotal Mixed(
        Lane mean,
        Lane variance,
        Lane step,
        Lane after,
        Lane logEvidence,
        CountTerm term,
        double oddEntry
    )
    {
        if (oddEntry <= 0)
        {
            return new(mean + step, after, logEvidence);
        }

        var right = new Lane(1 - oddEntry) * Lanes.Exp(logEvidence);
        var either = right + new Lane(oddEntry * term.OddLikelihood);
        var trust = Vector.Min(
            Lane.One,
            Vector.Max(Lane.Zero, ((right / either) - new Lane(0.1)) / new Lane(0.8))
        );
        var doubt = Lane.One - trust;
        return new(
            mean + (trust * step),
            (trust * after) + (doubt * variance) + (trust * doubt * step * step),
            Lanes.Log(either)
        );
    }

    private LaneTotal OneByOne(
        Lane mean,
        Lane variance,
        CountTerm term,
        Lane clumping,
        Lane detection,
        double oddEntry
    )
    {
        var told = new LaneEach();
        for (var lane = 0; lane < Lane.Count; lane++)
        {
            var unknowns = new CountUnknowns(clumping[lane], detection[lane]);
            told.Set(lane, _single.Update(mean[lane], variance[lane], term, unknowns, oddEntry));
        }

        return told.All;
    }

    // Answers of single lanes put together.
    private struct LaneEach
    {
        private LaneTotal _all;

        internal readonly LaneTotal All => _all;

        internal void Set(int lane, TotalAfter after) =>
            _all = new(
                _all.Mean.WithElement(lane, after.Mean),
                _all.Variance.WithElement(lane, after.Variance),
                _all.LogEvidence.WithElement(lane, after.LogEvidence)
            );
    }
}
