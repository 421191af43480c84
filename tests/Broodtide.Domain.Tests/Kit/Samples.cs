using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Domain.Tests.Kit;

/// <summary>One fact of each kind with every field filled: the examples of the documentation.</summary>
internal static class Samples
{
    private static readonly AnimalId Mila = new(Pen.Uuid(0xa1));
    private static readonly BroodId Clutch = new(Pen.Uuid(0xb1));
    private static readonly VesselId Tank = new(Pen.Uuid(0xe1));
    private static readonly VesselId Box = new(Pen.Uuid(0xe2));
    private static readonly VesselId Cup = new(Pen.Uuid(0xe3));
    private static readonly VesselId Jar = new(Pen.Uuid(0xe4));
    private static readonly VesselId GreenWater = new(Pen.Uuid(0xe5));
    private static readonly VesselId Nursery = new(Pen.Uuid(0xe6));
    private static readonly CohortId First = new(Pen.Uuid(0xc1));
    private static readonly CohortId Second = new(Pen.Uuid(0xc2));
    private static readonly CollectionId Gathered = new(Pen.Uuid(0xd1));
    private static readonly RunId Run = new(Pen.Uuid(0xf1));
    private static readonly InstrumentId Prism = new(Pen.Uuid(0x91));
    private static readonly Instant Later = Instant.FromUtc(2026, 3, 8, 18, 30);

    private static readonly CrossingPour[] Pours =
    [
        new(0, null, new("100", "mL", 100)),
        new(90, new("50", "mL", 50), new("50", "mL", 50)),
    ];

    private static readonly PicturesSeen Seen = new(
        [new(new string('c', 64), 4032, 3024), new(new string('d', 64), 4032, 3024, true)],
        0,
        [new(CountedAt.Phone, 1600, 3, 2, 3, 5)],
        [new(120.5, 88.2), new(300, 240.4, Removed: true), new(17.3, 9, MarkedBy.Person)],
        PersonLooked.WithMarks,
        "white dish, lamp at the side",
        3
    );

