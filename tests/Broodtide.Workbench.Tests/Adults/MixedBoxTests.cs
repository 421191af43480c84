using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Adults;

public class MixedBoxTests
{
    private static AnimalId Other => new(Fixed(30));

    private static BroodId Brood2 => new(Fixed(31));

    private static KeptJournal TwoInOneBox(int otherBerried = 2) =>
        new KeptJournal()
            .Write(At(4, 1), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 1), new VesselSetUp(Box, "Box", VesselRole.HatchingBox))
            .Write(At(4, 1), new AnimalAcquired(Female, "Mila", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(4, 1), new AnimalAcquired(Other, "Nora", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(4, 1, 20), new AnimalSeenEmpty(Female))
            .Write(At(4, otherBerried - 1, 20), new AnimalSeenEmpty(Other))
            .Write(At(4, 2, 8), new AnimalSeenBerried(Female, Brood1))
            .Write(At(4, otherBerried, 8), new AnimalSeenBerried(Other, Brood2))
            .Write(At(4, 25, 19), new AnimalIsolated(Female, Box, Brood1))
            .Write(At(4, 25, 19), new AnimalIsolated(Other, Box, Brood2))
            .Write(At(4, 28, 1), new CollectionMade(Collection1, Brood1, Box, null, 300, CountMethod.Beam));

    [Fact]
    public void Two_clutches_of_one_age_are_told_as_halves_with_wide_shares()
    {
        var mixed = Outlook.Of(TwoInOneBox().Account(), At(4, 28, 9), Zone).MixedIn(Box)!;
        var gathering = Assert.Single(mixed.Gatherings);

        Assert.Equal(2, gathering.Parts.Count);
        Assert.Equal(1, gathering.Parts.Sum(part => part.Expected), 1e-9);
        Assert.Equal(0.5, gathering.Parts[0].Expected, 0.05);
        Assert.True(gathering.Parts[0].Share.Width > 0.5);
        Assert.Equal(300 * gathering.Parts[0].Share.High, gathering.Parts[0].Larvae!.Value.High, 1e-6);
        Assert.Contains(mixed.Remarks, remark => remark.Code is "mixed-look-who-is-empty");
    }

    [Fact]
    public void Seen_empty_and_seen_carrying_tell_whose_they_are()
    {
        var kept = TwoInOneBox()
            .Write(At(4, 28, 9), new AnimalSeenEmpty(Female))
            .Write(At(4, 28, 9), new EggsObserved(Brood2, Carried: true));
        var mixed = Outlook.Of(kept.Account(), At(4, 28, 10), Zone).MixedIn(Box)!;

        Assert.True(mixed.Gatherings[0].Parts[0].Expected > 0.95);
        Assert.True(mixed.Gatherings[0].Parts[0].Share.Low > 0.9);
        Assert.DoesNotContain(mixed.Remarks, remark => remark.Code is "mixed-look-who-is-empty");
    }

    [Fact]
    public void A_clutch_ten_days_younger_has_hardly_a_share()
    {
        var mixed = Outlook.Of(TwoInOneBox(otherBerried: 12).Account(), At(4, 28, 9), Zone).MixedIn(Box)!;

        Assert.True(mixed.Gatherings[0].Parts[0].Expected > 0.9);
    }

    [Fact]
    public void The_list_asks_who_is_empty_until_both_were_looked_at()
    {
        var due = Outlook.Of(TwoInOneBox().Account(), At(4, 28, 9), Zone).Due;
        Assert.Contains(due.Items, item => item.Action.Code is ActionCodes.SeeWhoIsEmpty);

        var kept = TwoInOneBox()
            .Write(At(4, 28, 9), new AnimalSeenEmpty(Female))
            .Write(At(4, 28, 9), new EggsObserved(Brood2, Carried: true));
        Assert.DoesNotContain(
            Outlook.Of(kept.Account(), At(4, 28, 10), Zone).Due.Items,
            item => item.Action.Code is ActionCodes.SeeWhoIsEmpty
        );
    }

    [Fact]
    public void A_box_of_one_female_holds_no_mixture()
    {
        var kept = new KeptJournal()
            .Write(At(4, 1), new VesselSetUp(Box, "Box", VesselRole.HatchingBox))
            .Write(At(4, 2, 8), new AnimalSeenBerried(Female, Brood1))
            .Write(At(4, 25, 19), new AnimalIsolated(Female, Box, Brood1))
            .Write(At(4, 28, 1), new CollectionMade(Collection1, Brood1, Box, null, 300));

        Assert.Null(Outlook.Of(kept.Account(), At(4, 28, 9), Zone).MixedIn(Box));
    }
}
