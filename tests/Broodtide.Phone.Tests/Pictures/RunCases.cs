using Broodtide.Workbench.TideLine;
using NodaTime;
using static Broodtide.Phone.Tests.Pictures.RunBuilder;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>The awkward runs that the tide line must draw well. All of it is invented.</summary>
internal static class RunCases
{
    public static IReadOnlyList<(string Name, TideLineRecord Record)> All =>
        [
            ("three-crossings", ThreeCrossings()),
            ("no-estimates-yet", NoEstimates()),
            ("berried-yesterday", BerriedYesterday()),
            ("carried-too-long", CarriedTooLong()),
            ("hatch-night-not-seen", HatchNightNotSeen()),
            ("one-crossing-counted-once", OneCrossing()),
            ("twenty-five-crossings", Braid(25, 10)),
            ("sixty-crossings", Braid(60, 14)),
            ("crossings-twenty-days-apart", FarApart()),
            ("crossing-today", CrossingToday()),
            ("two-vessels-apart", TwoVessels(25)),
            ("two-vessels-alike", TwoVessels(34.2)),
            ("join-and-split", JoinAndSplit()),
            ("stair-by-stage", StairByStage()),
            ("ended-none-seen", Ended(4)),
            ("ended-none-seen-one-day", Ended(1)),
            ("none-seen-vessel-kept", VesselKept()),
            ("lost-in-fresh-water", LostInFresh()),
            ("all-home", Home(some: false)),
            ("some-home-some-lost", Home(some: true)),
            ("four-larvae", Size(4)),
            ("six-thousand-larvae", Size(6000)),
            ("nothing-sure", NothingSure()),
            ("rough", Rough()),
            ("never-measured", NeverMeasured()),
            ("happened-some-time", SomeTime()),
            ("odd-entries", OddEntries()),
            ("thirteen-stages", Stages(13)),
            ("direct-development", Stages(0)),
            ("long-run", LongRun()),
            ("three-day-run", ThreeDays()),
            ("over-new-year", OverNewYear()),
            ("late-breach", Breach()),
            ("began-with-larvae", BeganWithLarvae()),
        ];

    public static TideLineRecord ThreeCrossings()
    {
        const double Now = 27.5;
        List<TideRow> alive =
        [
            Row(0.3, 50, 62, 70),
            Row(1.3, 50, 61, 70),
            Row(1.3, 185, 210, 232),
            Row(2.3, 183, 208, 232),
            Row(2.3, 226, 251, 281),
            Row(6, 163, 187, 214),
            Row(10, 134, 162, 194),
            Row(14, 119, 142, 168),
            Row(20, 99, 129, 164),
            Row(Now, 79, 118, 161),
            Row(34, 64, 110, 157),
            Row(46, 40, 92, 144),
            Row(52, 12, 50, 108),
            Row(58, 2, 18, 60),
            Row(64, 0, 3, 20),
        ];
        return new()
        {
            Name = "Brood 2",
            Now = Day(Now),
            Zone = Zone,
            MadeAt = Day(Now),
            PlannedPpt = 32,
            Brood = new()
            {
                FirstSeenBerried = Day(-26),
                LastSeenCarrying = Day(1),
                Marks =
                [
                    Mark(TideMarkKind.Berried, -26),
                    Mark(TideMarkKind.Eyed, -7),
                    Mark(TideMarkKind.Saddle, -4),
                ],
            },
            Nights = [new(Evening(-1), 0.2, 60), new(Evening(0), 0.6, 150), new(Evening(1), 0.2, 42)],
            Crossings =
            [
                Crossing(0.3, 62, number: 1),
                Crossing(1.3, 148, number: 2),
                Crossing(2.3, 41, number: 3),
            ],
            Vessels =
            [
                new()
                {
                    Id = JarA,
                    Name = "Jar A",
                    Salinity = Saw(0, Now, 64, 31.6, 5, 9.5, 14, 18, 21.5, 24.8),
                    Alive = alive,
                    Readings =
                    [
                        new(Day(25.5), About(31.4, 31.9, 32.4), true),
                        new(Day(26.5), About(30, 30.4, 30.9), false),
                    ],
                    TopUps = [new(Day(24.8), 390)],
                },
            ],
            Alive = alive,
            Counts =
            [
                new(Day(6), About(150, 181, 217), JarA, Id(901)),
                new(Day(14), About(110, 137, 170), JarA, Id(902)),
            ],
            StageNames = StageNames(9),
            Stages = StageRows(9, 0, 62),
            Return = new()
            {
                Forecast = new(Day(44), Day(51), Day(62)),
                Juveniles =
                [
                    Row(44, 0, 0, 0),
                    Row(49, 1, 18, 52),
                    Row(54, 8, 42, 92),
                    Row(60, 20, 64, 118),
                    Row(68, 26, 74, 128),
                ],
            },
            Entries = Entries(-25, Now, 0.35),
        };
    }

