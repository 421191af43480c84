using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.Demo;

/// <summary>The invented first brood: the salt crept up unseen and the food fouled, and it was lost.</summary>
internal static class FirstBrood
{
    public static void Tell(StoryTeller story, Household house)
    {
        var brood = new Domain.BroodId(story.Identity());
        var run = new Domain.RunId(story.Identity());
        var cohort = new Domain.CohortId(story.Identity());
        var jar = new Domain.VesselId(story.Identity());
        story.Tell(story.At(-121, 21), new AnimalSeenEmpty(house.Alma));
        story.Tell(story.At(-119, 7, 30), new AnimalSeenBerried(house.Alma, brood, "Brood 1"));
        story.Tell(story.At(-119, 7, 35), new RunStarted(run, brood, "Brood 1", InventedHouse.Species));
        story.Tell(story.At(-110, 22), new EggsObserved(brood, Carried: true, Eyed: false));
        story.Tell(story.At(-103, 22), new EggsObserved(brood, Carried: true, Eyed: true));
        story.Tell(story.At(-97, 20), Household.Vessel(jar, "Old jar", VesselRole.LarvalVessel, 4));
        story.Tell(story.At(-97, 20, 10), Household.Filled(story, jar, 3.5, 33, 24));
        story.Tell(story.At(-96, 22), new EggsObserved(brood, Carried: true, Colour: EggColour.Pale));
        story.Tell(story.At(-96, 22, 20), new AnimalIsolated(house.Alma, house.HatchingBox, brood));
        // Larvae were there in the morning; nobody looked in the night.
        story.TellBetween(story.At(-95, 23), story.At(-94, 7), new HatchingSeen(brood, house.HatchingBox));
        var collection = new Domain.CollectionId(story.Identity());
        story.Tell(
            story.At(-94, 7, 20),
            new CollectionMade(collection, brood, house.HatchingBox, Number: 140, Method: CountMethod.Glance)
        );
        story.Tell(
            story.At(-94, 7, 40),
            new CrossingMade(
                cohort,
                brood,
                jar,
                [collection],
                140,
                CountMethod.Glance,
                Entered: TypedNumber.Of(200, "mL"),
                EnteredSalinity: TypedNumber.Of(16, UnitCode.PracticalSalinity),
                BrackishMinutes: TypedNumber.Of(25, "min")
            )
        );
        story.Tell(story.At(-93, 20), new Domain.Animals.AnimalMoved(house.Alma, house.RiverTank));
        var water = new InventedWater(story, house, jar, story.At(-94, 7, 41), 3.7, 32.1, 95);
        water.Read(story.At(-93, 8));
        for (var day = -92; day <= -84; day++)
        {
            story.Tell(story.At(day, 19), new VesselFed(jar, FoodKind.Yeast, Mass: TypedNumber.Of(60, "mg")));
        }

        story.Tell(
            story.At(-88, 22),
            new CountMade(jar, CountMethod.Beam, [new Aliquot(35)], cohort, InDark: true)
        );
        // A week without a look at the scale.
        water.Read(story.At(-83, 8));
        water.TopUp(story.At(-83, 8, 20), 700);
        story.Tell(story.At(-82, 22), new DeadRemoved(jar, 22));
        story.Tell(
            story.At(-81, 22),
            new CountMade(jar, CountMethod.Beam, [new Aliquot(0)], cohort, InDark: true)
        );
        story.Tell(
            story.At(-80, 9),
            new NoteWritten(
                "The water was cloudy and smelled. The scale had stood at 41 before the top-up.",
                jar
            )
        );
        story.Tell(story.At(-70, 18), new VesselEmptied(jar));
        story.Tell(
            story.At(-70, 18, 5),
            new VesselDisinfected(
                jar,
                "household bleach, unscented, rinsed and dried",
                TypedNumber.Of(10, "mg/L{Cl2}"),
                TypedNumber.Of(0, "mg/L{Cl2}")
            )
        );
        story.Tell(story.At(-70, 18, 10), new RunEnded(run, RunEnd.GivenUp, "None seen for eleven days."));
    }
}
