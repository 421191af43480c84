using Broodtide.Science.Development.Collecting;
using CsCheck;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Development.Collecting;

public sealed class CollectionPlanningTests
{
    private static readonly Gen<CollectingScenario> Scenario = Gen.Select(
            Gen.Double[0.1, 1],
            Gen.Double[0, 40],
            Gen.Double[0, 30].Array[8],
            Gen.Double[0, 0.3]
        )
        .Select((weight, waiting, hatching, loss) => new CollectingScenario(weight, waiting, hatching, loss));

    private static readonly Gen<CollectingScene> Scene = Gen.Select(
            Scenario.Array[1, 4],
            Gen.Bool.Array[9],
            Gen.Double[0, 1],
            Gen.Double[0.2, 1.5]
        )
        .Select((scenarios, may, worth, hours) => new CollectingScene(hours, may, scenarios, worth));

    [Fact]
    public void No_row_of_moments_is_worth_more_than_the_one_found() =>
        Gen.Select(Scene, Gen.Int[0, 4], Gen.Double[0, 10])
            .Sample(
                (scene, most, cost) =>
                {
                    double Worth(CollectionPlan plan) =>
                        plan.MeanLarvae
                        - (cost * plan.Gatherings.Count)
                        + (scene.WorthOfThoseLeft * MeanLeft(scene, plan));
                    var found = CollectionPlanning.Best(scene, most, cost);
                    Assert.True(found.Gatherings.Count <= most);
                    Assert.All(found.Gatherings, gathering => Assert.True(scene.MayGather[gathering.Moment]));
                    for (var set = 0; set < 512; set++)
                    {
                        int[] moments = [.. Enumerable.Range(0, 9).Where(m => (set >> m & 1) == 1)];
                        if (moments.Length <= most && moments.All(m => scene.MayGather[m]))
                        {
                            Assert.True(Worth(CollectionPlanning.Of(scene, moments)) <= Worth(found) + 1e-9);
                        }
                    }
                },
                iter: 60
            );

    [Fact]
    public void One_more_gathering_never_brings_less_and_never_more_than_there_are() =>
        Gen.Select(Scene, Gen.Int[0, 511], Gen.Int[0, 8])
            .Sample(
                (scene, set, more) =>
                {
                    var few = CollectionPlanning.Of(scene, Moments(set));
                    var many = CollectionPlanning.Of(scene, Moments(set | (1 << more)));
                    Assert.True(many.MeanLarvae >= few.MeanLarvae - 1e-9);
                    Assert.True(many.Larvae.Low >= few.Larvae.Low - 1e-9);
                    Assert.True(many.Larvae.High >= few.Larvae.High - 1e-9);
                    Assert.InRange(many.Share.Low, 0, 1);
                    Assert.InRange(many.Share.High, 0, 1);
                    var most = scene.Scenarios.Max(scenario => scenario.Waiting + scenario.Hatching.Sum());
                    Assert.True(many.Larvae.High + many.Left.Low <= most + 1e-9);
                }
            );

    [Fact]
    public void What_a_skipped_gathering_costs_is_the_difference_to_the_row_without_it() =>
        Gen.Select(Scene, Gen.Int[1, 511])
            .Sample(
                (scene, set) =>
                {
                    var moments = Moments(set);
                    var plan = CollectionPlanning.Of(scene, moments);
                    foreach (var gathering in plan.Gatherings)
                    {
                        var without = CollectionPlanning.Of(
                            scene,
                            [.. moments.Where(moment => moment != gathering.Moment)]
                        );
                        var cost =
                            plan.MeanLarvae
                            - without.MeanLarvae
                            + (scene.WorthOfThoseLeft * (MeanLeft(scene, plan) - MeanLeft(scene, without)));
                        Assert.Equal(cost, gathering.MeanLostIfSkipped, 1e-6);
                    }
                }
            );

