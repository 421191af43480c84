using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class StatisticsPosteriorTests
{
    [Fact]
    public void An_observation_draws_the_belief_towards_it_and_narrows_it() =>
        Gen.Select(Gen.Double[-10, 10], Gen.Double[0.1, 5], Gen.Double[-10, 10], Gen.Double[0.1, 5])
            .Sample(
                (mean, sd, seen, error) =>
                {
                    var after = new NormalBelief(mean, sd).After([seen], [error]);
                    Assert.InRange(after.Mean, Math.Min(mean, seen) - 1e-9, Math.Max(mean, seen) + 1e-9);
                    Assert.True(after.StandardDeviation < sd);
                    Assert.True(after.StandardDeviation < error);
                }
            );

    [Fact]
    public void Observations_may_come_in_any_order_or_one_by_one() =>
        Gen.Select(Gen.Double[-10, 10], Gen.Double[-10, 10])
            .Sample(
                (first, second) =>
                {
                    var prior = new NormalBelief(1, 2);
                    var together = prior.After([first, second], [0.5, 3]);
                    var apart = prior.After([second], [3]).After([first], [0.5]);
                    Assert.Equal(together.Mean, apart.Mean, 1e-9);
                    Assert.Equal(together.StandardDeviation, apart.StandardDeviation, 1e-9);
                }
            );

    [Fact]
    public void A_cut_belief_has_the_moments_of_its_grid() =>
        Gen.Select(Gen.Double[-2, 6], Gen.Double[0.5, 3])
            .Sample(
                (cut, sd) =>
                {
                    var whole = new NormalBelief(0, sd);
                    var above = cut * sd;
                    var left = new TruncatedNormal(whole, above);
                    var step = sd / 2000;
                    var weights = Enumerable
                        .Range(0, 30_000)
                        .Select(i =>
                            Math.Exp(
                                -0.5
                                    * (
                                        (Math.Pow((above + ((i + 0.5) * step)) / sd, 2))
                                        - Math.Pow(Math.Max(cut, 0), 2)
                                    )
                            )
                        )
                        .ToArray();
                    var grid = new GridDistribution(above, step, weights);
                    Assert.Equal(grid.Mean, left.Mean, 1e-5 * sd);
                    Assert.Equal(grid.StandardDeviation, left.StandardDeviation, 1e-5 * sd);
                    Assert.Equal(
                        grid.Quantile(Probability.FromFraction(0.9)),
                        left.Quantile(Probability.FromFraction(0.9)),
                        1e-4 * sd
                    );
                },
                iter: 20
            );

    [Fact]
    public void The_far_tail_goes_on_without_a_step()
    {
        var whole = new NormalBelief(0, 1);
        var near = new TruncatedNormal(whole, 24.9999);
        var far = new TruncatedNormal(whole, 25.0001);
        Assert.Equal(near.Mean - near.Above, far.Mean - far.Above, 1e-5);
        Assert.Equal(near.StandardDeviation, far.StandardDeviation, 1e-4);
        Assert.True(new TruncatedNormal(whole, 1000).Mean > 1000);
    }

    [Fact]
    public void A_quantile_of_a_grid_leads_back_to_its_probability() =>
        Gen.Select(Gen.Double[0.001, 0.999], Gen.Double[0.001, 1].Array[2, 50])
            .Sample(
                (p, weights) =>
                {
                    var grid = new GridDistribution(3, 0.25, weights);
                    Assert.Equal(p, grid.Cumulative(grid.Quantile(Probability.FromFraction(p))), 1e-9);
                }
            );

    [Fact]
    public void A_grid_of_zeros_is_a_contradiction_and_told_so() =>
        Assert.Throws<ArgumentException>(() => new GridDistribution(0, 1, [0, 0]));

    [Fact]
    public void Without_evidence_the_hatch_day_stays_the_prior()
    {
        var belief = EyeSpots.HatchDay(new(28, 3), new(0.72, 0.05), new(null, null, null));
        Assert.Equal(28, belief.Mean, 1e-3);
        Assert.Equal(3, belief.StandardDeviation, 1e-3);
    }

    [Fact]
    public void Eye_spots_not_yet_seen_make_the_hatch_later_and_seen_early_sooner()
    {
        var prior = new NormalBelief(28, 3);
        var ratio = new EyeSpotRatio(0.72, 0.05);
        Assert.True(EyeSpots.HatchDay(prior, ratio, new(20, null, null)).Mean > 28.2);
        Assert.True(EyeSpots.HatchDay(prior, ratio, new(null, 18, null)).Mean < 27);
        Assert.True(EyeSpots.HatchDay(prior, ratio, new(null, null, 30)).Quantile(default) >= 30);
    }

    [Fact]
    public void Eye_spots_seen_before_they_were_not_seen_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new EyeSpotEvidence(20, 18, null));

    [Fact]
    public void Still_carried_long_after_the_prior_ends_is_a_contradiction() =>
        Assert.Throws<ArgumentException>(() =>
            EyeSpots.HatchDay(new(28, 3), new(0.72, 0.05), new(null, null, 60))
        );

    [Fact]
    public void A_gamma_belief_moves_to_what_was_counted()
    {
        var after = new GammaBelief(3, 0.2).After(4500, 150);
        Assert.Equal(30, after.Mean, 0.1);
        Assert.True(after.ToInterval().Contains(30));
    }
}
