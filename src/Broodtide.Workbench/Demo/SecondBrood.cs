using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.Demo;

/// <summary>The invented second brood: three collections, one jar, four weeks in the sea.</summary>
internal static class SecondBrood
{
    public static void Tell(StoryTeller story, Household house)
    {
        var brood = new BroodId(story.Identity());
        var run = new RunId(story.Identity());
        var jar = new VesselId(story.Identity());
        Carried(story, house, brood, run);
        GetReady(story, house, jar);
        var water = new InventedWater(story, house, jar, story.At(-30, 20, 20), 7.2, 31, 110);
        Cross(story, house, brood, jar, water);
        Keep(story, jar, water);
    }

    private static void Carried(StoryTeller story, Household house, BroodId brood, RunId run)
    {
        story.Tell(story.At(-58, 20), new AnimalMoulted(house.Alma));
        story.Tell(story.At(-57, 20), new AnimalSeenEmpty(house.Alma));
        story.TellBetween(
            story.At(-56, 21),
            story.At(-55, 7, 30),
            new AnimalSeenBerried(house.Alma, brood, "Brood 2")
        );
        story.Tell(story.At(-55, 7, 40), new RunStarted(run, brood, "Brood 2", InventedHouse.Species));
        story.Tell(story.At(-46, 22), new EggsObserved(brood, Carried: true, Eyed: false));
        story.Tell(story.At(-40, 22), new EggsObserved(brood, Carried: true, Eyed: true));
        story.Tell(story.At(-33, 22), new EggsObserved(brood, Carried: true, Colour: EggColour.Lighter));
        story.Tell(
            story.At(-31, 22),
            new EggsObserved(brood, Carried: true, Colour: EggColour.Pale, Saddle: true)
        );
        story.Tell(story.At(-31, 22, 30), new AnimalIsolated(house.Alma, house.HatchingBox, brood));
    }

    private static void GetReady(StoryTeller story, Household house, VesselId jar)
    {
        Grow(story, house.GreenJar, 0);
        Grow(story, house.SpareGreen, 10);
        story.Tell(
            story.At(-34, 18),
            new InstrumentCalibrated(
                house.Refractometer,
                TypedNumber.Of(35, "sal:brine-g/kg"),
                TypedNumber.Of(36.5, "sal:brine-g/kg"),
                TypedNumber.Of(22, "Cel"),
                Adjusted: true,
                SodiumChloride: true
            )
        );
        story.Tell(story.At(-33, 18), Household.Filled(story, house.SeaCan, 9.5, 31, 22));
        story.Tell(story.At(-30, 20), Household.Vessel(jar, "Jar A", VesselRole.LarvalVessel, 8));
        story.Tell(
            story.At(-30, 20, 20),
            new VesselFilled(
                jar,
                new(story.Identity()),
                TypedNumber.Of(7.2, "L"),
                Temperature: TypedNumber.Of(24, "Cel"),
                From: house.SeaCan
            )
        );
        story.Tell(
            story.At(-30, 20, 30),
            new AirChanged(jar, true, "open rigid line, one slow coarse bubble a second")
        );
        story.Tell(story.At(-30, 20, 30), new LightChanged(jar, true, 24));
    }

    // A culture is begun anew every three weeks and topped up to its line every week.
    private static void Grow(StoryTeller story, VesselId culture, int minute)
    {
        for (var week = 0; week <= 7; week++)
        {
            var day = -54 + (7 * week);
            if (week % 3 != 0)
            {
                story.Tell(story.At(day, 18, minute), new WaterMoved(To: culture, ToLine: true));
                continue;
            }

            if (week > 0)
            {
                story.Tell(story.At(day, 17, minute), new VesselEmptied(culture));
            }

            story.Tell(story.At(day, 18, minute), Household.Filled(story, culture, 1.5, 30, 23));
        }
    }

