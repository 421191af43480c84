using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Females;

public class BothKindsTests
{
    // Geissler's families of twelve in Saxony, 1876 to 1885, the sixth child left out of thirteen: number of boys 0 to 12
    // (Lindsey and Altham 1998, Applied Statistics 47:149-157; the table and the fit stand in the encyclopaedia article on
    // the beta-binomial distribution).
    private static readonly int[] Families = [3, 24, 104, 286, 670, 1033, 1343, 1112, 829, 478, 181, 45, 7];
    private static readonly double[] Expected =
    [
        2.3,
        22.6,
        104.8,
        310.9,
        655.7,
        1036.2,
        1257.9,
        1182.1,
        853.6,
        461.9,
        177.9,
        43.8,
        5.2,
    ];
    private static readonly BetaBelief Saxony = new(34.09558, 31.5715);

    [Fact]
    public void Families_of_twelve_are_expected_as_published()
    {
        var all = Families.Sum();
        for (var boys = 0; boys <= 12; boys++)
        {
            var least = BothKinds.Chance([12], Saxony, boys, 12 - boys).Value;
            Assert.Equal(Expected[boys], all * least, 0.05);
        }
    }

    [Fact]
    public void The_likelihood_of_the_families_is_the_published_one()
    {
        var log = Families
            .Select(
                (number, boys) => number * Math.Log(BothKinds.Chance([12], Saxony, boys, 12 - boys).Value)
            )
            .Sum();

        Assert.Equal(-12492.9, log, 0.05);
    }

    [Fact]
    public void With_every_share_as_likely_every_number_is_as_likely()
    {
        // Laplace: with a flat share each of the n + 1 numbers has the chance 1 / (n + 1).
        for (var n = 2; n <= 30; n++)
        {
            Assert.Equal(1 - (2.0 / (n + 1)), BothKinds.Chance([n], BetaBelief.Flat, 1, 1).Value, 1e-12);
        }
    }

    [Theory]
    [InlineData(2, 2, 7, 1, 1)]
    [InlineData(2, 2, 12, 2, 1)]
    [InlineData(0.7, 1.9, 20, 3, 2)]
    [InlineData(40, 60, 9, 2, 2)]
    public void An_urn_that_gets_back_what_is_drawn_and_one_more_says_the_same(
        double a,
        double b,
        int n,
        int first,
        int second
    )
    {
        // Pólya's urn, drawn one by one: an independent way to the same numbers, without any gamma function.
        var chance = new double[n + 1];
        chance[0] = 1;
        for (var drawn = 0; drawn < n; drawn++)
        {
            for (var of = drawn + 1; of >= 0; of--)
            {
                var stays = of <= drawn ? chance[of] * (b + drawn - of) / (a + b + drawn) : 0;
                var comes = of > 0 ? chance[of - 1] * (a + of - 1) / (a + b + drawn) : 0;
                chance[of] = stays + comes;
            }
        }

        var wanted = Enumerable.Range(first, n - first - second + 1).Sum(of => chance[of]);
        Assert.Equal(wanted, BothKinds.Chance([n], new BetaBelief(a, b), first, second).Value, 1e-12);
    }

    [Fact]
    public void A_plain_binomial_promises_too_much()
    {
        // Four animals of one lot: one in eight all alike if every animal falls alone, two in seven if lots are sorted
        // as a beta of 2 and 2.
        Assert.Equal(1 - 0.125, BothKinds.ChanceAt(4, Probability.FromFraction(0.5), 1, 1).Value, 1e-12);
        Assert.Equal(1 - (2.0 / 7), BothKinds.Chance([4], new(2, 2), 1, 1).Value, 1e-12);
    }

    [Fact]
    public void Two_lots_are_better_than_one_and_a_lot_nobody_buys_from_changes_nothing()
    {
        BetaBelief share = new(2, 2);
        var one = BothKinds.Chance([8], share, 1, 1).Value;
        var two = BothKinds.Chance([4, 4], share, 1, 1).Value;

        Assert.True(two > one);
        Assert.Equal(one, BothKinds.Chance([8, 0], share, 1, 1).Value, 1e-12);
    }

    [Fact]
    public void The_fewest_reach_the_chance_and_one_less_does_not()
    {
        BetaBelief share = new(2, 2);
        Probability Of(int n) => BothKinds.Chance([n], share, 1, 1);
        var fewest = BothKinds.Fewest(Probability.FromFraction(0.95), Of, 200)!.Value;

        Assert.True(Of(fewest).Value >= 0.95);
        Assert.True(Of(fewest - 1).Value < 0.95);
        Assert.Null(BothKinds.Fewest(Probability.FromFraction(0.9999), Of, 20));
    }

    [Fact]
    public void What_is_no_number_of_animals_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BothKinds.Chance([-1], BetaBelief.Flat, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BothKinds.Chance([501], BetaBelief.Flat, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BothKinds.Chance([5], BetaBelief.Flat, -1, 1));
    }
}
