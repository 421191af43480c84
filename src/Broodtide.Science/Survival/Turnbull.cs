using Broodtide.Units;

namespace Broodtide.Science.Survival;

/// <summary>A stretch of time that holds a share of the deaths; where inside it they fall, nothing tells.</summary>
/// <param name="After">Its beginning, not in it (in it where the moment of a death was known).</param>
/// <param name="UpTo">Its end, in it; none for "later than all looks".</param>
/// <param name="Share">Share of the deaths, 0 to 1.</param>
public sealed record DeathShare(double After, double? UpTo, double Share);

/// <summary>
/// Shares of deaths by time from lives seen only at visits: the maximum-likelihood distribution without a shape
/// (Turnbull 1976, J. R. Stat. Soc. B 38:290), by self-consistency and exchange from equal shares. The shares lie on the
/// stretches that begin with a last look alive and end with the next first look dead; others get none.
/// </summary>
public static class Turnbull
{
    private const double Settled = 1e-10;
    private const int MostRounds = 20_000;

    /// <summary>The shares of deaths.</summary>
    /// <param name="windows">One or more lives.</param>
    /// <exception cref="ArgumentException">No life at all, or the shares do not settle.</exception>
    public static IReadOnlyList<DeathShare> Of(ReadOnlySpan<DeathWindow> windows)
    {
        if (windows.IsEmpty)
        {
            throw new ArgumentException("Shares of deaths need at least one life.", nameof(windows));
        }

        var stretches = Stretches(windows);
        var holds = Holds(windows, stretches);
        var shares = new double[stretches.Count];
        Array.Fill(shares, 1.0 / shares.Length);
        for (var round = 0; round < MostRounds; round++)
        {
            var pull = Pull(shares, holds);
            if (pull.Max() - 1 < Settled)
            {
                return [.. stretches.Select((stretch, j) => stretch with { Share = shares[j] })];
            }

            for (var j = 0; j < shares.Length; j++)
            {
                shares[j] *= pull[j];
            }

            Exchange(shares, holds);
        }

        throw new ArgumentException("The shares of deaths do not settle.", nameof(windows));
    }

    /// <summary>Share alive at a time: whole where it falls between stretches, else the range it may have.</summary>
    /// <param name="shares">The shares of deaths.</param>
    /// <param name="time">When, not negative.</param>
    /// <returns>The lowest and the highest share alive that the looks allow.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static (double Least, double Most) AliveAt(IReadOnlyList<DeathShare> shares, double time)
    {
        Finite.NotNegative(time);
        var least = shares.Where(share => share.After >= time && !(share.UpTo <= time)).Sum(s => s.Share);
        var most = shares.Where(share => !(share.UpTo <= time)).Sum(share => share.Share);
        return (Math.Min(1, least), Math.Min(1, Math.Max(least, most)));
    }

    /// <summary>For each window, the stretches it holds.</summary>
    internal static bool[][] Holds(ReadOnlySpan<DeathWindow> windows, IReadOnlyList<DeathShare> stretches)
    {
        var holds = new bool[windows.Length][];
        for (var i = 0; i < windows.Length; i++)
        {
            var window = windows[i];
            holds[i] =
            [
                .. stretches.Select(stretch =>
                    (stretch.UpTo ?? double.PositiveInfinity) <= (window.UpTo ?? double.PositiveInfinity)
                    && (
                        stretch.After > window.After
                        || (
                            stretch.After.Equals(window.After)
                            && (window.IsExact || !stretch.UpTo.Equals(stretch.After))
                        )
                    )
                ),
            ];
        }

        return holds;
    }

    // Self-consistency alone creeps where a share goes to nothing. So the stretch with the least slope also gives to
    // the one with the greatest as much as raises the likelihood most (vertex exchange: Bohning 1986, Metrika 33:337).
    private static void Exchange(double[] shares, bool[][] holds)
    {
        var pull = Pull(shares, holds);
        var to = Array.IndexOf(pull, pull.Max());
        var from = Enumerable.Range(0, shares.Length).Where(j => shares[j] > 0).MinBy(j => pull[j]);
        var sums = holds.Select(held => shares.Where((_, j) => held[j]).Sum()).ToArray();
        double Slope(double moved)
        {
            var slope = 0.0;
            for (var i = 0; i < holds.Length; i++)
            {
                var change = (holds[i][to] ? 1 : 0) - (holds[i][from] ? 1 : 0);
                slope += change == 0 ? 0 : change / (sums[i] + (change * moved));
            }

            return slope;
        }

        var (low, high) = (0.0, shares[from]);
        if (Slope(high) >= 0)
        {
            low = high;
        }

        for (var halving = 0; halving < 60 && low < high; halving++)
        {
            var middle = 0.5 * (low + high);
            (low, high) = Slope(middle) > 0 ? (middle, high) : (low, middle);
        }

        shares[to] += low;
        shares[from] = Math.Max(0, shares[from] - low);
    }

    // Slope of the mean log-likelihood by each share: 1 where a share is as it should be, less where it should be
    // none. The mean log-likelihood lies below its top by no more than the largest slope less 1 (Gentleman and Geyer
    // 1994, Biometrika 81:618).
    private static double[] Pull(double[] shares, bool[][] holds)
    {
        var pull = new double[shares.Length];
        foreach (var held in holds)
        {
            var sum = 0.0;
            for (var j = 0; j < shares.Length; j++)
            {
                sum += held[j] ? shares[j] : 0;
            }

            for (var j = 0; j < shares.Length; j++)
            {
                pull[j] += held[j] ? 1 / sum / holds.Length : 0;
            }
        }

        return pull;
    }

    // A beginning followed at once by an end. At one moment a known death begins first, then windows end, then
    // windows that exclude the moment begin.
    private static List<DeathShare> Stretches(ReadOnlySpan<DeathWindow> windows)
    {
        var marks = new HashSet<(double Time, int Rank)>();
        foreach (var window in windows)
        {
            marks.Add((window.After, window.IsExact ? 0 : 2));
            marks.Add((window.UpTo ?? double.PositiveInfinity, 1));
        }

        var ordered = marks.Order().ToArray();
        var stretches = new List<DeathShare>();
        for (var i = 0; i + 1 < ordered.Length; i++)
        {
            if (ordered[i].Rank != 1 && ordered[i + 1].Rank == 1)
            {
                var end = ordered[i + 1].Time;
                stretches.Add(new(ordered[i].Time, double.IsFinite(end) ? end : null, 0));
            }
        }

        return stretches;
    }
}
