using Broodtide.Science.Counting;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Counting;

public sealed class CountLawsTests
{
    private static readonly Probability Level = Probability.FromFraction(0.9);

    private static readonly Gen<Probability> Fractions = Gen.Double[0.01, 0.95]
        .Select(Probability.FromFraction);

    [Fact]
    public void Poisson_limits_hold_the_count_and_rise_with_it() =>
        Gen.Int[0, 5000]
            .Sample(seen =>
            {
                var limits = PoissonCount.Garwood(seen, Level);
                var next = PoissonCount.Garwood(seen + 1, Level);
                Assert.True(limits.Contains(seen));
                Assert.True(next.Lower > limits.Lower && next.Upper > limits.Upper);
            });

    [Fact]
    public void None_seen_in_a_fraction_leaves_a_finite_upper_limit() =>
        Fractions.Sample(fraction =>
        {
            var none = new KnownFraction(0, fraction);
            Assert.Equal(0, none.Limits(Level).Lower);
            Assert.True(double.IsFinite(none.Limits(Level).Upper));
            Assert.True(double.IsFinite(none.Posterior(CountPrior.Flat).ToInterval().High));
            Assert.Throws<ArgumentException>(() => none.Posterior(CountPrior.Reciprocal));
        });

    [Fact]
    public void Limits_of_a_known_fraction_hold_the_estimate_and_rise_with_the_count() =>
        Gen.Select(Gen.Int[0, 400], Fractions)
            .Sample(
                (seen, fraction) =>
                {
                    var (count, more) = (
                        new KnownFraction(seen, fraction),
                        new KnownFraction(seen + 1, fraction)
                    );
                    var (limits, next) = (count.Limits(Level), more.Limits(Level));
                    Assert.True(limits.Contains(Math.Round(count.Estimate)), $"{limits} {count.Estimate}");
                    Assert.True(next.Lower >= limits.Lower && next.Upper >= limits.Upper);
                    Assert.True(limits.Lower >= seen);
                }
            );

    [Fact]
    public void A_small_fraction_is_nearly_Poisson_and_a_large_one_far_narrower()
    {
        var garwood = PoissonCount.Garwood(60, Level);
        var small = new KnownFraction(60, Probability.FromFraction(0.01)).Limits(Level);
        var large = new KnownFraction(60, Probability.FromFraction(0.6)).Limits(Level);
        Assert.Equal(garwood.Upper / 0.01, small.Upper, 0.02 * small.Upper);
        Assert.True(large.Upper - large.Lower < 0.7 * (garwood.Upper - garwood.Lower) / 0.6);
        Assert.Equal(
            new Limits(60, 60, Level),
            new KnownFraction(60, Probability.FromFraction(1)).Limits(Level)
        );
    }

    [Fact]
    public void One_count_combined_with_nothing_is_itself() =>
        Gen.Select(Gen.Int[1, 300], Fractions)
            .Sample(
                (seen, fraction) =>
                {
                    var one = new KnownFraction(seen, fraction);
                    var alone = one.Posterior(CountPrior.Reciprocal);
                    var combined = CombinedCounts.Posterior([one], CountPrior.Reciprocal);
                    // Where a cumulative probability is 0.5 to the last digit, rounding chooses between neighbours.
                    Assert.InRange(combined.ToInterval().Low - alone.ToInterval().Low, -1, 1);
                    Assert.InRange(combined.ToInterval().Middle - alone.ToInterval().Middle, -1, 1);
                    Assert.InRange(combined.ToInterval().High - alone.ToInterval().High, -1, 1);
                    Assert.Equal(alone.Mean, combined.Mean, 1e-6 * alone.Mean);
                }
            );

    [Fact]
    public void A_second_count_narrows_and_the_order_does_not_matter()
    {
        KnownFraction[] both =
        [
            new(24, Probability.FromFraction(0.02)),
            new(700, Probability.FromFraction(0.6)),
        ];
        var combined = CombinedCounts.Posterior(both, CountPrior.Flat);
        Assert.True(
            combined.StandardDeviation < both.Min(one => one.Posterior(CountPrior.Flat).StandardDeviation)
        );
        Assert.Equal(
            combined.ToInterval(),
            CombinedCounts.Posterior([both[1], both[0]], CountPrior.Flat).ToInterval()
        );
        Assert.True(combined.Least >= 700);
    }