    private static void Cross(
        StoryTeller story,
        Household house,
        BroodId brood,
        VesselId jar,
        InventedWater water
    )
    {
        (int Day, int Hour, int Number)[] nights = [(-28, 6, 62), (-28, 23, 118), (-27, 7, 71)];
        story.TellBetween(story.At(-29, 23), story.At(-28, 6), new HatchingSeen(brood, house.HatchingBox));
        foreach (var (day, hour, number) in nights)
        {
            var collection = new CollectionId(story.Identity());
            story.Tell(
                story.At(day, hour, 10),
                new CollectionMade(
                    collection,
                    brood,
                    house.HatchingBox,
                    Number: number,
                    Method: CountMethod.Full
                )
            );
            story.Tell(
                story.At(day, hour, 25),
                new CrossingMade(
                    new CohortId(story.Identity()),
                    brood,
                    jar,
                    [collection],
                    number,
                    CountMethod.Full,
                    Entered: TypedNumber.Of(150, "mL"),
                    EnteredSalinity: TypedNumber.Of(27, UnitCode.PracticalSalinity),
                    BrackishMinutes: TypedNumber.Of(4, "min"),
                    Pours:
                    [
                        new CrossingPour(0, null, TypedNumber.Of(100, "mL")),
                        new CrossingPour(120, TypedNumber.Of(100, "mL"), TypedNumber.Of(120, "mL")),
                        new CrossingPour(240, TypedNumber.Of(120, "mL"), TypedNumber.Of(150, "mL")),
                    ]
                )
            );
            water.Enter(story.At(day, hour, 25), 0.15, 27);
        }

        story.Tell(story.At(-26, 19), new HatchingSeen(brood, house.HatchingBox, Over: true));
        story.Tell(story.At(-26, 19, 10), new AnimalReturned(house.Alma, house.RiverTank));
    }

    private static void Keep(StoryTeller story, VesselId jar, InventedWater water)
    {
        // The errors of a hand and an eye, invented once and for all.
        double[] wrong = [0.2, -0.1, 0.0, 0.3, -0.2, 0.1, -0.3, 0.2, 0.0, -0.1, 0.2, -0.2, 0.1, 0.0];
        for (var day = -25; day <= 0; day++)
        {
            if (day % 2 == -1 && day != -5)
            {
                water.Read(story.At(day, 7, 45), wrong[(day + 25) / 2 % wrong.Length]);
            }

            if (day == -5)
            {
                // The prism was wet: far too low. The next reading fits.
                water.Read(story.At(day, 7, 50), -3.4);
            }

            if (day is -24 or -20 or -16 or -12 or -8 or -4)
            {
                water.TopUp(story.At(day, 20), 440);
            }

            if (day < 0)
            {
                water.Feed(story.At(day, 21), 25, 30);
            }

            if (day is -24 or -17 or -10 or -3)
            {
                story.Tell(story.At(day, 7, 55), new ReadingTaken(TypedNumber.Of(24, "Cel"), jar));
            }
        }

        story.Tell(
            story.At(-21, 22),
            new CountMade(jar, CountMethod.Aliquot, [Sample(7), Sample(5), Sample(9), Sample(6)])
        );
        var count = story.Tell(
            story.At(-12, 22),
            new CountMade(jar, CountMethod.Aliquot, [Sample(5), Sample(14), Sample(4), Sample(6)])
        );
        story.Correct(
            count,
            story.At(-12, 22),
            story.At(-11, 8),
            new CountMade(jar, CountMethod.Aliquot, [Sample(5), Sample(4), Sample(4), Sample(6)])
        );
        story.Tell(
            story.At(-19, 22, 30),
            new StageSampleTaken(jar, [new StageTally("Z2", 3), new StageTally("Z3", 7)])
        );
        story.Tell(
            story.At(-4, 22, 30),
            new StageSampleTaken(
                jar,
                [new StageTally("Z5", 2), new StageTally("Z6", 7), new StageTally("Z7", 1)]
            )
        );
    }

    private static Aliquot Sample(int seen) => new(seen, TypedNumber.Of(250, "mL"));
}
