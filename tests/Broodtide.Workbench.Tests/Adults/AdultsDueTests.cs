using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Adults;

public class AdultsDueTests
{
    private static AnimalId Second => new(Fixed(41));

    private static BroodId Brood2 => new(Fixed(42));

    private static KeptJournal Bought(Sex? first, Sex? second) =>
        new KeptJournal()
            .Write(At(5, 1), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(5, 1), new AnimalAcquired(Female, "A", "Caridina multidentata", first, Tank))
            .Write(At(5, 1), new AnimalAcquired(Second, "B", "Caridina multidentata", second, Tank));

    private static IReadOnlyList<DueItem> Due(KeptJournal kept, Instant now) =>
        Outlook.Of(kept.Account(), now, Zone).Due.Items;

    [Fact]
    public void New_animals_of_one_day_are_one_item_with_copper_and_disease_minded()
    {
        var item = Assert.Single(
            Due(Bought(null, null), At(5, 2)),
            item => item.Action.Code is ActionCodes.KeepNewApart
        );

        Assert.Equal(2, item.Action.Reason["number"]);
        Assert.Contains(CautionCode.Copper, item.Action.Cautions);
        Assert.Contains(CautionCode.Disease, item.Action.Cautions);
        Assert.Equal(At(5, 1) + Duration.FromDays(28), item.Action.By);
    }

    [Fact]
    public void A_missing_male_is_asked_for_with_a_number_that_knows_of_graded_lots()
    {
        var item = Assert.Single(
            Due(Bought(Sex.Female, Sex.Female), At(5, 2)),
            item => item.Action.Code is ActionCodes.GetOtherSex
        );

        Assert.Equal("adult-no-male", item.Action.Reason.Code);
        // 1 - 6 B(n + 2, 2) >= 0.95 from n = 9; a plain binomial would say five.
        Assert.Equal(9, item.Action.Reason["animals"]);
        Assert.DoesNotContain(
            Due(Bought(Sex.Female, Sex.Male), At(5, 2)),
            item => item.Action.Code is ActionCodes.GetOtherSex
        );
    }

    [Fact]
    public void A_soft_female_is_not_asked_into_the_box()
    {
        var kept = WithBrood(readingDays: 24)
            .Write(At(5, 24, 9), new EggsObserved(Brood1, true, true, EggColour.Pale));
        var before = Due(kept, At(5, 24, 10)).First(item => item.Action.Code is ActionCodes.Isolate).Action;
        kept.Write(At(5, 24, 10), new AnimalMoulted(Female));
        var after = Due(kept, At(5, 24, 11)).First(item => item.Action.Code is ActionCodes.Isolate).Action;

        Assert.True(before.From <= At(5, 24, 11));
        Assert.Equal(At(5, 25, 10), after.From);
        Assert.True(after.By >= after.From);
        Assert.Equal(
            TonightDeed.LetHerHarden,
            Assert.Single(Outlook.Of(kept.Account(), At(5, 24, 19), Zone).Tonight.Rows).Deed
        );
        Assert.Equal(
            "isolate-wait-she-moulted",
            IsolatingSteps.IntoTheBox(kept.House(), kept.House().Brood(Brood1), At(5, 24, 19))[0].Code
        );
    }

    [Fact]
    public void She_goes_back_two_nights_after_the_last_larvae_and_not_while_soft()
    {
        var kept = WithBrood()
            .Write(At(5, 20), new VesselSetUp(Box, "Box", VesselRole.HatchingBox))
            .Write(At(5, 26, 19), new AnimalIsolated(Female, Box, Brood1))
            .Write(At(5, 28, 1), new CollectionMade(Collection1, Brood1, Box, null, 200));
        var back = Due(kept, At(5, 28, 9))
            .Single(item => item.Action.Code is ActionCodes.ReturnFemale)
            .Action;
        Assert.Equal(At(5, 28, 1) + Duration.FromHours(40), back.From);
        // A second pulse comes days later: nobody has seen her empty.
        Assert.Equal("adult-look-whether-empty", back.Reason.Code);

        kept.Write(At(5, 29, 12), new AnimalMoulted(Female));
        var soft = Due(kept, At(5, 29, 13))
            .Single(item => item.Action.Code is ActionCodes.ReturnFemale)
            .Action;
        Assert.Equal(At(5, 30, 12), soft.From);
        Assert.Equal("adult-back-when-hard", soft.Reason.Code);

        kept.Write(At(5, 30, 13), new AnimalReturned(Female, Tank));
        Assert.DoesNotContain(Due(kept, At(5, 30, 14)), item => item.Action.Code is ActionCodes.ReturnFemale);
    }

