namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// How many larvae are alive, in which stage, and when they settle: adaptive importance sampling over the few
/// unknowns of a run, and within each supposition a filter of means and covariances for the numbers.
/// </summary>
/// <remarks>
/// Everything is computed anew from the set of events: their order of arrival is without influence, and nothing is
/// left to chance. Time grows with the number of events and with the square of the number of cells. See
/// docs/science/alive.md for the formulas, their sources and how often the intervals held the truth.
/// </remarks>
public static class LarvalEstimator
{
    // Suppositions that the answer is told from.
    private const int Told = 96;

    /// <summary>Answers a question about a run.</summary>
    /// <exception cref="ArgumentException">The run cannot be computed: see <see cref="LarvalRun"/>.</exception>
    public static LarvalEstimate Of(LarvalRun run, LarvalQuestion question)
    {
        foreach (var estimate in InPieces(run, question, int.MaxValue))
        {
            if (estimate is not null)
            {
                return estimate;
            }
        }

        throw new InvalidOperationException("The last piece is the estimate.");
    }

    /// <summary>
    /// The same in pieces, for whoever may not be held up: none at each pause, and the estimate last.
    /// </summary>
    /// <param name="run">The run.</param>
    /// <param name="question">What is asked.</param>
    /// <param name="suppositions">How many suppositions to go through between pauses, 1 or more.</param>
    /// <exception cref="ArgumentException">The run cannot be computed: see <see cref="LarvalRun"/>.</exception>
    public static IEnumerable<LarvalEstimate?> InPieces(
        LarvalRun run,
        LarvalQuestion question,
        int suppositions = 4
    )
    {
        LarvalRun.Check(run);
        ArgumentOutOfRangeException.ThrowIfLessThan(suppositions, 1);
        return Pieces(run, question, suppositions);
    }

    private static IEnumerable<LarvalEstimate?> Pieces(
        LarvalRun run,
        LarvalQuestion question,
        int suppositions
    )
    {
        var search = LarvalProgram.Of(run, [], withRaising: false);
        var pass = new LanePass(search);
        WeightedPoints? points = null;
        foreach (
            var some in AdaptiveSampling.Run(
                LarvalPoint.PlainUnknowns + run.Priors.Detection.Count,
                pass.Forward,
                suppositions
            )
        )
        {
            points = some;
            if (some is null)
            {
                yield return null;
            }
        }

        var telling = new LarvalTelling(run, question, points!, Told);
        while (telling.Take(suppositions))
        {
            yield return null;
        }

        foreach (var some in telling.Tell())
        {
            yield return some;
        }
    }

    /// <summary>
    /// How much each event changed the answer: the estimate without it, by the tag of the event. Takes one estimate
    /// for each event, so it is not for every redraw.
    /// </summary>
    /// <exception cref="ArgumentException">The run cannot be computed: see <see cref="LarvalRun"/>.</exception>
    public static IEnumerable<(int Tag, LarvalEstimate Without)> WithoutEach(
        LarvalRun run,
        LarvalQuestion question
    )
    {
        foreach (
            var tag in run.Events.Where(happened => happened is not Arrived).Select(e => e.Tag).Distinct()
        )
        {
            yield return (
                tag,
                Of(run with { Events = [.. run.Events.Where(happened => happened.Tag != tag)] }, question)
            );
        }
    }
}
