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
    private const int Told = 128;

    /// <summary>Answers a question about a run.</summary>
    /// <exception cref="ArgumentException">The run cannot be computed: see <see cref="LarvalRun"/>.</exception>
    public static LarvalEstimate Of(LarvalRun run, LarvalQuestion question)
    {
        LarvalRun.Check(run);
        var search = LarvalProgram.Of(run, []);
        var pass = new LarvalPass(search);
        var points = AdaptiveSampling.Run(
            LarvalPoint.PlainUnknowns + run.Priors.Detection.Count,
            (z, forKeeps) => pass.Forward(LarvalPoint.At(run.Priors, z), forKeeps)
        );
        return new LarvalTelling(run, question, points, Told).Tell();
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
