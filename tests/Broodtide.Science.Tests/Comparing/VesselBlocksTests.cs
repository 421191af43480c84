using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;
using CsCheck;

namespace Broodtide.Science.Tests.Comparing;

/// <summary>Vessels dealt out within blocks, against the tests they become where blocks are single or of two.</summary>
public sealed class VesselBlocksTests
{
    // In steps of 1/1024, so that two sums are the same or clearly not: which of two sums is larger must not hang on a last digit.
    private static readonly Gen<double> Value = Gen.Int[0, 1024].Select(step => step / 1024.0);
    private static readonly Gen<double[]> Values = Value.Array[1, 4];

    // A power of two: nothing is rounded by it.
    private static readonly double Tiny = Math.ScaleB(1, -60);

    [Fact]
    public void One_block_is_the_test_between_groups() =>
        Gen.Select(Values, Values)
            .Sample(
                (first, second) =>
                {
                    var groups = VesselPermutation.OfGroups(first, second);
                    var blocks = VesselPermutation.OfBlocks([(first, second)]);
                    Assert.Equal(groups.P.Value, blocks.P.Value, 1e-12);
                    Assert.Equal(groups.SmallestP.Value, blocks.SmallestP.Value, 1e-12);
                    Assert.Equal(groups.Arrangements, blocks.Arrangements);
                }
            );

    [Fact]
    public void Blocks_of_two_are_the_test_of_pairs() =>
        Value
            .Array[2, 16]
            .Sample(all =>
            {
                var pairs = all.Chunk(2).Where(pair => pair.Length == 2).ToList();
                var paired = VesselPermutation.OfPairs([.. pairs.Select(pair => pair[0] - pair[1])]);
                var blocks = VesselPermutation.OfBlocks([
                    .. pairs.Select(pair =>
                        ((IReadOnlyList<double>)[pair[0]], (IReadOnlyList<double>)[pair[1]])
                    ),
                ]);
                Assert.Equal(paired.P.Value, blocks.P.Value, 1e-12);
                Assert.Equal(paired.SmallestP.Value, blocks.SmallestP.Value, 1e-12);
            });

    [Fact]
    public void The_unit_of_the_values_changes_nothing() =>
        Gen.Select(Values, Values)
            .Sample(
                (first, second) =>
                {
                    double[] small = [.. first.Select(value => value * Tiny)];
                    double[] other = [.. second.Select(value => value * Tiny)];
                    Assert.Equal(
                        VesselPermutation.OfGroups(first, second),
                        VesselPermutation.OfGroups(small, other)
                    );
                    Assert.Equal(
                        VesselPermutation.OfBlocks([(first, second)]),
                        VesselPermutation.OfBlocks([(small, other)])
                    );
                    Assert.Equal(VesselPermutation.OfPairs(first), VesselPermutation.OfPairs(small));
                }
            );

    [Fact]
    public void A_difference_between_hatches_does_not_hide_one_between_treatments()
    {
        // By hand: two hatches far apart, in each two vessels against two with 0.1 between them. Of 6 x 6 arrangements only the
        // one seen and its mirror reach it: 2 / 36. Without blocks the hatches drown it.
        double[][] first =
        [
            [0.20, 0.21],
            [0.80, 0.81],
        ];
        double[][] second =
        [
            [0.10, 0.11],
            [0.70, 0.71],
        ];
        var within = VesselPermutation.OfBlocks([(first[0], second[0]), (first[1], second[1])]);
        Assert.Equal(2.0 / 36, within.P.Value, 1e-12);
        Assert.Equal(2.0 / 36, within.SmallestP.Value, 1e-12);
        Assert.Equal(36, within.Arrangements);
        Assert.True(
            VesselPermutation
                .OfGroups([.. first.SelectMany(it => it)], [.. second.SelectMany(it => it)])
                .P.Value > 0.3
        );
    }

    [Fact]
    public void A_block_with_one_treatment_only_says_nothing()
    {
        var (one, other) = (new[] { 0.2, 0.3 }, new[] { 0.1, 0.15 });
        Assert.Equal(
            VesselPermutation.OfBlocks([(one, other)]),
            VesselPermutation.OfBlocks([(one, other), (new[] { 0.9 }, Array.Empty<double>())])
        );
        Assert.Throws<ArgumentException>(() => VesselPermutation.OfBlocks([(one, Array.Empty<double>())]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            VesselPermutation.OfBlocks([(one, new[] { double.NaN })])
        );
    }

    [Fact]
    public void Too_many_arrangements_are_drawn_and_come_near_to_all_of_them()
    {
        // Seven blocks of 2 and 2: 6 to the 7th are 279,936. Dealt by chance with nothing behind it p is spread evenly.
        var random = new Random(3);
        var ps = new List<double>();
        for (var set = 0; set < 60; set++)
        {
            var blocks = Enumerable
                .Range(0, 7)
                .Select(_ =>
                    (
                        (IReadOnlyList<double>)[random.NextDouble(), random.NextDouble()],
                        (IReadOnlyList<double>)[random.NextDouble(), random.NextDouble()]
                    )
                )
                .ToList();
            var outcome = VesselPermutation.OfBlocks(blocks);
            Assert.False(outcome.IsExact);
            ps.Add(outcome.P.Value);
        }

        Assert.InRange(ps.Average(), 0.36, 0.64);
    }

    [Fact]
    public void Two_arms_in_blocks_are_tested_within_them()
    {
        Tally[] first = [new(20, 100), new(21, 100), new(80, 100), new(81, 100)];
        Tally[] second = [new(10, 100), new(11, 100), new(70, 100), new(71, 100)];
        var arms = TwoArms.Of(first, second, blocks: [1, 1, 2, 2, 1, 1, 2, 2]);
        Assert.Equal(2.0 / 36, arms.Permutation!.P.Value, 1e-12);
        // With the hatch in the line the odds of the first are told apart from those of the second.
        Assert.True(arms.LogOddsRatio!.Value.Low > 0);
        Assert.True(TwoArms.Of(first, second).LogOddsRatio!.Value.Low < 0);
        Assert.False(TwoArms.Of([new(1, 2), new(1, 2)], [new(1, 2)], blocks: [1, 1, 2]).CanTest);
    }
}