    public static TideLineRecord NoEstimates()
    {
        var run = ThreeCrossings();
        return run with
        {
            Alive = [],
            Counts = [],
            Stages = [],
            Return = null,
            Vessels =
            [
                run.Vessels[0] with
                {
                    Alive = [],
                    Salinity = Saw(0, 27.5, 31, 31.6, 5, 9.5, 14, 18, 21.5, 24.8),
                },
            ],
        };
    }

    public static TideLineRecord BerriedYesterday() =>
        Carried(now: 1) with
        {
            Nights = Hill(16, 42, 27, 5.5),
            Hatch = new(Day(18), Day(27), Day(37)),
        };

    public static TideLineRecord CarriedTooLong()
    {
        var run = Carried(now: 40);
        return run with
        {
            Brood = run.Brood with { LaterThanNineInTen = true },
            Nights = Hill(40, 46, 41, 2.5),
            Hatch = new(Day(40.5), Day(42), Day(46)),
            Entries = Entries(0, 40, 2.5),
        };
    }

    public static TideLineRecord HatchNightNotSeen() =>
        OneCrossing() with
        {
            Nights = Hill(-8, -1, -4.5, 2),
            Counts = [],
        };

    public static TideLineRecord OneCrossing()
    {
        var alive = Falling(0.3, 60, 90, 0.02);
        return Sea(18, alive) with { Counts = [new(Day(10), About(60, 78, 99), JarA, Id(901))] };
    }

    public static TideLineRecord Braid(int count, double days)
    {
        var crossings = Enumerable
            .Range(0, count)
            .Select(i => Crossing(0.3 + (i * days / count), 12 + (i % 9), number: i))
            .ToList();
        var sum = 0.0;
        var alive = new List<TideRow>();
        foreach (var crossing in crossings)
        {
            alive.Add(new(crossing.At, About(sum * 0.9, sum, (sum * 1.1) + 0.01)));
            sum += crossing.Larvae.Middle;
            alive.Add(new(crossing.At, About(sum * 0.9, sum, sum * 1.1)));
        }

        alive.AddRange([Row(26, sum * 0.5, sum * 0.7, sum), Row(58, sum * 0.2, sum * 0.45, sum * 0.8)]);
        return Sea(26, alive) with
        {
            Crossings = crossings,
            Nights =
            [
                .. Enumerable
                    .Range(0, (int)days)
                    .Select(i => new TideNight(Evening(i - 1), 0.1, 20 + (i * 7 % 31))),
            ],
        };
    }

    public static TideLineRecord FarApart()
    {
        List<TideRow> alive =
        [
            Row(0.3, 80, 90, 101),
            Row(20.3, 50, 66, 84),
            Row(20.3, 170, 200, 240),
            Row(60, 60, 110, 170),
        ];
        return Sea(32, alive) with
        {
            Crossings = [Crossing(0.3, 90, number: 1), Crossing(20.3, 134, number: 2)],
        };
    }

    public static TideLineRecord CrossingToday() =>
        Sea(0.35, [Row(0.3, 80, 90, 101), Row(50, 20, 48, 80)]) with
        {
            Entries = Entries(-24, 0.3, 0.8),
        };

    public static TideLineRecord TwoVessels(double other)
    {
        var (mine, theirs) = (Falling(0.3, 60, 120), Falling(1.3, 60, 44));
        var run = Sea(24, mine);
        return run with
        {
            Crossings = [Crossing(0.3, 120, number: 1), Crossing(1.3, 44, JarB, 2)],
            Alive = [],
            Vessels =
            [
                run.Vessels[0] with
                {
                    Alive = mine,
                    Salinity = [Row(0, 33.6, 34, 34.4), Row(60, 33, 34, 35)],
                },
                new()
                {
                    Id = JarB,
                    Name = "Jar B",
                    Alive = theirs,
                    Salinity =
                    [
                        Row(1, other - 0.4, other, other + 0.4),
                        Row(24, other - 0.3, other, other + 0.3),
                    ],
                },
            ],
        };
    }

    public static TideLineRecord JoinAndSplit()
    {
        List<TideRow> mine =
        [
            Row(0.3, 100, 120, 140),
            Row(8, 80, 100, 122),
            Row(8, 50, 60, 75),
            Row(18, 40, 52, 68),
            Row(18, 72, 88, 110),
            Row(60, 20, 50, 90),
        ];
        var run = Sea(26, mine);
        return run with
        {
            Vessels =
            [
                run.Vessels[0],
                new()
                {
                    Id = JarB,
                    Name = "Jar B",
                    Alive = [Row(8, 32, 40, 50), Row(18, 28, 36, 46)],
                    Salinity = [Row(8, 31, 31.5, 32), Row(12, 26.4, 26.8, 27.2), Row(18, 26.6, 27, 27.4)],
                    SplitFrom = new(Day(8), JarA),
                    JoinedInto = new(Day(18), JarA),
                },
            ],
        };
    }

