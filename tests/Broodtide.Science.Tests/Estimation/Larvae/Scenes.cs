using Broodtide.Science.Estimation.Larvae;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Runs to ask the estimator about.</summary>
internal static class Scenes
{
    /// <summary>Nine larval stages of equal length; the attraction to light fades from the seventh on.</summary>
    public static LarvalStages Nine { get; } = LarvalStages.Even(9, 6);

    /// <summary>One vessel in which a day is a day, one cell a cohort.</summary>
    public static LarvalRun Run(double now, params LarvalEvent[] events) =>
        new()
        {
            Cells =
            [
                .. Enumerable
                    .Range(0, 1 + events.OfType<Arrived>().Max(arrived => arrived.Cell))
                    .Select(cohort => new LarvalCell(0, cohort)),
            ],
            Courses = [VesselCourse.Plain],
            Stages = Nine,
            Priors = new() { Detection = [new(0.35, 0.9), new(0.12, 1)] },
            Events = events,
            Now = now,
        };

    /// <summary>Of two cohorts, as entries about all of them name them.</summary>
    public const ulong Both = 3;

    public static LarvalEstimate At(LarvalRun run, params double[] days) =>
        LarvalEstimator.Of(run, new LarvalQuestion { Days = days });

    public static Units.Interval Alive(LarvalRun run, double day) => At(run, day).Days[0].All.Alive;

    public static Counted Aliquots(double day, int tag, double share, params int[] seen) =>
        new(day, tag, 1, new AliquotEvidence([.. seen.Select(x => new SampledShare(x, share))]));

    /// <summary>
    /// A run as a keeper might write it, two cohorts, with entries that fit larvae dying at three in a hundred a day.
    /// </summary>
    public static Gen<LarvalRun> Plausible { get; } =
        Gen.Select(Gen.Double[50, 900], Gen.Double[20, 45], Gen.Int[0, 1 << 20], Gen.Int[2, 9])
            .Select((number, until, seed, entries) => Invented(number, until, seed, entries));

    /// <summary>What no keeper would write, or only by mistake.</summary>
    public static Gen<LarvalRun> Absurd { get; } =
        Gen.Select(Gen.Int[1, 4], Gen.Int[0, 12], Gen.Int[0, 1 << 20], Gen.Bool)
            .Select((cells, entries, seed, late) => Chaos(cells, entries, seed, late));

    private static LarvalRun Invented(double number, double until, int seed, int entries)
    {
        var random = new Random(seed);
        List<LarvalEvent> events = [new Arrived(0, 0, 0, number, 0.5), new Arrived(2, 1, 1, number / 2, 0.5)];
        for (var tag = 2; tag < entries + 2; tag++)
        {
            var day = 2 + (random.NextDouble() * (until - 2));
            var alive = 1.5 * number * Math.Exp(-0.03 * day) * Math.Exp((random.NextDouble() - 0.5) * 0.8);
            events.Add(
                random.Next(5) switch
                {
                    0 => Aliquots(
                        day,
                        tag,
                        0.01,
                        [.. Enumerable.Range(0, 3).Select(_ => (int)(0.01 * alive * 2 * random.NextDouble()))]
                    ) with
                    {
                        Cells = Both,
                    },
                    1 => new Counted(day, tag, Both, new LookEvidence((int)(0.3 * alive), 0, 8, true)),
                    2 => new Staged(day, tag, 3, Stages(random, day, 12)),
                    3 => new DeadFound(day, tag, random.Next(10)),
                    _ => new Removed(day, tag, 3, random.Next(1, 10)),
                }
            );
        }

        return Run(until, [.. events]);
    }

    private static int[] Stages(Random random, double day, int larvae)
    {
        var tallies = new int[Nine.Count];
        for (var i = 0; i < larvae; i++)
        {
            tallies[Math.Clamp((int)((day / 4.5) + (2 * random.NextDouble()) - 1), 0, 9)]++;
        }

        return tallies;
    }

    private static LarvalRun Chaos(int cells, int entries, int seed, bool late)
    {
        var random = new Random(seed);
        var all = (1UL << cells) - 1;
        List<LarvalEvent> events = [new Arrived(5, 0, 0, Number(), 0.6 * random.NextDouble())];
        for (var tag = 1; tag <= entries; tag++)
        {
            var day =
                random.Next(8) == 0
                    ? late
                        ? 3000
                        : -50
                    : 60 * random.NextDouble();
            var some = random.Next(4) == 0 ? 0 : (ulong)random.Next(1, (int)all + 1);
            events.Add(
                random.Next(14) switch
                {
                    0 => new Arrived(
                        day,
                        tag,
                        random.Next(cells),
                        Number(),
                        2 * random.NextDouble(),
                        random.NextDouble(),
                        100 * random.NextDouble(),
                        50 * random.NextDouble()
                    ),
                    1 => new Moved(day, tag, random.Next(cells), random.Next(cells), Number: Number()),
                    2 => new Moved(
                        day,
                        tag,
                        random.Next(cells),
                        random.Next(cells),
                        Share: random.NextDouble()
                    ),
                    3 => new Moved(day, tag, random.Next(cells), random.Next(cells)),
                    4 => new Removed(day, tag, some, Number(), random.Next(2) == 0),
                    5 => new Removed(day, tag, some, null, random.Next(2) == 0),
                    6 => new Counted(
                        day,
                        tag,
                        some,
                        new AliquotEvidence([new(Seen(), 0.9 * random.NextDouble() + 0.01), new(Seen(), 1)])
                    ),
                    7 => new Counted(day, tag, some, new AliquotSumEvidence(Seen(), 0.5, 7)),
                    8 => new Counted(day, tag, some, new FullEvidence(Seen(), 0.03)),
                    9 => new Counted(day, tag, some, new ExactEvidence(Seen())),
                    10 => new Counted(
                        day,
                        tag,
                        some,
                        new LookEvidence(Seen(), random.Next(2), 3, random.Next(2) == 0)
                    ),
                    11 => new Counted(
                        day,
                        tag,
                        some,
                        random.Next(2) == 0
                            ? new KnownChanceEvidence(Seen(), 0.2)
                            : new TrialledEvidence(Seen(), 9, 4)
                    ),
                    12 => new Staged(
                        day,
                        tag,
                        some,
                        [.. Enumerable.Range(0, random.Next(1, 16)).Select(_ => random.Next(30))]
                    ),
                    _ => random.Next(2) == 0
                        ? new SettledSeen(day, tag, some, Seen())
                        : new DeadFound(day, tag, Seen()),
                }
            );
        }

        return Run(40, [.. events]) with
        {
            Cells = [.. Enumerable.Range(0, cells).Select(cell => new LarvalCell(cell % 2, cell))],
            Courses = [VesselCourse.Plain, new([0, 10, 20], [0, 3, 14], [0, 9, 9])],
        };

        double Number() =>
            random.Next(4) switch
            {
                0 => 0,
                1 => 100_000,
                _ => 300 * random.NextDouble(),
            };

        int Seen() =>
            random.Next(4) switch
            {
                0 => 0,
                1 => random.Next(100_001),
                _ => random.Next(60),
            };
    }
}