    [Fact]
    public void The_evening_list_puts_the_likeliest_brood_first()
    {
        var kept = WithBrood()
            .Write(At(5, 3), new AnimalAcquired(Second, "B", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(5, 11, 20), new AnimalSeenEmpty(Second))
            .Write(At(5, 12, 20), new AnimalSeenBerried(Second, Brood2));
        var outlook = Outlook.Of(kept.Account(), At(5, 26, 19), Zone);
        var tonight = outlook.Tonight;

        Assert.Equal([Brood1, Brood2], tonight.Rows.Select(row => row.Brood));
        Assert.Equal(new LocalDate(2026, 5, 26), tonight.Evening);
        // If none are out by now, the chance up to the next noon, of the forecast itself.
        var forecast = outlook.ForecastOf(Brood1)!;
        var night = forecast.Nights.Single(one => one.Evening == tonight.Evening);
        Assert.InRange(tonight.Rows[0].Chance.Value, 0.5 * night.Chance.Value, 2 * night.Chance.Value);
        Assert.Equal(
            1 - (tonight.Rows[0].Chance.Opposite * tonight.Rows[1].Chance.Opposite),
            tonight.Any.Value,
            1e-12
        );
    }

    [Fact]
    public void After_the_first_larvae_the_list_asks_for_more()
    {
        var kept = WithBrood().Write(At(5, 27, 1), new HatchingSeen(Brood1, Tank));
        var row = Assert.Single(Outlook.Of(kept.Account(), At(5, 27, 20), Zone).Tonight.Rows);

        Assert.Equal(TonightDeed.MoreMayFollow, row.Deed);
        kept.Write(At(5, 28, 9), new HatchingSeen(Brood1, Tank, Over: true));
        Assert.Empty(Outlook.Of(kept.Account(), At(5, 28, 20), Zone).Tonight.Rows);
    }

    [Fact]
    public void Sexes_are_counted_within_a_species_and_one_unknown_does_not_silence_the_others()
    {
        var other = new AnimalId(Fixed(51));
        var twoSpecies = Bought(Sex.Female, Sex.Female)
            .Write(At(5, 1), new AnimalAcquired(other, "M", "Macrobrachium lar", Sex.Male, Tank));
        Assert.Equal(
            "adult-no-male",
            Assert
                .Single(Due(twoSpecies, At(5, 2)), item => item.Action.Code is ActionCodes.GetOtherSex)
                .Action.Reason.Code
        );

        var unknown = Bought(Sex.Female, Sex.Female)
            .Write(At(5, 1), new AnimalAcquired(other, "M", "Macrobrachium lar", null, Tank));
        Assert.Contains(Due(unknown, At(5, 2)), item => item.Action.Code is ActionCodes.GetOtherSex);
        Assert.Contains(Due(unknown, At(5, 3)), item => item.Action.Code is ActionCodes.SexAdults);
    }

    [Fact]
    public void Nobody_asks_for_a_male_while_one_carries()
    {
        var kept = Bought(Sex.Female, Sex.Female).Write(At(5, 3), new AnimalSeenBerried(Second, Brood2));

        Assert.DoesNotContain(Due(kept, At(5, 4)), item => item.Action.Code is ActionCodes.GetOtherSex);
    }
}
