using Broodtide.Science.Pooling;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Pooling;

/// <summary>Beside the rows of the check file (meta_analysis), which come from BCG trials and metafor.</summary>
public sealed class PoolingTests
{
    private static readonly Probability NineInTen = Probability.FromFraction(0.9);

    [Fact]
    public void Runs_that_agree_leave_nothing_between_them()
    {
        var pooled = PooledRuns.Of([new(1, 0.2), new(1.01, 0.2), new(0.99, 0.4)]);
        Assert.Equal(0, pooled.BetweenVariance);
        // Weights 5, 5 and 2.5: a mean of 12.525 / 12.5 and an error of the root of 1 / 12.5, by hand.
        Assert.Equal(12.525 / 12.5, pooled.Mean, 1e-12);
        Assert.Equal(Math.Sqrt(1 / 12.5), pooled.StandardError, 1e-12);
    }

    [Fact]
    public void The_order_of_runs_does_not_matter() =>
        Gen.Select(Gen.Double[-2, 2], Gen.Double[0.01, 1])
            .Array[3, 12]
            .Sample(rows =>
            {
                RunEffect[] effects = [.. rows.Select(row => new RunEffect(row.Item1, row.Item2))];
                var (one, other) = (PooledRuns.Of(effects), PooledRuns.Of([.. effects.Reverse()]));
                Assert.Equal(one.Mean, other.Mean, 1e-9);
                Assert.Equal(one.BetweenVariance, other.BetweenVariance, 1e-7);
            });

    [Fact]
    public void The_restricted_likelihood_is_highest_at_the_variance_that_is_found() =>
        Gen.Select(Gen.Double[-2, 2], Gen.Double[0.01, 0.5])
            .Array[3, 15]
            .Sample(
                rows =>
                {
                    RunEffect[] effects = [.. rows.Select(row => new RunEffect(row.Item1, row.Item2))];
                    var found = PooledRuns.Of(effects).BetweenVariance;
                    var best = Restricted(effects, found);
                    foreach (var factor in (double[])[0.7, 0.9, 1.1, 1.4])
                    {
                        Assert.True(Restricted(effects, found * factor) <= best + 1e-9);
                    }

                    Assert.True(Restricted(effects, found + 0.01) <= best + 1e-9);
                },
                iter: 1000
            );

    // The likelihood falls from none, turns, and is highest at 0.125: computed beside this in steps of 1e-4.
    [Fact]
    public void A_likelihood_with_two_tops_is_followed_to_the_higher_one()
    {
        RunEffect[] effects =
        [
            new(-0.0032861205375862568, 0.125),
            new(0, 0.16428093696426876),
            new(0, 0.15047027336937197),
            new(1, 0.25),
            new(17.0 / 75, 1.0 / 3),
            new(-1.8589573473551502, 0.4091690656669832),
            new(0, 0.0593438522918473),
        ];
        Assert.Equal(0.1248, PooledRuns.Of(effects).BetweenVariance, 1e-4);
    }

    // Of 400 invented sets of eight runs, how far they differ drawn from what is believed beforehand, nine in ten hold the
    // next run: 344 to 375 by the coverage gate. The limits by t are known to be too narrow for few runs (Partlett and
    // Riley 2017, Stat. Med. 36:301) and get a wider gate; they are not what the next run is begun with.
    [Fact]
    public void The_next_run_lies_within_its_limits_nine_times_in_ten()
    {
        var random = new Random(20261126);
        var (next, few) = (0, 0);
        for (var set = 0; set < 400; set++)
        {
            var deviation = Math.Abs(Normal.Sample(random, 0, 0.5));
            var effects = Invented(random, 8, deviation).ToList();
            var truth = Normal.Sample(random, 0.3, deviation);
            next += PooledRuns.Of(effects).Next(NineInTen).Contains(truth) ? 1 : 0;
            few += FewRuns.Of(effects).Next.Contains(truth) ? 1 : 0;
        }

        Assert.InRange(few, 344, 375);
        Assert.InRange(next, 320, 375);
    }

    [Fact]
    public void Two_runs_and_a_belief_tell_more_than_two_runs_alone()
    {
        RunEffect[] effects = [new(0.2, 0.05), new(0.9, 0.08)];
        var few = FewRuns.Of(effects);
        var wide = PooledRuns.Of(effects).MeanWithin(NineInTen);
        Assert.True(few.Mean.Width < wide.Upper - wide.Lower);
        Assert.True(few.Next.Width > few.Mean.Width);
        Assert.InRange(few.Mean.Middle, 0.2, 0.9);
    }

    [Fact]
    public void One_run_is_believed_with_its_error_and_half_a_normal_curve_more()
    {
        // One run: the likelihood does not speak of the deviation, so its variance is the prior's 0.25 on average.
        var (mean, deviation) = FewRuns.Of([new(1, 0.04)]).NextMoments;
        Assert.Equal(1, mean, 1e-9);
        Assert.Equal(Math.Sqrt(0.04 + (2 * 0.25)), deviation, 2e-3);
    }

