namespace Broodtide.Simulation.Larvae;

/// <summary>Runs whose structure is deliberately another one; the living are told at three days.</summary>
internal static class OtherStructures
{
    public static IReadOnlyList<Scenario> All { get; } =
    [
        new(
            "others-1",
            "Weibull hazard with frailty and no early phase, crossings counted exactly, one full count late",
            (dice, _) => Frail(dice).AtThreeDays()
        ),
        new(
            "others-2",
            "a crash that kills 30 to 80 % once in 60 % of runs, counts by four aliquots of 2 %",
            (dice, _) => Crashed(dice).AtThreeDays()
        ),
        new(
            "others-3",
            "stages in a chain, each with a length and scatter of its own, moults that mark time; only staged samples and beam counts",
            (dice, _) => Chained(dice).AtThreeDays()
        ),
        new(
            "others-4",
            "scattered glances, one count by five aliquots, dead found, some removed; nothing staged",
            (dice, _) => Glanced(dice).AtThreeDays()
        ),
        new(
            "others-5",
            "six cohorts in ten days, 45 days, 40 entries of all kinds besides temperatures",
            (dice, _) => Busy(dice).AtThreeDays()
        ),
        new(
            "others-6",
            "swings from 22 to 28 degC, a hazard that rises above 28, counts rounded to fives",
            (dice, _) => Swung(dice).AtThreeDays()
        ),
    ];

    private static Run Frail(Dice dice)
    {
        var world = World.Drawn(dice) with
        {
            WeibullShape = dice.Between(0.8, 1.8),
            WeibullDays = dice.LogNormal(45, 0.4),
            FrailtyCv = dice.Between(0.4, 0.8),
        };
        var bench = new Bench(dice, world, Warmth.Wandering(dice, Vessel.Days), Three(dice));
        bench.WriteCrossings(_ => 1);
        var until = dice.Between(16, 34);
        return bench.Watch(
            until,
            plan =>
                plan.Spread(2, 0, 0.6 * until, day => bench.Notebook.Aliquots(day, 0.03, 1))
                    .Spread(1, 0.75 * until, 0.9 * until, bench.Notebook.Full)
                    .Spread(3, 0, until, day => bench.Notebook.Staged(day, 15))
        );
    }

    private static Run Crashed(Dice dice)
    {
        var until = dice.Between(14, 32);
        var world = World.Drawn(dice) with
        {
            CrashDay = dice.Chance(0.6) ? dice.Between(4, until) : null,
            CrashShare = dice.Between(0.3, 0.8),
        };
        var bench = new Bench(dice, world, Warmth.Wandering(dice, Vessel.Days), Three(dice));
        bench.WriteCrossings(_ => dice.KeepersFactor());
        return bench.Watch(
            until,
            plan =>
                plan.Spread(5, 0, until, day => bench.Notebook.Aliquots(day, 0.02, 4))
                    .Spread(3, 0, until, day => bench.Notebook.Staged(day, 20))
        );
    }

    private static Run Chained(Dice dice)
    {
        var drawn = World.Drawn(dice);
        var lengths = Enumerable.Range(0, World.ZoealStages).Select(_ => dice.LogNormal(1, 0.25)).ToArray();
        var world = drawn with
        {
            Chain =
            [
                .. lengths.Select(length =>
                    (0.94 * drawn.Requirement * length / lengths.Sum(), dice.Between(6, 30))
                ),
            ],
            MarkTime = dice.Between(0.03, 0.12),
        };
        var bench = new Bench(dice, world, Warmth.Wandering(dice, Vessel.Days), Three(dice));
        bench.WriteCrossings(_ => dice.KeepersFactor());
        var until = dice.Between(15, 35);
        return bench.Watch(
            until,
            plan =>
                plan.Spread(6, 0, until, bench.Notebook.Beam)
                    .Spread(5, 0, until, day => bench.Notebook.Staged(day, dice.Whole(12, 25)))
        );
    }

    private static Run Glanced(Dice dice)
    {
        var bench = new Bench(dice, World.Drawn(dice), Warmth.Wandering(dice, Vessel.Days), Three(dice));
        bench.WriteCrossings(_ => dice.KeepersFactor());
        var until = dice.Between(14, 32);
        return bench.Watch(
            until,
            plan =>
                plan.Spread(7, 0, until, bench.Notebook.Glance)
                    .Spread(1, 0.3 * until, 0.8 * until, day => bench.Notebook.Aliquots(day, 0.03, 5))
                    .Spread(4, 0, until, bench.Notebook.Dead)
                    .Spread(2, 5, until, day => bench.Notebook.Removed(day, dice.Whole(5, 40)))
        );
    }

    private static Run Busy(Dice dice)
    {
        Crossing[] six =
        [
            .. Enumerable
                .Range(0, 6)
                .Select(i => new Crossing(
                    i == 0 ? 0 : Plan.Written((2 * i) - dice.Between(0, 1.5)),
                    dice.Whole(60, 400)
                )),
        ];
        var bench = new Bench(dice, World.Drawn(dice), Warmth.Wandering(dice, Vessel.Days), six);
        bench.WriteCrossings(_ => dice.KeepersFactor());
        const double until = 45;
        var notebook = bench.Notebook;
        return bench.Watch(
            until,
            plan =>
                plan.Spread(8, 0, until, day => notebook.Aliquots(day, 0.03, dice.Whole(1, 3)))
                    .Spread(1, 20, 40, notebook.Full)
                    .Spread(6, 0, until, notebook.Beam)
                    .Spread(6, 0, until, notebook.Glance)
                    .Spread(4, 0, until, notebook.Dead)
                    .Spread(2, 8, until, day => notebook.Removed(day, dice.Whole(3, 15)))
                    .Spread(7, 0, until, day => notebook.Staged(day, dice.Whole(10, 20)))
        );
    }

    private static Run Swung(Dice dice)
    {
        var world = World.Drawn(dice) with { HeatSlope = dice.Between(0.4, 1.2) };
        var bench = new Bench(dice, world, Warmth.Swinging(dice, Vessel.Days), Three(dice), roundedTo: 5);
        bench.WriteCrossings(_ => dice.KeepersFactor());
        var until = dice.Between(14, 32);
        return bench.Watch(
            until,
            plan =>
                plan.Spread(4, 0, until, day => bench.Notebook.Aliquots(day, 0.04, 3))
                    .Spread(4, 0, until, day => bench.Notebook.Staged(day, 20))
        );
    }

    private static Crossing[] Three(Dice dice) =>
        [
            new(0, OneStructure.Size(dice)),
            new(Plan.Written(dice.Between(1, 2)), OneStructure.Size(dice)),
            new(Plan.Written(dice.Between(2, 4)), OneStructure.Size(dice)),
        ];
}
