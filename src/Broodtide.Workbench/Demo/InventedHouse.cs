using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Demo;

/// <summary>
/// An invented house to try things in: a keeper, a first brood that was lost, a second in the sea phase, and a
/// third still carried. Nobody kept these animals and nothing here was measured.
/// </summary>
public static class InventedHouse
{
    /// <summary>Name of the invented keeper.</summary>
    public const string Keeper = "Ilka (invented)";

    /// <summary>What stands behind the name of whoever wrote invented entries.</summary>
    public const string Mark = " (invented)";

    /// <summary>Whether a name is that of somebody who was invented.</summary>
    public static bool Is(string author) => author?.EndsWith(Mark, StringComparison.Ordinal) is true;

    /// <summary>Species of the story.</summary>
    public static string Species => SpeciesProfiles.Reference.ScientificName;

    /// <summary>
    /// The entries of the story, oldest first, ending shortly before <paramref name="now"/>. Equal arguments give
    /// equal drafts.
    /// </summary>
    /// <param name="now">The instant the story has come to; nothing is written after it.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static IReadOnlyList<Draft> Drafts(Instant now, DateTimeZone zone)
    {
        var story = new StoryTeller(now.InZone(zone).Date, zone);
        var house = Household.SetUp(story);
        FirstBrood.Tell(story, house);
        SecondBrood.Tell(story, house);
        ThirdBrood.Tell(story, house);
        GreenWater.Tell(story, house);
        return [.. story.Drafts.Where(draft => draft.Written <= now).OrderBy(draft => draft.Written)];
    }
}

/// <summary>What stands in the invented kitchen.</summary>
internal sealed record Household(
    VesselId RiverTank,
    VesselId HatchingBox,
    VesselId SeaCan,
    VesselId GreenJar,
    VesselId SpareGreen,
    InstrumentId Refractometer,
    InstrumentId Thermometer,
    AnimalId Alma,
    AnimalId Berta
)
{
    public static Household SetUp(StoryTeller story)
    {
        var house = new Household(
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity()),
            new(story.Identity())
        );
        var start = story.At(-150, 18);
        story.Tell(start, Vessel(house.RiverTank, "River tank", VesselRole.BroodTank, 54));
        story.Tell(start, Filled(story, house.RiverTank, 50, null, 24));
        story.Tell(start, Vessel(house.HatchingBox, "Hatching box", VesselRole.HatchingBox, 2));
        story.Tell(start, Vessel(house.SeaCan, "Sea can", VesselRole.Store, 10));
        story.Tell(start, Vessel(house.GreenJar, "Green jar", VesselRole.AlgaeCulture, 1.5));
        story.Tell(start, Vessel(house.SpareGreen, "Spare green jar", VesselRole.AlgaeCulture, 1.5));
        story.Tell(
            start,
            new InstrumentDescribed(
                house.Refractometer,
                "Hand refractometer",
                InstrumentKind.Refractometer,
                "sal:brine-g/kg",
                Compensated: true,
                Resolution: 0.5,
                Error: 0.4,
                ZeroedWithWater: true
            )
        );
        story.Tell(
            start,
            new InstrumentDescribed(
                house.Thermometer,
                "Stick thermometer",
                InstrumentKind.Thermometer,
                "Cel",
                Error: 0.3
            )
        );
        story.Tell(
            story.At(-140, 19),
            new AnimalAcquired(
                house.Alma,
                "Alma",
                InventedHouse.Species,
                Sex.Female,
                house.RiverTank,
                "a club member"
            )
        );
        story.Tell(
            story.At(-140, 19),
            new AnimalAcquired(
                house.Berta,
                "Berta",
                InventedHouse.Species,
                Sex.Female,
                house.RiverTank,
                "a club member"
            )
        );
        story.Tell(
            story.At(-140, 19),
            new AnimalAcquired(
                new(story.Identity()),
                "Ode",
                InventedHouse.Species,
                Sex.Male,
                house.RiverTank,
                "a club member"
            )
        );
        // One temperature a week: the tank follows the kitchen.
        double[] weekly =
        [
            23.4,
            23.8,
            24.1,
            24.6,
            24.2,
            23.9,
            24.4,
            24.8,
            24.5,
            24.1,
            23.7,
            23.9,
            24.3,
            24.6,
            24.2,
            24.0,
            23.8,
            24.1,
            24.4,
            24.3,
            24.2,
        ];
        for (var week = 0; week < weekly.Length; week++)
        {
            story.Tell(story.At(-147 + (7 * week), 8, 10), new WaterMoved(To: house.RiverTank, ToLine: true));
            story.Tell(
                story.At(-147 + (7 * week), 8),
                new ReadingTaken(TypedNumber.Of(weekly[week], "Cel"), house.RiverTank, house.Thermometer)
            );
        }

        return house;
    }

    public static VesselSetUp Vessel(VesselId id, string name, VesselRole role, double litres) =>
        new(id, name, role, TypedNumber.Of(litres, "L"), InventedHouse.Species);

    public static VesselFilled Filled(
        StoryTeller story,
        VesselId id,
        double litres,
        double? ppt,
        double celsius
    ) =>
        new(
            id,
            new(story.Identity()),
            TypedNumber.Of(litres, "L"),
            ppt is { } salinity ? TypedNumber.Of(salinity, UnitCode.PracticalSalinity) : null,
            TypedNumber.Of(celsius, "Cel")
        );
}
