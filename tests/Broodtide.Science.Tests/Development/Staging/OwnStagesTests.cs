using Broodtide.Science.Development.Staging;

namespace Broodtide.Science.Tests.Development.Staging;

public sealed class OwnStagesTests
{
    private static readonly double[] TrueCuts = [40, 85, 135, 190];
    private const double TrueFactor = 0.7;

    [Fact]
    public void The_budworm_samples_tell_every_boundary_as_the_published_refit_does()
    {
        var told = OwnStages.Of(BudwormTests.Samples(), 7);
        double[] published = [120.039, 204.665, 264.590, 341.291, 464.477, 595.707];
        Assert.Equal(6, told.Boundaries.Count);
        Assert.All(
            told.Boundaries.Zip(published),
            pair =>
            {
                Assert.Null(pair.First.Doubt);
                Assert.Equal(pair.Second, pair.First.ThermalAge!.Value.Middle, 5e-4);
                Assert.InRange(pair.First.ThermalAge!.Value.Width, 4, 60);
            }
        );
    }

    [Fact]
    public void The_order_of_samples_and_splitting_one_does_not_matter()
    {
        var samples = BudwormTests.Samples();
        var told = OwnStages.Of(samples, 7);
        var split = new StageSample(107, [10, 3, 0, 0, 0, 0, 0]);
        var rest = new StageSample(107, [13, 4, 0, 0, 0, 0, 0]);
        var other = OwnStages.Of(
            [split, .. samples.Where(sample => sample.ThermalAge is not 107).Reverse(), rest],
            7
        );
        Assert.Equal(told.Boundaries, other.Boundaries);
    }

    [Fact]
    public void Without_samples_or_with_two_it_says_that_they_are_too_few()
    {
        Assert.All(
            OwnStages.Of([], 5).Boundaries,
            boundary => Assert.Equal(StageDoubt.TooFewSamples, boundary.Doubt)
        );
        var two = OwnStages.Of([new(40, [8, 8, 0]), new(60, [3, 9, 2]), new(60, [3, 9, 2])], 3);
        Assert.False(two.TellsAnything);
        Assert.All(two.Boundaries, boundary => Assert.Equal(StageDoubt.TooFewSamples, boundary.Doubt));
    }

    [Fact]
    public void Larvae_all_in_one_stage_tell_no_boundary()
    {
        var told = OwnStages.Of([new(10, [8, 0, 0]), new(20, [9, 0, 0]), new(30, [7, 0, 0])], 3);
        Assert.All(told.Boundaries, boundary => Assert.Equal(StageDoubt.OneStageOnly, boundary.Doubt));
    }

    [Fact]
    public void Stages_that_follow_each_other_cleanly_leave_the_spread_open()
    {
        var told = OwnStages.Of([new(10, [8, 0, 0]), new(20, [4, 5, 0]), new(30, [0, 7, 0])], 3);
        Assert.All(told.Boundaries, boundary => Assert.Equal(StageDoubt.NoOverlap, boundary.Doubt));
    }

    [Fact]
    public void A_boundary_that_is_not_bracketed_is_left_open_with_its_reason()
    {
        // Five stages; the first, the fourth and the last were never seen.
        var told = OwnStages.Of(
            [
                new(80, [0, 9, 3, 0, 0]),
                new(90, [0, 6, 6, 0, 0]),
                new(100, [0, 2, 10, 0, 0]),
                new(110, [0, 1, 11, 0, 0]),
            ],
            5
        );
        Assert.Equal(
            [StageDoubt.NoneBefore, null, StageDoubt.NoneBeyond, StageDoubt.NoneBeyond],
            told.Boundaries.Select(boundary => boundary.Doubt)
        );
        Assert.Equal([2, 3], told.SeenStages);
        var skipped = OwnStages.Of(
            [new(80, [9, 0, 3]), new(90, [6, 0, 6]), new(100, [2, 0, 10]), new(110, [1, 0, 11])],
            3
        );
        Assert.All(skipped.Boundaries, boundary => Assert.Equal(StageDoubt.StageNeverSeen, boundary.Doubt));
    }

    [Fact]
    public void More_larvae_at_each_look_narrow_the_boundaries()
    {
        StageSample[] few = [.. Ages(6).Select(age => Expected(age, 12))];
        StageSample[] many = [.. Ages(6).Select(age => Expected(age, 120))];
        Assert.All(
            OwnStages.Of(few, 5).Boundaries.Zip(OwnStages.Of(many, 5).Boundaries),
            pair =>
                Assert.True(
                    pair.Second.ThermalAge!.Value.Width
                        < 0.5 * (pair.First.ThermalAge?.Width ?? double.MaxValue)
                )
        );
    }

    [Theory]
    [InlineData(6, 20, 0)]
    [InlineData(8, 15, 0.05)]
    [InlineData(12, 30, 0.1)]
    public void Nine_intervals_in_ten_hold_the_boundary_they_speak_of(int looks, int larvae, double alike)
    {
        // Larvae of one look drawn alike: Dirichlet-multinomial with the correlation given.
        var dice = new Random(20_251_125);
        var (held, told) = (0, 0);
        for (var run = 0; run < 400; run++)
        {
            StageSample[] samples = [.. Ages(looks).Select(age => Drawn(dice, age, larvae, alike))];
            foreach (var (boundary, truth) in OwnStages.Of(samples, 5).Boundaries.Zip(TrueCuts))
            {
                told += boundary.ThermalAge is null ? 0 : 1;
                held += boundary.ThermalAge is { } age && age.Contains(truth) ? 1 : 0;
            }
        }

        Assert.True(told > 1000, $"{told} told");
        Assert.InRange((double)held / told, 0.86, 0.97);
        TestContext.Current.TestOutputHelper?.WriteLine($"{held} of {told}: {(double)held / told:F3}");
    }

    private static IEnumerable<double> Ages(int looks) =>
        Enumerable.Range(1, looks).Select(look => 230.0 * look / looks);

    private static StageSample Expected(double age, int larvae) =>
        new(
            age,
            [
                .. new StageBoundaries(TrueCuts, TrueFactor)
                    .Shares(age)
                    .Select(s => (int)Math.Round(s * larvae)),
            ]
        );

    private static StageSample Drawn(Random dice, double age, int larvae, double alike)
    {
        // Written apart from the library: normal-free, by the logistic law itself.
        double Below(int j) =>
            j >= TrueCuts.Length ? 1 : 1 / (1 + Math.Exp((age - TrueCuts[j]) / Math.Sqrt(TrueFactor * age)));
        double[] shares = [.. Enumerable.Range(0, 5).Select(j => Below(j) - (j == 0 ? 0 : Below(j - 1)))];
        if (alike > 0)
        {
            var size = (1 - alike) / alike;
            double[] drawn =
            [
                .. shares.Select(share =>
                    share * size < 1e-9
                        ? 0
                        : MathNet.Numerics.Distributions.Gamma.Sample(dice, share * size, 1)
                ),
            ];
            shares = [.. drawn.Select(value => value / drawn.Sum())];
        }

        var counts = new int[5];
        for (var i = 0; i < larvae; i++)
        {
            var at = dice.NextDouble();
            var stage = 0;
            for (; stage < 4 && at > shares[stage]; stage++)
            {
                at -= shares[stage];
            }

            counts[stage]++;
        }

        return new(age, counts);
    }
}