    public static TideLineRecord StairByStage()
    {
        var alive = Falling(0.3, 60, 150);
        var run = Sea(30, alive);
        List<TideRow> stair =
        [
            Row(0, 9.6, 10, 10.4),
            Row(9, 9.8, 10.2, 10.6),
            Row(9, 19.5, 20, 20.5),
            Row(19, 19.8, 20.3, 20.8),
            Row(19, 29.5, 30, 30.5),
            Row(30, 30, 30.5, 31),
            Row(60, 29, 31, 33),
        ];
        return run with { Vessels = [run.Vessels[0] with { Salinity = stair }] };
    }

    public static TideLineRecord Ended(double noneFor)
    {
        List<TideRow> alive =
        [
            Row(0.3, 80, 90, 101),
            Row(1.4, 78, 89, 101),
            Row(1.4, 128, 144, 161),
            Row(6, 78, 100, 124),
            Row(9, 48, 80, 114),
            Row(12, 10, 40, 90),
            Row(16.6, 0, 3, 30),
        ];
        var run = Sea(60, alive);
        return run with
        {
            Crossings = [Crossing(0.3, 90, number: 1), Crossing(1.4, 54, number: 2)],
            Return = null,
            Vessels = [run.Vessels[0] with { Salinity = Saw(0, 16.6, 16.6, 33.4, 6) }],
            Ends = [new(TideEndKind.GivenUp, Day(16.6), Day(16.6 - noneFor - 0.6), Day(16.6 - noneFor))],
            Entries = Entries(-24, 16, 0.6),
        };
    }

    public static TideLineRecord VesselKept()
    {
        List<TideRow> alive =
        [
            Row(0.3, 80, 90, 101),
            Row(8, 20, 46, 90),
            Row(14, 0, 12, 50),
            Row(34, 0, 2, 24),
            Row(60, 0, 1, 18),
        ];
        return Sea(34, alive) with { NoneSeenSince = Day(14) };
    }

    public static TideLineRecord LostInFresh() =>
        Carried(now: 34) with
        {
            Ends = [new(TideEndKind.GivenUp, Day(30))],
        };

    public static TideLineRecord Home(bool some)
    {
        List<TideRow> alive =
        [
            Row(0.3, 80, 90, 101),
            Row(40, 40, 52, 66),
            Row(50, 2, 8, 18),
            Row(56, 0, 0, 2),
        ];
        var run = Sea(70, alive);
        List<TideEnd> ends = [new(TideEndKind.Home, Day(55))];
        if (some)
        {
            ends.Insert(0, new(TideEndKind.GivenUp, Day(48), Day(44), Day(45)));
        }

        return run with
        {
            Return = new()
            {
                Seen = [Day(42), Day(43), Day(47)],
                Juveniles = [Row(42, 5, 10, 15), Row(47, 20, 31, 40), Row(55, 20, 30, 40)],
            },
            Vessels = [run.Vessels[0] with { Salinity = Saw(0, 55, 55, 31, 8, 16, 24, 32, 40, 48) }],
            Ends = ends,
        };
    }

    public static TideLineRecord Size(double larvae) =>
        Sea(18, Falling(0.3, 60, larvae, 0.02, 0.05)) with
        {
            Crossings = [Crossing(0.3, larvae, number: 1)],
        };

    public static TideLineRecord NothingSure() =>
        Sea(30, [Row(0.3, 0, 60, 120), Row(30, 0, 22, 90), Row(60, 0, 8, 60)]);

    public static TideLineRecord Rough() =>
        Sea(20, Falling(0.3, 60, 80, 0.03, 0.3)) with
        {
            AliveIsRough = true,
        };

    public static TideLineRecord NeverMeasured()
    {
        var run = Sea(20, Falling(0.3, 60, 80));
        return run with { Vessels = [run.Vessels[0] with { Salinity = [] }] };
    }

    public static TideLineRecord SomeTime()
    {
        var run = BerriedYesterday();
        return run with
        {
            Now = Day(12),
            MadeAt = Day(12),
            Brood = run.Brood with
            {
                Marks =
                [
                    Mark(TideMarkKind.Berried, 0),
                    Mark(TideMarkKind.Eyed, 5, 9),
                    Mark(TideMarkKind.Isolated, 11.4, 11.8),
                ],
            },
        };
    }

