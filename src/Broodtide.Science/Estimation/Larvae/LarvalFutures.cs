using System.Collections.Immutable;
using System.Numerics;
using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>How larvae go on, member by member.</summary>
/// <param name="Alive">Number alive, by the days asked in their order, then by member; not rounded.</param>
/// <param name="HalfSettledDays">Day of the run's clock by which half have settled, by member.</param>
public sealed record LarvalFuture(
    ImmutableArray<ImmutableArray<double>> Alive,
    ImmutableArray<double> HalfSettledDays
);

/// <summary>
/// Larvae run on from what was learned of them, as members that keep their number: member for member the same
/// supposition and the same luck under every course to come, so that two courses are compared without the noise
/// between members.
/// </summary>
public static class LarvalFutures
{
    /// <summary>Runs the larvae of some cells on, in pieces: none at each pause, the answer last.</summary>
    /// <param name="run">
    /// The run. Its courses may differ after <see cref="LarvalRun.Now"/> from those that were learned from, not before.
    /// </param>
    /// <param name="learned">What was learned of the run.</param>
    /// <param name="cells">Bits of the cells to follow, one or more.</param>
    /// <param name="days">Days to tell, of the run's clock, not before now.</param>
    /// <param name="members">How many members, 2 to 10,000.</param>
    /// <param name="suppositions">How many suppositions to go through between pauses, 1 or more.</param>
    /// <exception cref="ArgumentException">No cell of the run is asked, or a day lies before now.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its limits.</exception>
    public static IEnumerable<LarvalFuture?> InPieces(
        LarvalRun run,
        LarvalEstimate learned,
        ulong cells,
        IReadOnlyList<double> days,
        int members,
        int suppositions = 2
    )
    {
        LarvalRun.Check(run);
        ArgumentOutOfRangeException.ThrowIfLessThan(members, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(members, 10_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(suppositions, 1);
        if ((cells & run.All) == 0 || (cells & ~run.All) != 0)
        {
            throw new ArgumentException("Cells of the run are asked for, one or more.", nameof(cells));
        }

        if (days.Any(day => Finite.Required(day, nameof(days)) < run.Now))
        {
            throw new ArgumentException("Only days to come are told.", nameof(days));
        }

        return Pieces(run, learned, cells, days, members, suppositions);
    }

    private static IEnumerable<LarvalFuture?> Pieces(
        LarvalRun run,
        LarvalEstimate learned,
        ulong cells,
        IReadOnlyList<double> days,
        int members,
        int suppositions
    )
    {
        var program = LarvalProgram.Of(run, [.. days, run.Now], withRaising: true);
        var pass = new LarvalPass(program);
        var settling = new SettlementTelling(program, learned.Draws.Count, cells);
        var draws = DrawsOf(learned, members);
        var alive = days.Select(_ => new double[members]).ToList();
        var settled = new double[members];
        var mean = new double[days.Count];
        var sd = new double[days.Count];
        var member = 0;
        for (var done = 0; member < members; done++)
        {
            if (done % suppositions == 0)
            {
                yield return null;
            }

            var draw = draws[member];
            var point = learned.Draws[draw].Point;
            pass.Forward(point, withRaising: true);
            settling.Take(draw, point, pass.Filter.Mean.AsSpan(0, program.CellCount), pass.SettledGone);
            pass.Backward();
            for (var day = 0; day < days.Count; day++)
            {
                (mean[day], sd[day]) = Total(pass, day, cells);
            }

            for (; member < members && draws[member] == draw; member++)
            {
                settled[member] = settling.HalfDay(draw);
                var luck = Luck(member);
                for (var day = 0; day < days.Count; day++)
                {
                    alive[day][member] = Number(mean[day], sd[day], luck);
                }
            }
        }

        yield return new([.. alive.Select(each => each.ToImmutableArray())], [.. settled]);
    }

    // Each member stands for an equal share of the belief; in the order of the number alive, so that even few members
    // cover it.
    private static int[] DrawsOf(LarvalEstimate learned, int members)
    {
        var draws = Enumerable
            .Range(0, learned.Draws.Count)
            .OrderBy(draw => learned.Draws[draw].Mean)
            .ThenBy(draw => draw)
            .ToArray();
        var chosen = new int[members];
        var place = 0;
        var reached = learned.Draws[draws[0]].Weight;
        for (var member = 0; member < members; member++)
        {
            while (place < draws.Length - 1 && reached < (member + 0.5) / members)
            {
                reached += learned.Draws[draws[++place]].Weight;
            }

            chosen[member] = draws[place];
        }

        return chosen;
    }

    // A gamma law by the cube root of Wilson and Hilferty (1931), as the estimate tells its numbers.
    private static double Number(double mean, double sd, double luck)
    {
        if (mean <= 0)
        {
            return 0;
        }

        var ninth = Math.Min(1, sd * sd / (mean * mean)) / 9;
        return mean * Math.Pow(Math.Max(0, 1 - ninth + (Math.Sqrt(ninth) * luck)), 3);
    }

    // Steps of the golden section fill the unit evenly and have nothing in common with the points of Sobol that the
    // suppositions were drawn from.
    private static double Luck(int member)
    {
        var even = 0.5 + (member * (Constants.GoldenRatio - 1));
        return -Constants.Sqrt2
            * SpecialFunctions.ErfcInv(2 * Math.Clamp(even - Math.Floor(even), 1e-9, 1 - 1e-9));
    }

    private static (double Mean, double Sd) Total(LarvalPass pass, int telling, ulong cells)
    {
        var mean = pass.MeanAt(telling);
        var covariance = pass.CovarianceAt(telling);
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

        return (Math.Max(0, sum), Math.Sqrt(Math.Max(0, variance)));
    }
}