    [Fact]
    public void What_is_believed_of_the_mean_counts_like_a_run_without_a_truth_of_its_own()
    {
        // No run: half of the variance for the mean and half for the deviation is the whole again.
        var half = 0.3 / Math.Sqrt(2);
        var (mean, deviation) = FewRuns.Of([], half, new NormalBelief(2, half)).NextMoments;
        Assert.Equal(2, mean, 1e-12);
        Assert.Equal(0.3, deviation, 1e-3);
        // A belief so wide that it says nothing leaves the runs as they were without one.
        RunEffect[] effects = [new(0.2, 0.05), new(0.9, 0.08)];
        var (alone, with) = (FewRuns.Of(effects), FewRuns.Of(effects, mean: new NormalBelief(0, 1e5)));
        Assert.Equal(alone.Next.Low, with.Next.Low, 1e-6);
        Assert.Equal(alone.Mean.High, with.Mean.High, 1e-6);
    }

    [Fact]
    public void The_next_run_is_held_nine_times_in_ten_also_with_few_runs_and_a_belief()
    {
        var random = new Random(20261127);
        var half = 0.2 / Math.Sqrt(2);
        foreach (var runs in (int[])[1, 3])
        {
            var held = 0;
            for (var set = 0; set < 400; set++)
            {
                var mean = Normal.Sample(random, 3, half);
                var deviation = Math.Abs(Normal.Sample(random, 0, half));
                var effects = Enumerable
                    .Range(0, runs)
                    .Select(_ => Normal.Sample(random, mean, deviation))
                    .Select(truth => new RunEffect(Normal.Sample(random, truth, 0.05), 0.0025))
                    .ToList();
                var next = FewRuns.Of(effects, half, new NormalBelief(3, half)).Next;
                held += next.Contains(Normal.Sample(random, mean, deviation)) ? 1 : 0;
            }

            Assert.InRange(held, 344, 375);
        }
    }

    [Fact]
    public void What_a_run_says_alone_is_the_belief_after_it_less_the_belief_before() =>
        Gen.Select(Gen.Double[-3, 3], Gen.Double[0.1, 2], Gen.Double[-3, 3], Gen.Double[0.05, 1])
            .Sample(
                (mean, deviation, said, error) =>
                {
                    var before = new NormalBelief(mean, deviation);
                    var effect = RunEffect.Beyond(before, before.After([said], [error]));
                    var narrowed = 1 - (error * error / ((error * error) + (deviation * deviation)));
                    if (Math.Abs(narrowed - RunEffect.LeastNarrowed) < 1e-9)
                    {
                        // On the edge itself (a deviation of 1/3 and an error of 1) rounding decides; both are right.
                        return;
                    }

                    if (narrowed > RunEffect.LeastNarrowed)
                    {
                        Assert.Equal(said, effect!.Value.Estimate, 1e-6);
                        Assert.Equal(error * error, effect.Value.Variance, 1e-6);
                    }
                    else
                    {
                        Assert.Null(effect);
                    }
                }
            );

    [Fact]
    public void A_share_of_all_or_none_has_no_odds()
    {
        Assert.Null(RunEffect.LogOdds(new(0, 10)));
        Assert.Null(RunEffect.LogOdds(new(10, 10)));
        Assert.Null(RunEffect.LogRiskRatio(new(0, 10), new(3, 10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RunEffect(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RunEffect(1, 0));
    }

    [Fact]
    public void Too_few_runs_are_refused()
    {
        Assert.Throws<ArgumentException>(() => PooledRuns.Of([]));
        Assert.Throws<ArgumentException>(() => PooledRuns.Of([new(1, 1)]));
        var two = PooledRuns.Of([new(1, 1), new(2, 1)]);
        Assert.Throws<InvalidOperationException>(() => two.Next(NineInTen));
    }

    private static IEnumerable<RunEffect> Invented(Random random, int runs, double deviation)
    {
        for (var run = 0; run < runs; run++)
        {
            var variance = 0.05 + (0.2 * random.NextDouble());
            yield return new(
                Normal.Sample(random, Normal.Sample(random, 0.3, deviation), Math.Sqrt(variance)),
                variance
            );
        }
    }

    // Written out a second time: Viechtbauer 2005, equation 6, without constants.
    private static double Restricted(RunEffect[] effects, double between)
    {
        var weights = effects.Select(effect => 1 / (effect.Variance + between)).ToArray();
        var mean = effects.Zip(weights, (effect, weight) => effect.Estimate * weight).Sum() / weights.Sum();
        return -0.5
            * (
                weights.Sum(weight => -Math.Log(weight))
                + Math.Log(weights.Sum())
                + effects.Zip(weights, (effect, weight) => weight * Math.Pow(effect.Estimate - mean, 2)).Sum()
            );
    }
}