    public static TideLineRecord OddEntries()
    {
        var run = OneCrossing();
        return run with
        {
            Crossings = [run.Crossings[0] with { Corrected = true }],
            Entries =
            [
                .. run.Entries,
                new(Day(9), TideEntryMark.NeedsNewerVersion, Id(990)),
                new(Day(30), TideEntryMark.Reading, Id(991)),
                new(Day(4), TideEntryMark.Reading, Id(992), Corrected: true),
            ],
        };
    }

    public static TideLineRecord Stages(int zoeae) =>
        Sea(24, Falling(0.3, 60, 80)) with
        {
            StageNames = zoeae == 0 ? [] : StageNames(zoeae),
            Stages = zoeae == 0 ? [] : StageRows(zoeae, 0, 58),
        };

    public static TideLineRecord LongRun()
    {
        var run = Sea(60, Falling(0.3, 100, 80, 0.01));
        return run with
        {
            Brood = run.Brood with { FirstSeenBerried = Day(-32) },
            Return = new() { Forecast = new(Day(62), Day(68), Day(74)) },
            Entries = Entries(-32, 60, 0.16),
        };
    }

    public static TideLineRecord ThreeDays() =>
        Sea(0.9, Falling(0.3, 1, 80)) with
        {
            Brood = new() { FirstSeenBerried = Day(-0.5), Marks = [Mark(TideMarkKind.Berried, -0.5)] },
            Return = null,
            Nights = [],
        };

    public static TideLineRecord OverNewYear()
    {
        var run = ThreeCrossings();
        var moved = Duration.FromDays(-136);
        return run with
        {
            Now = run.Now + moved,
            MadeAt = run.MadeAt + moved,
            Brood = run.Brood with
            {
                FirstSeenBerried = Day(-26) + moved,
                LastSeenCarrying = Day(1) + moved,
                Marks = [],
            },
            Nights = [],
            Crossings = [.. run.Crossings.Select(one => one with { At = one.At + moved })],
            Vessels =
            [
                run.Vessels[0] with
                {
                    Salinity = Moved(run.Vessels[0].Salinity),
                    Alive = Moved(run.Alive),
                    Readings = [],
                    TopUps = [],
                },
            ],
            Alive = Moved(run.Alive),
            Counts = [],
            Stages = [.. run.Stages.Select(row => row with { At = row.At + moved })],
            Return = new() { Forecast = new(Day(44) + moved, Day(51) + moved, Day(62) + moved) },
            Entries = [],
        };
        List<TideRow> Moved(IEnumerable<TideRow> rows) =>
            [.. rows.Select(row => row with { At = row.At + moved })];
    }

    public static TideLineRecord Breach() => OneCrossing() with { Breach = new(Day(19.2), JarA, 34, true) };

    public static TideLineRecord BeganWithLarvae() =>
        Sea(2, Falling(0.3, 60, 200)) with
        {
            Brood = new(),
            Nights = [],
            Entries = Entries(0, 2, 0.3),
            Return = null,
        };

    private static List<TideNight> Hill(int from, int to, double middle, double sd)
    {
        var nights = Enumerable.Range(from, to - from + 1).ToList();
        var weights = nights.ConvertAll(day => Math.Exp(-0.5 * Math.Pow((day - middle) / sd, 2)));
        return [.. nights.Select((day, i) => new TideNight(Evening(day), weights[i] / weights.Sum(), null))];
    }

    private static TideLineRecord Carried(double now) =>
        new()
        {
            Name = "Brood 3",
            Now = Day(now),
            Zone = Zone,
            MadeAt = Day(now),
            PlannedPpt = 32,
            Brood = new() { FirstSeenBerried = Day(0), Marks = [Mark(TideMarkKind.Berried, 0)] },
            Entries = [new(Day(0), TideEntryMark.Note, Id(1))],
        };

    private static TideLineRecord Sea(double now, List<TideRow> alive) =>
        new()
        {
            Name = "Brood 4",
            Now = Day(now),
            Zone = Zone,
            MadeAt = Day(now),
            PlannedPpt = 32,
            Brood = new()
            {
                FirstSeenBerried = Day(-24),
                Marks = [Mark(TideMarkKind.Berried, -24), Mark(TideMarkKind.Eyed, -8)],
            },
            Nights = [new(Evening(-1), 0.5, 90)],
            Crossings = [Crossing(0.3, 90, number: 1)],
            Vessels =
            [
                new()
                {
                    Id = JarA,
                    Name = "Jar A",
                    Salinity = Saw(0, now, 60, 31.6, 4, 8, 12, 16, 20, 24, 28),
                    Alive = alive,
                },
            ],
            Alive = alive,
            Return = new() { Forecast = new(Day(40), Day(48), Day(58)) },
            Entries = Entries(-24, now, 0.5),
        };
}
