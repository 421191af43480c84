using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What was lost between two days.</summary>
/// <param name="FromDay">From when, of the run's clock.</param>
/// <param name="ToDay">Until when.</param>
/// <param name="Came">Those alive at the beginning and those that came in between, larvae.</param>
/// <param name="Lost">Those of them that died, larvae.</param>
/// <param name="LostShare">The same as a share, 0 to 1.</param>
public sealed record LarvalLoss(
    double FromDay,
    double ToDay,
    Interval Came,
    Interval Lost,
    Interval LostShare
);

/// <summary>
/// Losses between days, from the same suppositions that the estimate is told from: within each the dead are those that
/// ever came less those that live and those taken out, as all entries tell both days, and what died in between is the difference. How far
/// that difference is uncertain is taken as the larger of two: deaths of each by chance, and the difference of the two
/// uncertainties, which is exact where one of the two days is known.
/// </summary>
public static class LarvalLosses
{
    private const double AStepBefore = 1e-4;

    /// <summary>The losses between each day and the next, in pieces: none at each pause, the answer last.</summary>
    /// <param name="run">The run.</param>
    /// <param name="learned">What was learned of it.</param>
    /// <param name="days">Two days or more of the run's clock, ascending.</param>
    /// <param name="suppositions">How many suppositions to go through between pauses, 1 or more.</param>
    /// <exception cref="ArgumentException">Less than two days, or they do not ascend.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A day is not finite, or no supposition is wanted.</exception>
    public static IEnumerable<IReadOnlyList<LarvalLoss>?> InPieces(
        LarvalRun run,
        LarvalEstimate learned,
        IReadOnlyList<double> days,
        int suppositions = 4
    )
    {
        LarvalRun.Check(run);
        ArgumentOutOfRangeException.ThrowIfLessThan(suppositions, 1);
        if (
            days.Count < 2
            || days.Zip(days.Skip(1)).Any(pair => Finite.Required(pair.First, nameof(days)) > pair.Second)
        )
        {
            throw new ArgumentException("Two days or more are wanted, in their order.", nameof(days));
        }

        return Pieces(run, learned, days, suppositions);
    }

    private static IEnumerable<IReadOnlyList<LarvalLoss>?> Pieces(
        LarvalRun run,
        LarvalEstimate learned,
        IReadOnlyList<double> days,
        int suppositions
    )
    {
        Removed[] taken =
        [
            .. run.Events.OfType<Removed>().Where(one => one.Day > days[0] && one.Day <= days[^1]),
        ];
        // All taken out at once: how many they were is told shortly before.
        var told = days.Concat(taken.Select(one => Math.Max(days[0], one.Day - AStepBefore))).ToList();
        var pass = new LarvalPass(LarvalProgram.Of(run, [.. told, run.Now], withRaising: true));
        var spans = days.Count - 1;
        var draws = learned.Draws;
        var came = Rows(spans, draws.Count);
        var lost = Rows(spans, draws.Count);
        var lostVariance = Rows(spans, draws.Count);
        for (var i = 0; i < draws.Count; i++)
        {
            if (i > 0 && i % suppositions == 0)
            {
                yield return null;
            }

            pass.Forward(draws[i].Point, withRaising: true);
            pass.Backward();
            var before = Of(pass, 0, run.All);
            for (var span = 0; span < spans; span++)
            {
                var after = Of(pass, span + 1, run.All);
                var there = before.Alive + Math.Max(0, after.Ever - before.Ever);
                var gone = 0.0;
                for (var one = 0; one < taken.Length; one++)
                {
                    if (taken[one].Day > days[span] && taken[one].Day <= days[span + 1])
                    {
                        var were = Of(pass, days.Count + one, taken[one].Cells).Alive;
                        gone += Math.Min(taken[one].Number ?? were, were);
                    }
                }

                var died = Math.Clamp(after.Dead - before.Dead - gone, 0, there);
                came[span][i] = there;
                lost[span][i] = died;
                lostVariance[span][i] =
                    there <= 0 ? 0 : Variance(died, there, before.DeadVariance, after.DeadVariance);
                before = after;
            }
        }

        double[] weights = [.. draws.Select(draw => draw.Weight)];
        yield return
        [
            .. Enumerable
                .Range(0, spans)
                .Select(span => Told(span, days, weights, came[span], lost[span], lostVariance[span])),
        ];
    }

    // Between none, where both days are known, and that of two numbers that have nothing to do with each other.
    private static double Variance(double died, double there, double before, double after) =>
        Math.Min(
            Math.Max(died * (1 - (died / there)), Math.Abs(after - before)),
            Math.Pow(Math.Sqrt(before) + Math.Sqrt(after), 2)
        );

    private static LarvalLoss Told(
        int span,
        IReadOnlyList<double> days,
        double[] weights,
        double[] came,
        double[] lost,
        double[] lostVariance
    )
    {
        // Three points of equal weight for each supposition, which keep mean and variance.
        var points = new double[weights.Length * 3];
        var shares = new double[points.Length];
        var each = new double[points.Length];
        for (var i = 0; i < weights.Length; i++)
        {
            for (var k = 0; k < 3; k++)
            {
                var at = (3 * i) + k;
                var aside = (k - 1) * LarvalTelling.ThreePoints * Math.Sqrt(lostVariance[i]);
                points[at] = Math.Clamp(lost[i] + aside, 0, came[i]);
                shares[at] = came[i] > 0 ? points[at] / came[i] : 0;
                each[at] = weights[i] / 3;
            }
        }

        return new(
            days[span],
            days[span + 1],
            Whole(WeightedPoint.Interval(came, weights)),
            Whole(WeightedPoint.Interval(points, each)),
            WeightedPoint.Interval(shares, each)
        );
    }

    private static Interval Whole(Interval value) =>
        Interval.FromPoints(Math.Round(value.Low), Math.Round(value.Middle), Math.Round(value.High));

    private static (double Alive, double Ever, double Dead, double DeadVariance) Of(
        LarvalPass pass,
        int telling,
        ulong cells
    )
    {
        var mean = pass.MeanAt(telling);
        var covariance = pass.CovarianceAt(telling);
        var ever = mean.Length - 2;
        var (alive, variance, with) = (0.0, 0.0, 0.0);
        for (var c = 0; c < ever; c++)
        {
            if ((cells >> c & 1) == 0)
            {
                continue;
            }

            alive += mean[c];
            with += covariance[(c * mean.Length) + ever];
            for (var d = 0; d < ever; d++)
            {
                variance += (cells >> d & 1) == 0 ? 0 : covariance[(c * mean.Length) + d];
            }
        }

        alive = Math.Max(0, alive);
        var all = Math.Max(alive, mean[ever]);
        return (
            alive,
            all,
            all - alive,
            Math.Max(0, variance + covariance[(ever * mean.Length) + ever] - (2 * with))
        );
    }

    private static double[][] Rows(int rows, int columns) =>
        [.. Enumerable.Range(0, rows).Select(_ => new double[columns])];
}
