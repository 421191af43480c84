using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Lives;

/// <summary>
/// A second species beside the first, from the berried female to the way home: its larvae want rising salinity by stage and
/// nobody knows whether they have yolk, and the list of what is due follows it, day by day.
/// </summary>
public sealed class SecondSpeciesLifeTests
{
    private static VesselId SeaJar => new(Fixed(90));
    private static AnimalId Lara => new(Fixed(91));
    private static BroodId Brood2 => new(Fixed(92));
    private static CohortId Crossed => new(Fixed(93));

    [Fact]
    public void A_species_that_rises_with_its_stage_is_carried_through_by_the_list()
    {
        var profile = SpeciesProfiles.Find("Macrobrachium lar")!;
        var kept = Begun();

        // Berried: sea water is asked for at the first stage's salinity, from the species' own figure.
        var carried = Outlook.Of(kept.Account(), At(5, 15, 20), Zone);
        var plan = carried.PlanOf(Brood2);
        Assert.Equal(
            12.5,
            plan.Actions.Single(action => action.Code == ActionCodes.MixSeaWater).Reason["salinityPpt"]
        );
        Assert.Equal(
            30.0,
            carried.PlanOf(Brood1).Actions.Single(action => action.Code == ActionCodes.MixSeaWater).Reason[
                "salinityPpt"
            ]
        );
        Assert.Contains(carried.ForecastOf(Brood2)!.Remarks, remark => remark.Code == "numbers-borrowed");

        kept.Write(
                At(5, 30),
                new VesselFilled(
                    SeaJar,
                    new(Fixed(94)),
                    TypedNumber.Of(20, "L"),
                    TypedNumber.Of(12.5, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(6, 1, 8), new CrossingMade(Crossed, Brood2, SeaJar, null, 300, CountMethod.Full));

        // Nobody knows of yolk: food at once, and said so.
        var first = Outlook
            .Of(kept.Account(), At(6, 1, 9), Zone)
            .Due.Items.Select(item => item.Action)
            .ToList();
        var food = first.Single(action =>
            action.Code == ActionCodes.FirstFood && action.About == Subject.Of(SeaJar)
        );
        Assert.Equal("plan-food-at-once-not-known", food.Reason.Code);
        Assert.Equal(At(6, 1, 10), food.By);
        kept.Write(At(6, 1, 10), new VesselFed(SeaJar, FoodKind.GreenWater, TypedNumber.Of(100, "mL")));

        // Every day: what is asked for is done. Each rise is poured when its turn comes, as salt, in steps of a point a day.
        var rises = new List<(LocalDate Day, string Stage)>();
        var ppt = 12.5;
        var wanted = 12.5;
        for (var day = At(6, 2, 20); day < At(9, 10); day += Duration.FromDays(1))
        {
            if (ppt < wanted)
            {
                ppt = Math.Min(wanted, ppt + 1);
            }

            kept.Write(day, new ReadingTaken(TypedNumber.Of(ppt, UnitCode.PracticalSalinity), SeaJar))
                .Write(day, new ReadingTaken(TypedNumber.Of(28, "Cel"), SeaJar))
                .Write(day, new VesselFed(SeaJar, FoodKind.GreenWater, TypedNumber.Of(100, "mL")));
            if (day.InZone(Zone).Date.Day % 3 != 0)
            {
                continue;
            }

            var outlook = Outlook.Of(kept.Account(), day + Duration.FromHours(1), Zone);
            var band = outlook.Profiles.BandOf(outlook.House.Vessel(SeaJar))!;
            Assert.True(band.Lower <= band.Target && band.Target <= band.Upper);
            var rise = outlook
                .PlanOf(Brood2)
                .Actions.SingleOrDefault(action =>
                    action.Code == ActionCodes.RaiseSalinity && action.From <= outlook.Now
                );
            if (rise is not null && ppt >= wanted)
            {
                var stage = profile.SalinityByStage.Single(it =>
                    profile.Stages[it.FromOrder - 1].Code == (string)rise.Reason["stage"]!
                );
                rises.Add((day.InZone(Zone).Date, (string)rise.Reason["stage"]!));
                wanted = stage.Target.Practical;
            }
        }

        Assert.Equal(["Z3", "Z5", "Z7"], rises.Select(rise => rise.Stage));
        // By the evenly passed stages of 77 to 110 days: the third begins on day 12 to 17, the seventh on day 36 to 51.
        Assert.InRange(Period.DaysBetween(new(2026, 6, 1), rises[0].Day), 12, 20);
        Assert.InRange(Period.DaysBetween(new(2026, 6, 1), rises[2].Day), 36, 60);
        Assert.Equal(32.5, wanted);

        // Lal, Seeto and Pickering 2014: the first settled at day 77. Until then nobody is asked to dilute.
        var late = Outlook.Of(kept.Account(), At(8, 10), Zone);
        var estimate = late.EstimateOf(late.PopulationIn(SeaJar)!);
        Assert.InRange((estimate.Settlement.Half.Middle - At(6, 1, 8)).TotalDays, 70, 130);
        var home = Returning.Plan(late, ReturnPlaces.Order(late, SeaJar)).Plan!;
        Assert.Equal(DilutionState.Held, home.InSteps.State);
        Assert.Equal(30, Returning.ZoeaeLimit(profile).Practical);
        Assert.DoesNotContain(
            late.PlanOf(Brood1).Actions,
            action => action.Code == ActionCodes.RaiseSalinity
        );
    }

    private static KeptJournal Begun() =>
        WithBrood()
            .Write(
                At(4, 20),
                new VesselSetUp(SeaJar, "Sea jar", VesselRole.LarvalVessel, TypedNumber.Of(25, "L"))
            )
            .Write(At(4, 20), new AnimalAcquired(Lara, "Lara", "Macrobrachium lar", Sex.Female, Tank))
            .Write(At(5, 12, 8), new AnimalSeenBerried(Lara, Brood2, "Brood 2"));
}
