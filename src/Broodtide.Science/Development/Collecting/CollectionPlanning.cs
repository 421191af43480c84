using Broodtide.Units;

namespace Broodtide.Science.Development.Collecting;

/// <summary>One gathering of a plan.</summary>
/// <param name="Moment">The moment in the scene.</param>
/// <param name="Larvae">Larvae it brings, 5, 50 and 95 %.</param>
/// <param name="LostIfSkipped">
/// Larvae lost if it alone is left out and the others stay, 5, 50 and 95 %; never below zero.
/// </param>
/// <param name="MeanLostIfSkipped">The mean of that.</param>
public sealed record PlannedGathering(
    int Moment,
    Interval Larvae,
    Interval LostIfSkipped,
    double MeanLostIfSkipped
);

/// <summary>What a row of gatherings brings.</summary>
/// <param name="Gatherings">In order; empty if none is worth it.</param>
/// <param name="Larvae">Larvae gathered alive, 5, 50 and 95 %.</param>
/// <param name="Share">Of those waiting and hatching, the share gathered alive, 0 to 1; likewise.</param>
/// <param name="Left">Larvae alive in the box at the end; likewise.</param>
/// <param name="MeanLarvae">Mean of the larvae gathered.</param>
public sealed record CollectionPlan(
    IReadOnlyList<PlannedGathering> Gatherings,
    Interval Larvae,
    Interval Share,
    Interval Left,
    double MeanLarvae
);

/// <summary>
/// The moments at which gathering yields most larvae in the mean, by dynamic programming over the moments at which
/// someone can: value(t) = max over t' of [mean alive at t' since t - cost + value(t')] (Bellman 1957).
/// </summary>
public static class CollectionPlanning
{
    /// <summary>The best row of gatherings.</summary>
    /// <param name="scene">The hours ahead.</param>
    /// <param name="most">At most so many, 0 or more.</param>
    /// <param name="costLarvae">Larvae that one more gathering must bring in the mean to be worth it, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static CollectionPlan Best(CollectingScene scene, int most, double costLarvae) =>
        InPieces(scene, most, costLarvae).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Best"/>
    public static IEnumerable<CollectionPlan?> InPieces(CollectingScene scene, int most, double costLarvae)
    {
        Finite.NotNegative(costLarvae);
        Finite.NotNegative(most);
        return Planning(scene, most, costLarvae);
    }

    private static IEnumerable<CollectionPlan?> Planning(CollectingScene scene, int most, double costLarvae)
    {
        var alive = new double[scene.MayGather.Count + 1][];
        for (var from = -1; from < scene.MayGather.Count; from++)
        {
            yield return null;
            alive[from + 1] = MeanAlive(scene, from);
        }

        var chosen = Chosen(scene, alive, most, costLarvae);
        yield return null;
        yield return Of(scene, chosen);
    }

    private static List<int> Chosen(CollectingScene scene, double[][] alive, int most, double costLarvae)
    {
        var moments = scene.MayGather.Count;
        // best[a + 1]: from the last gathering at moment a (or none yet, -1) on, with so many still allowed.
        var left = Enumerable
            .Range(-1, moments + 1)
            .Select(from => scene.WorthOfThoseLeft * alive[from + 1][scene.Last])
            .ToArray();
        var best = left;
        var rounds = Math.Min(most, moments);
        var next = new int[rounds][];
        for (var round = 0; round < rounds; round++)
        {
            var longer = (double[])left.Clone();
            next[round] = new int[moments + 1];
            Array.Fill(next[round], -1);
            for (var from = -1; from < moments; from++)
            {
                for (var to = from + 1; to < moments; to++)
                {
                    var value = alive[from + 1][to] - costLarvae + best[to + 1];
                    if (scene.MayGather[to] && value > longer[from + 1] + 1e-12)
                    {
                        longer[from + 1] = value;
                        next[round][from + 1] = to;
                    }
                }
            }

            best = longer;
        }

        var chosen = new List<int>();
        var at = -1;
        for (var round = rounds - 1; round >= 0 && next[round][at + 1] >= 0; round--)
        {
            at = next[round][at + 1];
            chosen.Add(at);
        }

        return chosen;
    }

    /// <summary>What gathering at given moments brings, whether anybody can or not.</summary>
    /// <param name="scene">The hours ahead.</param>
    /// <param name="moments">Moments of the scene, ascending, none twice.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such moment, or not ascending.</exception>
    public static CollectionPlan Of(CollectingScene scene, IReadOnlyList<int> moments)
    {
        var before = -1;
        foreach (var moment in moments)
        {
            Finite.Within(moment, before + 1, scene.Last, nameof(moments));
            before = moment;
        }

        var told = scene.Scenarios.Select(scenario => new Outcome(scene, scenario, moments)).ToArray();
        Interval Points(Func<Outcome, double> what) =>
            WeightedPoints.Of([.. told.Select(outcome => (what(outcome), outcome.Weight))]);
        double Mean(Func<Outcome, double> what) =>
            told.Sum(outcome => what(outcome) * outcome.Weight) / told.Sum(outcome => outcome.Weight);
        return new(
            [
                .. moments.Select(
                    (moment, k) =>
                        new PlannedGathering(
                            moment,
                            Points(outcome => outcome.Gathered[k]),
                            Points(outcome => outcome.LostWithout[k]),
                            Mean(outcome => outcome.LostWithout[k])
                        )
                ),
            ],
            Points(outcome => outcome.Gathered.Sum()),
            Points(outcome => outcome.Share),
            Points(outcome => outcome.Left),
            Mean(outcome => outcome.Gathered.Sum())
        );
    }

    private static double[] MeanAlive(CollectingScene scene, int from)
    {
        var all = scene.Scenarios.Sum(scenario => scenario.Weight);
        var mean = new double[scene.MayGather.Count];
        foreach (var scenario in scene.Scenarios)
        {
            var alive = scene.Alive(scenario, from);
            for (var moment = 0; moment < mean.Length; moment++)
            {
                mean[moment] += scenario.Weight / all * alive[moment];
            }
        }

        return mean;
    }

    /// <summary>What the moments bring in one scenario.</summary>
    private sealed class Outcome
    {
        public Outcome(CollectingScene scene, CollectingScenario scenario, IReadOnlyList<int> moments)
        {
            Weight = scenario.Weight;
            // Since the beginning, and since each gathering.
            double[][] alive = [scene.Alive(scenario, -1), .. moments.Select(m => scene.Alive(scenario, m))];
            Gathered = [.. moments.Select((moment, k) => alive[k][moment])];
            Left = alive[^1][scene.Last];
            var all = scenario.Waiting + scenario.Hatching.Sum();
            Share = all > 0 ? Math.Min(1, Gathered.Sum() / all) : 0;
            LostWithout =
            [
                .. moments.Select(
                    (_, k) =>
                    {
                        // The gathering after it, or the end, then finds those that are still alive of both.
                        var last = k + 1 == moments.Count;
                        var then = last ? scene.Last : moments[k + 1];
                        var worth = last ? scene.WorthOfThoseLeft : 1;
                        var kept = worth * (alive[k][then] - alive[k + 1][then]);
                        return Math.Max(0, Gathered[k] - kept);
                    }
                ),
            ];
        }

        public double Weight { get; }

        public double[] Gathered { get; }

        public double[] LostWithout { get; }

        public double Left { get; }

        public double Share { get; }
    }
}
