using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Adults;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Adults;

public class FemaleHistoryTests
{
    private static BroodId Brood2 => new(Fixed(20));

    private static CollectionId Collection2 => new(Fixed(21));

    // Two clutches: laid after written moults, hatched 25 days later, the second nine days after the first hatched.
    private static KeptJournal TwoClutches() =>
        new KeptJournal()
            .Write(At(4, 1), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 1), new AnimalAcquired(Female, "Mila", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(4, 2, 9), new AnimalMoulted(Female))
            .Write(At(4, 3, 9), new AnimalSeenBerried(Female, Brood1))
            .Write(At(4, 4), new ReadingTaken(TypedNumber.Of(25, "Cel"), Tank))
            .Write(At(4, 20), new ReadingTaken(TypedNumber.Of(27, "Cel"), Tank))
            .Write(At(4, 28, 1), new CollectionMade(Collection1, Brood1, Tank, null, 200, CountMethod.Beam))
            .Write(At(4, 29, 1), new CollectionMade(Collection2, Brood1, Tank, null, 30, CountMethod.Beam))
            .Write(At(5, 7, 9), new AnimalMoulted(Female))
            .Write(At(5, 8, 9), new AnimalSeenBerried(Female, Brood2));

    [Fact]
    public void A_moult_before_the_eggs_dates_the_laying()
    {
        var house = TwoClutches().House();
        var history = FemaleHistory.Of(house, house.Animal(Female), At(5, 10), Zone);

        Assert.Equal(At(4, 2, 9), history.Clutches[0].Laid!.Moult!.Value.Latest);
        Assert.Equal(At(4, 2, 9), history.Clutches[0].Laid!.From);
        Assert.Equal(At(4, 3, 9), history.Clutches[0].Laid!.To);
        Assert.Equal(At(5, 7, 9), history.Clutches[1].Laid!.Moult!.Value.Latest);
    }

    [Fact]
    public void Trickles_are_several_collections_of_one_brood()
    {
        var house = TwoClutches().House();
        var first = FemaleHistory.Of(house, house.Animal(Female), At(5, 10), Zone).Clutches[0];

        Assert.Equal(230, first.Larvae);
        Assert.Equal(2, first.Collections);
        Assert.Equal([new LocalDate(2026, 4, 27), new LocalDate(2026, 4, 28)], first.HatchNights);
        Assert.Equal(ClutchEnd.Hatched, first.End);
    }

    [Fact]
    public void Days_carried_and_between_broods_lie_between_what_entries_allow()
    {
        var house = TwoClutches().House();
        var clutches = FemaleHistory.Of(house, house.Animal(Female), At(5, 10), Zone).Clutches;

        Assert.Equal(24.67, clutches[0].CarriedDays!.Value.Least, 0.01);
        Assert.Equal(25.67, clutches[0].CarriedDays!.Value.Most, 0.01);
        Assert.Equal(34, clutches[1].SinceLastLaidDays!.Value.Least, 0.01);
        Assert.Equal(36, clutches[1].SinceLastLaidDays!.Value.Most, 0.01);
        Assert.Null(clutches[1].CarriedDays);
        Assert.Equal(ClutchEnd.Carried, clutches[1].End);
    }

    [Fact]
    public void The_temperature_that_followed_her_is_a_mean_over_the_time_she_carried()
    {
        var house = TwoClutches().House();
        var warmth = FemaleHistory.Of(house, house.Animal(Female), At(5, 10), Zone).Clutches[0].Warmth!;

        Assert.Equal(26, warmth.Mean.Celsius, 1e-6);
        Assert.Equal(25, warmth.Lowest.Celsius, 1e-6);
        Assert.Equal(27, warmth.Highest.Celsius, 1e-6);
        Assert.Equal(2, warmth.Readings);
    }

    [Fact]
    public void The_written_moult_narrows_the_spawning_of_the_forecast()
    {
        KeptJournal Story(bool moult)
        {
            var kept = new KeptJournal()
                .Write(At(5, 1), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
                .Write(
                    At(5, 1),
                    new AnimalAcquired(Female, "Mila", "Caridina multidentata", Sex.Female, Tank)
                );
            if (moult)
            {
                kept.Write(At(5, 9, 9), new AnimalMoulted(Female));
            }

            return kept.Write(At(5, 10, 9), new AnimalSeenBerried(Female, Brood1));
        }

        var with = Outlook.Of(Story(true).Account(), At(5, 11), Zone).ForecastOf(Brood1)!;
        var without = Outlook.Of(Story(false).Account(), At(5, 11), Zone).ForecastOf(Brood1)!;

        Assert.True(with.Spawning.Early >= At(5, 9, 8));
        Assert.True(with.Window90.Days < without.Window90.Days);
    }

    [Fact]
    public void She_may_carry_again_after_her_own_rests()
    {
        var outlook = Outlook.Of(TwoClutches().Account(), At(5, 10), Zone);
        var told = outlook.CarryAgainOf(outlook.House.Animal(Female));

        Assert.Equal(1, told.LearnedFrom);
        Assert.Equal(Brood2, told.After);
        // Laid about the seventh of May at about 25 degrees, hatching about 25 days later, and a rest of about nine days.
        Assert.InRange(told.When!.Middle, At(6, 3), At(6, 16));
        Assert.True(told.When.Early < told.When.Middle && told.When.Middle < told.When.Late);
        Assert.Contains(told.Remarks, remark => remark.Code is "carry-rest-learned");
    }

    [Fact]
    public void A_drop_lets_her_carry_sooner_or_as_late_as_if_she_had_not()
    {
        var kept = new KeptJournal()
            .Write(At(5, 1), new AnimalAcquired(Female, "Mila", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(5, 2), new AnimalSeenBerried(Female, Brood1))
            .Write(At(5, 6), new EggsDropped(Brood1));
        var outlook = Outlook.Of(kept.Account(), At(5, 7), Zone);
        var told = outlook.CarryAgainOf(outlook.House.Animal(Female));

        Assert.Contains(told.Remarks, remark => remark.Code is "carry-after-a-drop");
        Assert.True(told.When!.Early < At(5, 10));
        Assert.True(told.When.Late > At(5, 27));
    }

    [Fact]
    public void Of_a_female_that_never_carried_nothing_is_told()
    {
        var kept = new KeptJournal().Write(
            At(5, 1),
            new AnimalAcquired(Female, "Mila", null, Sex.Female, Tank)
        );
        var outlook = Outlook.Of(kept.Account(), At(5, 7), Zone);

        Assert.Null(outlook.CarryAgainOf(outlook.House.Animal(Female)).When);
    }
}