    [Theory]
    [InlineData(1, new[] { 35.0072 }, 0.645080)]
    [InlineData(2, new[] { 26.4321, 39.1309 }, 0.780730)]
    [InlineData(3, new[] { 22.3606, 30.5563, 41.4149 }, 0.840608)]
    public void On_a_quarter_of_an_hour_the_best_moments_are_those_of_the_closed_form(
        int most,
        double[] hours,
        double share
    )
    {
        // The published optimum of section 9: hatching normal, 24 h and 8 h, loss 0.03 an hour.
        const double Slot = 0.25;
        double[] hatching =
        [
            .. Enumerable
                .Range(0, 4 * 72)
                .Select(i => Normal.CDF(24, 8, (i + 1) * Slot) - Normal.CDF(24, 8, i * Slot)),
        ];
        var scene = new CollectingScene(
            Slot,
            [.. Enumerable.Repeat(true, hatching.Length + 1)],
            [new(1, Normal.CDF(24, 8, 0), hatching, 0.03)]
        );
        var plan = CollectionPlanning.Best(scene, most, 0);
        Assert.Equal(share, plan.Share.Middle, 2e-4);
        Assert.All(
            plan.Gatherings.Zip(hours),
            pair => Assert.InRange(Math.Abs((pair.First.Moment * Slot) - pair.Second), 0, 0.26)
        );
    }

    [Fact]
    public void Where_nobody_can_gather_nothing_is_planned_and_a_high_cost_plans_fewer()
    {
        double[] hatching = [.. Enumerable.Repeat(10.0, 8)];
        CollectingScene Awake(bool may) => new(1, [.. Enumerable.Repeat(may, 9)], [new(1, 0, hatching, 0.1)]);
        Assert.Empty(CollectionPlanning.Best(Awake(false), 5, 0).Gatherings);
        Assert.Equal(5, CollectionPlanning.Best(Awake(true), 5, 0).Gatherings.Count);
        Assert.InRange(CollectionPlanning.Best(Awake(true), 5, 6).Gatherings.Count, 1, 3);
        Assert.Empty(CollectionPlanning.Best(Awake(true), 5, 100).Gatherings);
    }

    [Fact]
    public void Yield_of_a_normal_hatching_grows_with_every_gathering_and_stays_below_one() =>
        Gen.Select(
                Gen.Double[-10, 40],
                Gen.Double[0.3, 12],
                Gen.Double[0, 2],
                Gen.Double[-30, 80].Array[1, 6]
            )
            .Sample(
                (mean, sd, loss, times) =>
                {
                    var hatch = new NormalHatch(mean, sd);
                    var ordered = times.Order().ToArray();
                    var all = CollectionYield.Of(hatch, loss, ordered);
                    Assert.InRange(all, 0, 1);
                    Assert.True(
                        CollectionYield.Of(hatch, loss, ordered.AsSpan(0, ordered.Length - 1)) <= all + 1e-12
                    );
                    Assert.True(CollectionYield.Of(hatch, loss, ordered.AsSpan(1)) <= all + 1e-9);
                }
            );

    [Fact]
    public void Numbers_that_are_none_stop_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalHatch(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CollectionYield.OfEvenHatching(double.NaN, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            CollectionYield.Of(new(24, 8), 0.1, [3, double.NaN])
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            CollectionYield.BestTimes(new(24, 8), double.PositiveInfinity, 2)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new CollectingScene(1, [true, true], [new(1, double.NaN, [1], 0.1)])
        );
        Assert.Throws<ArgumentException>(() =>
            new CollectingScene(1, [true, true], [new(1, 1, [1, 2], 0.1)])
        );
        var scene = new CollectingScene(1, [true, true], [new(1, 1, [1], 0.1)]);
        Assert.Throws<ArgumentOutOfRangeException>(() => CollectionPlanning.Of(scene, [1, 1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CollectionPlanning.Best(scene, 2, double.NaN));
    }

    private static int[] Moments(int set) => [.. Enumerable.Range(0, 9).Where(m => (set >> m & 1) == 1)];

    // Larvae alive in the box at the end, summed apart from the library.
    private static double MeanLeft(CollectingScene scene, CollectionPlan plan)
    {
        var (sum, weights) = (0.0, 0.0);
        foreach (var scenario in scene.Scenarios)
        {
            var alive = plan.Gatherings.Any(gathering => gathering.Moment == 0) ? 0 : scenario.Waiting;
            for (var slot = 0; slot < scene.Last; slot++)
            {
                var lost = scenario.LossPerHour * scene.SlotHours;
                // Near nothing the difference of two numbers next to 1 loses its digits; the series does not.
                var fresh = lost > 1e-3 ? (1 - Math.Exp(-lost)) / lost : 1 - (lost / 2) + (lost * lost / 6);
                alive = (alive * Math.Exp(-lost)) + (scenario.Hatching[slot] * fresh);
                alive = plan.Gatherings.Any(gathering => gathering.Moment == slot + 1) ? 0 : alive;
            }

            sum += scenario.Weight * alive;
            weights += scenario.Weight;
        }

        return sum / weights;
    }
}
