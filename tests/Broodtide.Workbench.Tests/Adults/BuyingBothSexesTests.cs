using Broodtide.Units;
using Broodtide.Workbench.Adults;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Tests.Adults;

public class BuyingBothSexesTests
{
    private static readonly SpeciesProfile Profile = SpeciesProfiles.Reference;
    private static readonly Probability NineInTen = Probability.FromFraction(0.9);

    [Fact]
    public void Graded_lots_ask_for_more_animals_than_a_plain_binomial_promises()
    {
        var buying = BuyingBothSexes.Of(Profile, new(NineInTen));

        // Binomial: 1 - 2 (1/2)^n >= 0.9 from n = 5. A beta of 2 and 2: 1 - 12 / ((n + 2)(n + 3)) >= 0.9 from n = 9.
        Assert.Equal(5, buying.AnimalsIfEven);
        Assert.Equal(9, buying.Animals);
        Assert.True(buying.AnimalsByLot.OneSidedLot > buying.Animals);
        Assert.Contains(buying.Remarks, remark => remark.Code is "buy-lots-are-graded");
        Assert.Contains(buying.Remarks, remark => remark.Code is "buy-share-assumed");
    }

    [Fact]
    public void The_share_of_the_lot_is_that_of_the_profile()
    {
        var share = BuyingBothSexes.Of(Profile, new(NineInTen)).FemaleShare;

        Assert.Equal(0.135, share.Low, 0.002);
        Assert.Equal(0.5, share.Middle, 0.002);
        Assert.Equal(0.865, share.High, 0.002);
    }

    [Fact]
    public void Two_shops_need_fewer_animals_than_one()
    {
        var one = BuyingBothSexes.Of(Profile, new(Probability.FromFraction(0.95)));
        var two = BuyingBothSexes.Of(Profile, new(Probability.FromFraction(0.95), Lots: 2));

        Assert.True(two.Animals < one.Animals);
        Assert.All(
            one.Rows.Zip(two.Rows),
            rows => Assert.True(rows.Second.Chance.Value >= rows.First.Chance.Value - 1e-12)
        );
    }

    [Fact]
    public void A_keepers_own_count_of_lots_moves_the_answer()
    {
        var chosen = Profile.With([
            new ProfileChoice(
                AdultQuantityCodes.LotFemaleShare,
                0.5,
                0.4,
                0.6,
                "1",
                "counted twelve lots",
                "keeper",
                Instant.FromUtc(2026, 1, 1, 0, 0)
            ),
        ]);

        Assert.InRange(BuyingBothSexes.Of(chosen, new(NineInTen)).Animals!.Value, 5, 6);
    }

    [Fact]
    public void More_females_wanted_are_more_animals_and_what_no_hundred_reach_is_told()
    {
        var pair = BuyingBothSexes.Of(Profile, new(NineInTen));
        var group = BuyingBothSexes.Of(Profile, new(NineInTen, Females: 3, Males: 2));

        Assert.True(group.Animals > pair.Animals);
        Assert.Null(BuyingBothSexes.Of(Profile, new(Probability.FromFraction(0.9999), 3, 3)).Animals);
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            BuyingBothSexes.Of(Profile, new(NineInTen, Lots: 9))
        );
    }
}
