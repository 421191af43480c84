using Broodtide.Science.Comparing;
using Broodtide.Science.Trials;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Trials;

/// <summary>Beside the rows of the check file (design, compare, multiple, dose).</summary>
public sealed class TrialTests
{
    private static readonly Probability Level = Probability.FromFraction(0.05);

    [Fact]
    public void With_one_vessel_each_no_test_is_possible()
    {
        Assert.Equal(1, VesselPermutation.SmallestP(1, 1).Value);
        Assert.Equal(1, VesselPermutation.OfGroups([0.9], [0.1]).P.Value);
    }

    [Fact]
    public void Drawn_arrangements_agree_with_all_of_them()
    {
        // 11 against 11 have 705,432 arrangements, more than are looked at; 9 against 9 have 48,620.
        var random = new Random(3);
        double[] first = [.. Enumerable.Range(0, 11).Select(_ => random.NextDouble() + 0.25)];
        double[] second = [.. Enumerable.Range(0, 11).Select(_ => random.NextDouble())];
        var drawn = VesselPermutation.OfGroups(first, second);
        Assert.False(drawn.IsExact);
        // By the t distribution on 20 degrees of freedom, which permutation tests come near to for such numbers.
        var welch = Welch(first, second);
        Assert.Equal(welch, drawn.P.Value, 0.02);
        Assert.True(VesselPermutation.OfGroups(first[..9], second[..9]).IsExact);
    }

    [Fact]
    public void Two_treatments_change_places_without_changing_the_p() =>
        Gen.Select(Gen.Double[0, 1].Array[1, 6], Gen.Double[0, 1].Array[1, 6])
            .Sample(
                (first, second) =>
                {
                    var (one, other) = (
                        VesselPermutation.OfGroups(first, second),
                        VesselPermutation.OfGroups(second, first)
                    );
                    Assert.Equal(one.P.Value, other.P.Value, 1e-12);
                    Assert.True(
                        one.P.Value >= one.SmallestP.Value - 1e-12
                            || first.Concat(second).Distinct().Count() == 1
                    );
                }
            );

    [Fact]
    public void Pairs_reach_their_smallest_p_when_all_point_one_way()
    {
        var outcome = VesselPermutation.OfPairs([0.1, 0.2, 0.05, 0.3, 0.15]);
        Assert.Equal(0.0625, outcome.P.Value, 1e-12);
        Assert.Equal(0.0625, outcome.SmallestP.Value, 1e-12);
    }

    // Three against three reach 0.1 at best (2 of 20 arrangements): never a p of 0.05, whatever is true.
    [Fact]
    public void Three_against_three_find_nothing()
    {
        var power = TrialPower.Of(Wanted(0.1, 0.9), 3, 100, Probability.FromFraction(0.05), 1, 200);
        Assert.Equal(0, power.Power.Value);
        Assert.Equal(0.1, power.SmallestP.Value, 1e-12);
    }

    [Fact]
    public void The_level_of_the_test_is_kept_where_nothing_is_true()
    {
        var found = TrialPower.Of(Wanted(0.4, 0.4), 5, 60, Probability.FromFraction(0.1), 7, 1000);
        Assert.InRange(found.Power.Value, 0.02, 0.065);
    }

    // By formula 9.4 vessels of 200 larvae give a power of 0.8 (row design.containers_per_arm); the t and permutation
    // tests need a little more than the normal curve says.
    [Fact]
    public void The_formula_and_the_simulation_tell_much_the_same()
    {
        var found = TrialPower.Of(Wanted(0.3, 0.5), 10, 200, Probability.FromFraction(0.1), 11, 400);
        Assert.InRange(found.Power.Value, 0.68, 0.88);
    }

    [Fact]
    public void Every_block_holds_every_treatment_as_often_as_the_others() =>
        Gen.Select(Gen.Int[2, 6], Gen.Int[1, 5], Gen.Int[1, 4], Gen.Int)
            .Sample(
                (treatments, blocks, replicates, seed) =>
                {
                    var dealt = TrialLayout.Deal(treatments, blocks, replicates, seed);
                    Assert.Equal(dealt, TrialLayout.Deal(treatments, blocks, replicates, seed));
                    Assert.All(
                        dealt.GroupBy(vessel => (vessel.Block, vessel.Treatment)),
                        same => Assert.Equal(replicates, same.Count())
                    );
                    Assert.Equal(
                        treatments * blocks * replicates,
                        dealt.Select(v => (v.Block, v.Place)).Distinct().Count()
                    );
                }
            );

    [Fact]
    public void Dealing_puts_every_treatment_on_every_place()
    {
        var first = Enumerable.Range(0, 600).Select(seed => TrialLayout.Deal(3, 1, 1, seed)[0].Treatment);
        // 200 expected of each; the 99.9 % range of a binomial of 600 and 1/3 is 162 to 239.
        Assert.All(first.GroupBy(treatment => treatment), same => Assert.InRange(same.Count(), 162, 239));
    }

    [Fact]
    public void Holm_lies_between_the_two_other_rules() =>
        Gen.Double[0, 1]
            .Array[1, 12]
            .Sample(values =>
            {
                Probability[] p = [.. values.Select(Probability.FromFraction)];
                var bonferroni = ManyComparisons.Adjusted(p, ManyComparisonsRule.Bonferroni);
                var holm = ManyComparisons.Adjusted(p, ManyComparisonsRule.Holm);
                var screening = ManyComparisons.Adjusted(p, ManyComparisonsRule.BenjaminiHochberg);
                for (var i = 0; i < p.Length; i++)
                {
                    Assert.True(bonferroni[i].Value >= holm[i].Value - 1e-12);
                    Assert.True(holm[i].Value >= screening[i].Value - 1e-12);
                    Assert.True(screening[i].Value >= p[i].Value - 1e-12);
                }
            });

    [Fact]
    public void A_slope_that_could_be_none_has_no_limits_of_dose()
    {
        var flat = DoseResponse.Of([0, 1, 2], [new(5, 10), new(5, 10), new(6, 10)]);
        Assert.Null(flat.DoseWithin(Probability.FromFraction(0.5), Probability.FromFraction(0.95)));
    }

    [Fact]
    public void Losses_without_treatment_are_taken_off()
    {
        // Abbott 1925: of 90 % lost under treatment and 20 % without it, 87.5 % are the treatment's.
        Assert.Equal(
            0.875,
            NaturalLosses.Corrected(Probability.FromFraction(0.9), Probability.FromFraction(0.2)),
            1e-12
        );
    }

    private static WantedFind Wanted(double first, double second) =>
        new(
            Probability.FromFraction(first),
            Probability.FromFraction(second),
            Level,
            Probability.FromFraction(0.8)
        );

    private static double Welch(double[] first, double[] second)
    {
        var (a, b) = (first.Average(), second.Average());
        var error = Math.Sqrt(
            (first.Sum(x => Math.Pow(x - a, 2)) + second.Sum(x => Math.Pow(x - b, 2))) / (10 * 11)
        );
        return 2 * MathNet.Numerics.Distributions.StudentT.CDF(0, 1, 20, -Math.Abs((a - b) / error));
    }
}
