using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class StatisticsScoresTests
{
    [Fact]
    public void The_score_of_a_normal_forecast_is_that_of_very_many_members() =>
        Gen.Select(Gen.Double[-5, 5], Gen.Double[0.2, 4], Gen.Double[-8, 8])
            .Sample(
                (mean, sd, happened) =>
                {
                    var forecast = new NormalBelief(mean, sd);
                    Assert.Equal(
                        ByArea(x => forecast.Mean + (sd * x), Phi, happened, 9),
                        RankedProbabilityScore.Normal(forecast, happened),
                        2e-3 * sd
                    );
                },
                iter: 20
            );

    [Fact]
    public void The_score_of_a_narrow_forecast_is_the_miss()
    {
        Assert.Equal(3, RankedProbabilityScore.Normal(new(10, 1e-9), 13), 1e-6);
        Assert.Equal(3, RankedProbabilityScore.Ensemble([10], 13, fair: false), 1e-12);
        Assert.Equal(3, RankedProbabilityScore.LogNormal(new(Math.Log(10), 1e-9), 13), 1e-6);
    }

    [Fact]
    public void A_negative_binomial_of_huge_size_scores_like_a_poisson() =>
        Gen.Select(Gen.Double[0.5, 20], Gen.Int[0, 30])
            .Sample(
                (mean, happened) =>
                {
                    const double Size = 1e7;
                    Assert.Equal(
                        CountScore.Poisson(mean, happened),
                        CountScore.NegativeBinomial(
                            Size,
                            Probability.FromFraction(Size / (Size + mean)),
                            happened
                        ),
                        1e-4
                    );
                },
                iter: 20
            );

    [Fact]
    public void The_honest_quantile_has_the_smallest_pinball_loss_on_average()
    {
        double[] happened = [.. Enumerable.Range(1, 99).Select(i => (double)i)];
        var level = Probability.FromFraction(0.9);
        double Loss(double quantile) => happened.Average(y => IntervalScore.Pinball(level, quantile, y));
        Assert.True(Loss(90) < Loss(80));
        Assert.True(Loss(90) < Loss(97));
    }

    [Fact]
    public void An_interval_that_holds_scores_its_width() =>
        Gen.Select(Gen.Double[0, 10], Gen.Double[0, 10], Gen.Double[0, 1])
            .Sample(
                (lower, width, place) =>
                    Assert.Equal(
                        width,
                        IntervalScore.Of(new(lower, lower + width, 0.1), lower + (place * width)),
                        1e-9
                    )
            );

    [Fact]
    public void Even_values_are_near_the_even_line_and_one_sided_ones_far()
    {
        double[] even = [.. Enumerable.Range(0, 50).Select(i => (i + 0.5) / 50)];
        Assert.Equal(0.01, ProbabilityIntegralTransform.DistanceFromEven(even), 1e-12);
        Assert.Equal(0.9, ProbabilityIntegralTransform.DistanceFromEven([0.95, 0.9, 0.99]), 1e-12);
        Assert.Throws<ArgumentException>(() => ProbabilityIntegralTransform.DistanceFromEven([]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            ProbabilityIntegralTransform.DistanceFromEven([double.NaN])
        );
    }

    [Fact]
    public void Bad_forecasts_are_refused_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalBelief(0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalBelief(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CentralInterval(2, 1, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CentralInterval(1, 2, 0));
        Assert.Throws<ArgumentException>(() => RankedProbabilityScore.Ensemble([1], 1, fair: true));
        Assert.Throws<ArgumentException>(() => IntervalScore.Weighted(1, [], 1));
    }

    // The definition: integral of (F - step)^2, by the midpoint rule over x in standard units.
    private static double ByArea(
        Func<double, double> place,
        Func<double, double> cumulative,
        double happened,
        double reach
    )
    {
        const int Cells = 40_000;
        var from = Math.Min(place(-reach), happened);
        var to = Math.Max(place(reach), happened);
        var unit = place(1) - place(0);
        var step = (to - from) / Cells;
        var area = 0.0;
        for (var i = 0; i < Cells; i++)
        {
            var x = from + ((i + 0.5) * step);
            var gap = cumulative((x - place(0)) / unit) - (x >= happened ? 1 : 0);
            area += gap * gap * step;
        }

        return area;
    }

    private static double Phi(double z) => MathNet.Numerics.Distributions.Normal.CDF(0, 1, z);
}
