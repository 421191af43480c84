using Broodtide.Simulation;
using Broodtide.Simulation.Larvae;

namespace Broodtide.Science.Tests;

/// <summary>The generator of larval runs does what it says, before it judges anything.</summary>
public sealed class LarvalRunsTests
{
    private static readonly World Calm = new()
    {
        BaseHazard = 0.02,
        EarlyMultiplier = 5,
        MetamorphosisDeath = 0,
        Requirement = 40,
        RequirementCv = 0.12,
        Clumping = 5,
        ShockSd = 0,
    };

    public static TheoryData<string> Names() => [.. Scenario.All.Select(scenario => scenario.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_same_seed_gives_the_same_run_and_another_seed_or_number_another(string name)
    {
        var scenario = Scenario.Find(name)!;
        var once = Text(scenario.Number(3, 7));

        Assert.Equal(once, Text(scenario.Number(3, 7)));
        Assert.NotEqual(once, Text(scenario.Number(4, 7)));
        Assert.NotEqual(once, Text(scenario.Number(3, 8)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Rows_are_in_order_have_seven_fields_and_staged_larvae_add_up(string name)
    {
        for (var number = 1; number <= 30; number++)
        {
            var run = Scenario.Find(name)!.Number(1, number);
            Assert.Equal(0, run.Events[0].Day);
            Assert.Equal(run.Events.Select(row => row.Day).Order(), run.Events.Select(row => row.Day));
            Assert.All(run.Events, row => Assert.Equal(7, row.Written().Split(',').Length));
            Assert.All(
                run.Events.Where(row => row.Kind == "stage"),
                row =>
                {
                    Assert.Equal(10, row.Stages!.Count);
                    Assert.Equal(row.N, row.Stages.Sum());
                }
            );
            Assert.All(
                run.Events.Where(row => row.Kind is "removed" or "dead" or "full" or "beam"),
                row => Assert.InRange(row.X!.Value, 0, 1.2 * run.Vessel.Larvae.Count)
            );
            Assert.Equal(
                name.StartsWith("others", StringComparison.Ordinal) ? 3 : 1,
                run.TruthRows().Count(row => row.Contains(",alive,", StringComparison.Ordinal))
            );
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void After_the_last_crossing_the_living_only_become_fewer(string name)
    {
        var vessel = Scenario.Find(name)!.Number(5, 1).Vessel;
        var last = vessel.Larvae.Max(larva => larva.Crossed);
        var alive = Enumerable.Range(0, 200).Select(i => vessel.AliveAt(last + (i * 0.7))).ToArray();

        Assert.Equal(alive.OrderDescending(), alive);
        Assert.True(alive[^1] < alive[0]);
        Assert.Equal(vessel.Larvae.Count(larva => larva.LivesAt(last)), alive[0]);
    }

    [Fact]
    public void Survivors_of_a_calm_world_are_those_of_its_hazard()
    {
        const int larvae = 20_000;
        var vessel = Lived(Calm, larvae);
        // Integral of 0.02 (1 + 5 exp(-a/3)) over ten days.
        var expected = Math.Exp(-0.02 * (10 + (15 * (1 - Math.Exp(-10 / 3.0)))));
        var sd = Math.Sqrt(expected * (1 - expected) / larvae);

        Assert.InRange(vessel.AliveAt(10) / (double)larvae, expected - (4 * sd), expected + (4 * sd));
    }

    [Fact]
    public void Shocks_leave_the_mean_hazard_where_it_is_and_spread_the_survivors()
    {
        var world = Calm with { ShockSd = 0.35, EarlyMultiplier = 0 };
        var hazards = Enumerable
            .Range(1, 400)
            .Select(seed =>
                -Math.Log(
                    Vessel
                        .Lived(new Dice((ulong)seed), world, Warmth.Steady(25, Vessel.Days), [new(0, 2000)])
                        .AliveAt(10) / 2000.0
                )
            )
            .ToArray();
        var mean = hazards.Average();
        var variance = hazards.Sum(hazard => (hazard - mean) * (hazard - mean)) / (hazards.Length - 1);
        // Ten days: 10 (0.02)^2 (exp(0.35^2) - 1), and the binomial part (1 - s) / (n s).
        var expected = (10 * 0.0004 * (Math.Exp(0.35 * 0.35) - 1)) + ((Math.Exp(0.2) - 1) / 2000);

        Assert.InRange(mean, 0.2 - (4 * Math.Sqrt(expected / 400)), 0.2 + (4 * Math.Sqrt(expected / 400)));
        Assert.InRange(variance / expected, 0.72, 1.32);
    }

    [Fact]
    public void Where_none_die_half_have_settled_by_the_median_of_the_requirement()
    {
        var vessel = Lived(Calm with { BaseHazard = 0 }, 20_000);

        // Median of a gamma of mean 40 and CV 0.12 (shape 69.44): mean (1 - 1 / (3 shape)) to a part in ten thousand.
        Assert.InRange(vessel.SettledMedianDay()!.Value, 39.81 - 0.15, 39.81 + 0.15);
        Assert.Equal(20_000, vessel.AliveAt(100));
    }

    [Fact]
    public void A_cooler_vessel_takes_as_much_longer_as_its_reference_days_say()
    {
        var world = Calm with { BaseHazard = 0 };
        var warm = Lived(world, 5000).SettledMedianDay()!.Value;
        var cool = Vessel
            .Lived(new Dice(2), world, Warmth.Steady(22, Vessel.Days), [new(0, 5000)])
            .SettledMedianDay()!
            .Value;

        Assert.InRange(cool / warm, 1.3 * 0.99, 1.3 * 1.01);
    }

    [Fact]
    public void Metamorphosis_takes_its_share()
    {
        var vessel = Lived(Calm with { BaseHazard = 0, MetamorphosisDeath = 0.15 }, 20_000);

        Assert.InRange(vessel.AliveAt(200) / 20_000.0, 0.84, 0.86);
    }

    [Fact]
    public void Aliquots_scatter_as_their_clumping_says()
    {
        var dice = new Dice(1);
        var counts = Enumerable.Range(0, 40_000).Select(_ => dice.NegativeBinomial(9, 3)).ToArray();
        var mean = counts.Average();

        Assert.InRange(mean, 8.9, 9.1);
        Assert.InRange(counts.Average(count => (count - mean) * (count - mean)), 34.5, 37.5);
    }

    [Fact]
    public void Larvae_taken_out_are_missing_afterwards_and_never_settle()
    {
        var vessel = Lived(Calm with { BaseHazard = 0 }, 100);
        var notebook = new Notebook(new Dice(4), Calm, vessel, new Eye(0.35, 0.1, 0.25), 1);
        notebook.Removed(12, 30);

        Assert.Equal(100, vessel.AliveAt(11.9));
        Assert.Equal(70, vessel.AliveAt(12));
        Assert.Equal(70, vessel.Larvae.Count(larva => larva.Settled is not null));
    }

    [Fact]
    public void Stages_follow_each_other_and_the_light_draws_no_settled_one()
    {
        var larva = Lived(Calm, 1).Larvae[0];

        Assert.Equal(
            Enumerable.Range(0, 10),
            [larva.StageAt(0), .. larva.StageEnds.Select(end => larva.StageAt(end + 1e-9))]
        );
        Assert.Equal(0, Eye.ComesToLight(World.ZoealStages));
    }

    [Fact]
    public void More_aliquots_a_count_share_the_same_water()
    {
        var counts = Scenario
            .Find("base")!
            .Number(1, 1, aliquots: 4)
            .Events.Where(row => row.Kind == "aliquot")
            .GroupBy(row => row.Day)
            .ToList();

        Assert.Equal(4, counts.Count);
        Assert.All(
            counts,
            count =>
            {
                Assert.Equal(4, count.Count());
                Assert.All(count, row => Assert.Equal((1, 0.0075), (row.N, row.Fraction)));
            }
        );
    }

    private static Vessel Lived(World world, int larvae) =>
        Vessel.Lived(new Dice(1), world, Warmth.Steady(25, Vessel.Days), [new(0, larvae)]);

    private static string Text(Run run) =>
        string.Join('\n', [.. run.Events.Select(row => row.Written()), .. run.TruthRows()]);
}