    [Fact]
    public void Counts_too_large_for_single_steps_keep_their_moments()
    {
        // Far beyond forty thousand numbers each point stands for its neighbours.
        var one = new KnownFraction(40, Probability.FromFraction(1e-5));
        var exact = one.Posterior(CountPrior.Flat);
        var combined = CombinedCounts.Posterior([one], CountPrior.Flat);
        Assert.True(combined.Step > 1);
        Assert.Equal(exact.Mean, combined.Mean, 1e-4 * exact.Mean);
        Assert.Equal(exact.ToInterval().High, combined.ToInterval().High, 1e-3 * exact.Mean);
    }

    [Fact]
    public void Whole_counts_that_differ_contradict_each_other()
    {
        var all = Probability.FromFraction(1);
        Assert.Throws<ArgumentException>(() =>
            CombinedCounts.Posterior([new(5, all), new(6, all)], CountPrior.Flat)
        );
        var known = CombinedCounts.Posterior(
            [new(5, all), new(2, Probability.FromFraction(0.5))],
            CountPrior.Flat
        );
        Assert.Equal(Interval.Exactly(5), known.ToInterval());
    }

    [Fact]
    public void A_photo_of_well_known_detection_is_a_known_fraction()
    {
        var sharp = new BetaBelief(8e7, 2e7);
        var photo = PhotoCount.Posterior(new(340, sharp), CountPrior.Reciprocal, 2000);
        var known = new KnownFraction(340, Probability.FromFraction(0.8)).Posterior(CountPrior.Reciprocal);
        Assert.Equal(known.ToInterval(), photo.ToInterval());
        Assert.Equal(known.StandardDeviation, photo.StandardDeviation, 0.01);
    }

    [Fact]
    public void False_hits_lower_the_number_behind_a_photo()
    {
        var detection = BetaBelief.Flat.After(new Tally(80, 100));
        var clean = PhotoCount.Posterior(new(60, detection), CountPrior.InverseRoot, 1000);
        var dusty = PhotoCount.Posterior(new(60, detection, 20), CountPrior.InverseRoot, 1000);
        Assert.Equal(clean.Mean - (20 / 0.8), dusty.Mean, 2.5);
        Assert.True(dusty.StandardDeviation > clean.StandardDeviation);
        Assert.Equal(0, PhotoCount.Posterior(new(3, detection, 5), CountPrior.Flat, 1000).Least);
        Assert.True(
            PhotoCount.Posterior(new(0, detection), CountPrior.InverseRoot, 1000).ToInterval().High
                is > 0
                    and < 10
        );
    }

    [Fact]
    public void Two_lookers_never_find_less_than_they_saw() =>
        Gen.Select(Gen.Int[0, 200], Gen.Int[0, 200], Gen.Int[0, 200])
            .Sample(
                (both, firstAlone, secondAlone) =>
                {
                    var looks = new TwoLookers(both + firstAlone, both + secondAlone, both);
                    Assert.True(looks.Chapman >= both + firstAlone + secondAlone - 1e-9);
                    Assert.True(looks.ToInterval().Low >= both + firstAlone + secondAlone);
                }
            );

