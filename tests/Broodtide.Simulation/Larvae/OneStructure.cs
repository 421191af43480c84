namespace Broodtide.Simulation.Larvae;

/// <summary>The runs of one structure, with parameters drawn from the spread of runs or beside it.</summary>
internal static class OneStructure
{
    public static IReadOnlyList<Scenario> All { get; } =
    [
        new(
            "base",
            "three cohorts of 300 to 1200 that cross on days 0, 1 to 2 and 2 to 4; four counts of 3 % of the water, the last on the last day, and four samples of 20 staged by a day from 12 to 30",
            (dice, aliquots) => Watched(dice, World.Drawn(dice), Sizes(dice), 0.03, aliquots)
        ),
        new(
            "clumped",
            "as base, with larvae that sit in clumps: negative binomial size about 2.5, one spread below the usual",
            (dice, aliquots) =>
                Watched(
                    dice,
                    World.Drawn(dice) with
                    {
                        Clumping = dice.LogNormal(2.5, 0.35),
                    },
                    Sizes(dice),
                    0.03,
                    aliquots
                )
        ),
        new(
            "priors-off",
            "as base, with base hazard, early multiplier and requirement each 1 to 1.5 spreads off, to a side of its own",
            (dice, aliquots) => Watched(dice, World.OffThePriors(dice), Sizes(dice), 0.03, aliquots)
        ),
        new(
            "small-tank",
            "as base, with 140 larvae in all and counts of 20 % of the water",
            (dice, aliquots) => Watched(dice, World.Drawn(dice), ShareOut(dice, 140), 0.2, aliquots)
        ),
    ];

    /// <summary>True size of a cohort, even in its logarithm.</summary>
    public static int Size(Dice dice) => (int)Math.Round(300 * Math.Exp(dice.Even() * Math.Log(4)));

    private static int[] Sizes(Dice dice) => [Size(dice), Size(dice), Size(dice)];

    private static int[] ShareOut(Dice dice, int larvae)
    {
        double[] weights = [dice.Between(1, 3), dice.Between(1, 3), dice.Between(1, 3)];
        var first = (int)Math.Round(larvae * weights[0] / weights.Sum());
        var second = (int)Math.Round(larvae * weights[1] / weights.Sum());
        return [first, second, larvae - first - second];
    }

    private static Run Watched(Dice dice, World world, int[] sizes, double share, int aliquots)
    {
        Crossing[] crossings =
        [
            new(0, sizes[0]),
            new(Plan.Written(dice.Between(1, 2)), sizes[1]),
            new(Plan.Written(dice.Between(2, 4)), sizes[2]),
        ];
        var bench = new Bench(dice, world, Warmth.Wandering(dice, Vessel.Days), crossings);
        bench.WriteCrossings(_ => dice.KeepersFactor(0.4));
        var until = dice.Between(12, 30);
        return bench.Watch(
            until,
            plan =>
                plan.Spread(
                        3,
                        0,
                        0.9 * until,
                        day => bench.Notebook.EachAliquot(day, share / aliquots, aliquots)
                    )
                    .Spread(
                        1,
                        until - 0.3,
                        until,
                        day => bench.Notebook.EachAliquot(day, share / aliquots, aliquots)
                    )
                    .Spread(4, 0, until, day => bench.Notebook.Staged(day, 20))
        );
    }
}