    public static IReadOnlyList<Fact> All { get; } =
    [
        new AnimalAcquired(Mila, "Mila", "Caridina multidentata", Sex.Female, Tank, "a keeper in town"),
        new AnimalMoulted(Mila),
        new AnimalMoved(Mila, Tank),
        new AnimalDied(Mila, "old age"),
        new AnimalSeenEmpty(Mila),
        new AnimalSeenBerried(Mila, Clutch, "Mila's first", true),
        new EggsObserved(Clutch, true, false, EggColour.Pale, true),
        new EggsDropped(Clutch, Box, 40, false),
        new AnimalIsolated(Mila, Box, Clutch),
        new AnimalReturned(Mila, Tank),
        new HatchingSeen(Clutch, Box, true),
        new CollectionMade(Gathered, Clutch, Box, Cup, 320, CountMethod.Beam),
        new CrossingMade(
            First,
            Clutch,
            Jar,
            [Gathered],
            320,
            CountMethod.Glance,
            GreenWater,
            new("30", "sal:practical", 30),
            new("0,2", "L", 0.2),
            new("27.5", "sal:practical", 27.5),
            new("4", "min", 4),
            Pours
        ),
        new CountMade(
            Jar,
            CountMethod.Aliquot,
            [new(7, new("50", "mL", 50)), new(5)],
            First,
            true,
            true,
            Seen
        ),
        new DeadRemoved(Jar, 3),
        new StageSampleTaken(Jar, [new("Z2", 6), new("Z3", 2)], First),
        new LarvaeMeasured(
            Jar,
            [new(2410.5, 2380, 2441), new(2350)],
            [new(182, 175, 189.5)],
            [new(80, 62, 92)],
            First,
            ScaleBy.Ruler,
            new string('e', 64)
        ),
        new CohortsMoved(Jar, GreenWater, [First, Second], 150),
        new CohortsMerged(Jar, [First, Second], First),
        new CohortSplit(First, Jar, GreenWater, 60),
        new SettlementSeen(Jar, 2),
        new JuvenilesReturned(Jar, Nursery, 25, First, new("120", "min", 120), Pours),
        new JuvenilesCounted(Nursery, 23, CountMethod.Full),
        new JuvenilesGivenAway(Nursery, 10, "the school"),
        new TrialLaidOut(
            "Trial A",
            "salinity",
            [
                new("as always", new("30", "sal:practical", 30), true),
                new("17", new("17", "sal:practical", 17)),
            ],
            [new(Jar, 1, 1), new(GreenWater, 0, 1)],
            7,
            Run,
            "share settled by day 45"
        ),
        new SurvivalHeard(Nursery, "7Q4M-2KX9-ZV", 8, 10, "two died in the bag"),
        new ReadingTaken(new("33,5", "sal:brine-g/kg", 33.5), Jar, Prism, new("77", "Cel", 77, true), true),
        new InstrumentDescribed(
            Prism,
            "the hand refractometer",
            InstrumentKind.Refractometer,
            "sal:brine-g/kg",
            true,
            1,
            0.5,
            15,
            true,
            AcidityScale.Nbs
        ),
        new InstrumentCalibrated(
            Prism,
            new("36", "sal:practical", 36),
            new("35", "sal:practical", 35),
            new("22", "Cel", 22),
            Later,
            true,
            true
        ),
        new VesselSetUp(Jar, "jar 1", VesselRole.LarvalVessel, new("3", "L", 3), "Caridina multidentata"),
        new VesselFilled(
            Jar,
            new FillId(Pen.Uuid(0x81)),
            new("2.8", "L", 2.8),
            new("1.0226", "sal:sg-25/25", 1.0226),
            new("75", "[degF]", 75),
            GreenWater,
            0.02
        ),
        new VesselEmptied(Jar),
        new VesselDisinfected(Jar, "bleach", new("20", "mg/L{Cl2}", 20), new("0", "mg/L{Cl2}", 0)),
        new WaterMoved(
            GreenWater,
            Jar,
            new("250", "mL", 250),
            new("30", "sal:mix-g/L", 30),
            new("24", "Cel", 24),
            new("7.5", "g", 7.5),
            false,
            true,
            0.05
        ),
        new VesselSiphoned(Jar, new("150", "mL", 150), 4),
        new VesselFed(
            Jar,
            FoodKind.GreenWater,
            new("60", "mL", 60),
            new("0.02", "g", 0.02),
            new("2e6", "{cells}/mL", 2e6),
            GreenWater,
            new("30", "sal:practical", 30),
            "the fine dust"
        ),
        new FeedDescribed(
            "the fine dust",
            FoodKind.Powder,
            new("52", "%", 52),
            new("8", "%", 8),
            new("12,5", "%", 12.5),
            "opened in March"
        ),
        new CultureDescribed(
            GreenWater,
            CultureKind.TetraselmisChui,
            "from the school",
            MediumKind.F2,
            0.5,
            Later,
            new("200", "mL", 200),
            new("1e6", "{cells}/mL", 1e6),
            Nursery
        ),
        new CultureHarvested(
            GreenWater,
            new("300", "mL", 300),
            new("9e5", "{cells}/mL", 9e5),
            "into the cold"
        ),
        new VesselLookedAt(Jar, WaterLook.Tinted, FilmCover.Thin),
        new CellsCounted(
            GreenWater,
            ChamberKind.Neubauer,
            [new(212, 4), new(49)],
            1.05,
            new("0.0001", "mL", 0.0001)
        ),
        new LightChanged(Jar, true, 24, new("800", "lx", 800)),
        new AirChanged(Jar, true, "one slow bubble"),
        new HeaterChanged(Jar, true, new("24", "Cel", 24)),
        new FilterChanged(Tank, false, "sponge rinsed"),
        new RunStarted(Run, Clutch, "spring", "Caridina multidentata"),
        new RunEnded(Run, RunEnd.GivenUp, "none left"),
        new PowerFailed("the whole street"),
        new PowerRestored("all pumps run"),
        new KeeperLeft(Later, "Jon"),
        new KeeperReturned(),
        new ActionDone("top-up:jar 1:2026-03-02", Jar.Value, "a little more"),
        new ActionSkipped("top-up:jar 1:2026-03-03", Jar.Value, "not needed", Later),
        new NoteWritten("they gather at the lamp", Jar, Mila, Run),
        new PhotoAdded(
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            "image/jpeg",
            48_213,
            Jar,
            Mila,
            Run,
            "first night",
            new(Pen.Uuid(0x101)),
            4032,
            3024,
            "cb8379ac2098aa165029e3938a51da0bcecfc008fd6795f401178647f96c5b34",
            false
        ),
        new ForecastIssued(Run, "first-hatch", "2026-03-02", "0.1.0", Later, "d", 20518.5, 20521, 20525.25),
        new WaterForetold(
            Jar,
            "2026-03-02",
            "broodtide 0.1.0",
            Later,
            Later,
            [
                new("oxygen", 6, "mg/L{O2}", 5.1, 6.2, 6.8),
                new("oxygen", 12, "mg/L{O2}", 3.9, 5.7, 6.6),
                new("tan", 12, "mg/L{TAN-N}", 0.02, 0.05, 0.2),
            ]
        ),
        new ProfileValueChosen(
            "Caridina multidentata",
            "larval-salinity",
            "{practical}",
            32,
            28,
            34,
            "my water"
        ),
        new EntryTakenBack("typed in the wrong vessel"),
    ];
}