    [Fact]
    public void Two_lookers_who_share_nobody_have_no_finite_simple_estimate()
    {
        Assert.Throws<ArithmeticException>(() => new TwoLookers(5, 6, 0).Petersen);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TwoLookers(5, 6, 7));
    }

    [Fact]
    public void Clumped_limits_are_wider_than_even_ones_and_meet_them_where_clumping_ends() =>
        Gen.Select(Gen.Int[0, 200], Gen.Int[1, 10], Gen.Double[0.5, 50])
            .Sample(
                (sum, aliquots, k) =>
                {
                    var even = PoissonCount.Garwood(sum, Level).Times(1.0 / aliquots);
                    var clumped = ClumpedCount.MeanLimits(sum, new(aliquots, k), Level);
                    var hardly = ClumpedCount.MeanLimits(sum, new(aliquots, 1e7), Level);
                    Assert.True(clumped.Upper > even.Upper);
                    Assert.True(clumped.Upper - clumped.Lower > even.Upper - even.Lower);
                    Assert.Equal(even.Upper, hardly.Upper, 1e-3 * even.Upper);
                    Assert.True(clumped.Contains((double)sum / aliquots));
                }
            );

    [Fact]
    public void Strong_clumping_puts_the_upper_limit_very_far_but_not_at_a_wall()
    {
        // With size s = n k the chance of none is (1 + n m / s)^-s, so the upper limit of none has a closed form.
        var (aliquots, k, tail) = (5, 0.01, 0.05);
        var size = aliquots * k;
        var exact = Math.Log(size / aliquots) + (-Math.Log(tail) / size);
        Assert.Equal(exact, Math.Log(ClumpedCount.MeanLimits(0, new(aliquots, k), Level).Upper), 1e-9);
    }

    [Fact]
    public void Both_tails_of_the_index_of_dispersion_make_one() =>
        Gen.Int[0, 50]
            .Array[2, 12]
            .Where(counts => counts.Sum() > 0 && counts.Distinct().Count() > 1)
            .Sample(counts =>
            {
                var index = Dispersion.Of(counts);
                Assert.Equal(1, index.ClumpedChance.Value + index.RegularChance.Value, 1e-9);
                Assert.Equal(index.Variance > index.Mean, index.MomentClumping is not null);
            });

    [Fact]
    public void A_fit_finds_clumping_only_where_counts_vary_more_than_chance()
    {
        Assert.Null(ClumpedCount.Fit([new(5, 10), new(6, 10)]).Clumping);
        var fit = ClumpedCount.Fit([
            .. new[] { 3, 21, 8, 0, 17, 11, 2, 26 }.Select(c => new CountFrequency(c, 1)),
        ]);
        double At(double k) =>
            new[] { 3, 21, 8, 0, 17, 11, 2, 26 }.Sum(c => LogProbability.NegativeBinomial(c, fit.Mean, k));
        var best = fit.Clumping!.Value;
        Assert.Equal(At(best), fit.LogLikelihood, 1e-9);
        Assert.True(At(best) >= At(best * 1.001) && At(best) >= At(best / 1.001));
    }

    [Fact]
    public void More_aliquots_beat_bigger_ones_where_larvae_clump()
    {
        // Elliott 1977: with k = 4 one aliquot of any size keeps a coefficient of variation of 50 %.
        var need = AliquotPlanning.Need(12.2, 0.15, 1 / 4.0);
        Assert.Equal(0.5, need.LeastCvOfOne);
        Assert.Equal("aliquots-no-size-of-one-suffices", need.Limit.Code);
        Assert.Equal(15, need.Aliquots);
        Assert.Equal(13, need.AliquotsIfTwiceAsBig);
        Assert.Equal("aliquots-more-beat-bigger", AliquotPlanning.Need(12.2, 0.6, 1 / 4.0).Limit.Code);
        Assert.Equal("aliquots-number-seen-limits", AliquotPlanning.Need(2, 0.6, 1 / 4.0).Limit.Code);
        Assert.Equal(0.15, AliquotPlanning.Cv(15, 12.2, 0.25), 0.002);
    }

    [Fact]
    public void Numbers_that_are_no_numbers_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => AliquotPlanning.Need(double.NaN, 0.1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => AliquotPlanning.Need(5, double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new AliquotClumping(3, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChamberPart(1, double.NaN, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PoissonCount.Garwood(3, Probability.FromFraction(1))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => PoissonCount.Garwood(-1, Level));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PhotoCount.Posterior(new(3, BetaBelief.Flat, double.NaN), CountPrior.Flat, 100)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => new BetaBelief(double.NaN, 1));
    }
}
