using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.Demo;

/// <summary>The two cultures of the invented house: what grows in them, and the counts since they were begun anew.</summary>
internal static class GreenWater
{
    public static void Tell(StoryTeller story, Household house)
    {
        Describe(story, house.GreenJar, "from a club member");
        Describe(story, house.SpareGreen, null);
        Count(story, house.GreenJar, -10, 1, 38, 41, 36, 43);
        Count(story, house.GreenJar, -8, 1, 82, 75, 88, 79);
        Count(story, house.GreenJar, -6, 2, 60, 66, 57, 63);
        Count(story, house.GreenJar, -3, 2, 79, 74, 83, 70);
        Count(story, house.SpareGreen, -8, 1, 55, 49, 61, 52);
        story.Tell(story.At(-3, 18), new VesselLookedAt(house.GreenJar, WaterLook.DeepGreen));
        story.Tell(story.At(-3, 18), new VesselLookedAt(house.SpareGreen, WaterLook.Green));
    }

    // Begun anew twelve days ago, as every third week.
    private static void Describe(StoryTeller story, VesselId jar, string? name) =>
        story.Tell(
            story.At(-12, 18, 30),
            new CultureDescribed(
                jar,
                CultureKind.TetraselmisChui,
                name,
                MediumKind.F2,
                Started: story.At(-12, 18, 10),
                Inoculum: TypedNumber.Of(300, "mL"),
                InoculumDensity: TypedNumber.Of(1e6, UnitCode.CellsPerMillilitre)
            )
        );

    private static void Count(
        StoryTeller story,
        VesselId jar,
        int day,
        double dilution,
        params int[] squares
    ) =>
        story.Tell(
            story.At(day, 17, 40),
            new CellsCounted(
                jar,
                ChamberKind.Neubauer,
                [.. squares.Select(cells => new SquaresCounted(cells))],
                dilution
            )
        );
}
