using Broodtide.Science.Food;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Food;

public sealed class CultureGrowthTests
{
    private static readonly AlgaKind Tetraselmis = AlgaKind.Find("Tetraselmis chui")!;

    [Fact]
    public void Without_a_count_growth_is_the_range_that_is_recalled_for_the_alga_taken_wider()
    {
        var belief = CultureGrowth.After(CulturePrior.Of(Tetraselmis), [], 0);
        // 0.3 to 0.8 a day, food-and-growth.md 2.3, half as wide again on the logarithmic scale.
        var middle = Math.Sqrt(0.3 * 0.8);
        var factor = Math.Pow(0.8 / middle, 1.5);
        Assert.Equal(middle, belief.RatePerDay.Middle, 0.01);
        Assert.Equal(middle / factor, belief.RatePerDay.Low, 0.02);
        Assert.Equal(middle * factor, belief.RatePerDay.High, 0.05);
    }

    [Fact]
    public void Counts_override_what_is_recalled()
    {
        // A slow culture, 0.12 a day: far below what is recalled for its kind.
        var belief = CultureGrowth.After(
            CulturePrior.Of(Tetraselmis),
            [.. Enumerable.Range(0, 8).Select(i => Counted(3 * i, 2e4 * Math.Exp(0.12 * 3 * i)))],
            21
        );
        Assert.InRange(belief.RatePerDay.Middle, 0.1, 0.16);
        Assert.True(belief.RatePerDay.High < 0.2);
        Assert.InRange(belief.Density.Middle, 2e4 * Math.Exp(2.52) * 0.85, 2e4 * Math.Exp(2.52) * 1.15);
    }

    [Fact]
    public void A_thinning_moves_the_density_and_not_the_growth()
    {
        List<CultureHappening> happenings = [Counted(0, 1e5)];
        var density = 1e5;
        for (var day = 2; day <= 12; day += 2)
        {
            density = AlgalGrowth
                .Logistic(CellDensity.FromPerMillilitre(density), CellDensity.FromPerMillilitre(2e6), 0.4, 2)
                .PerMillilitre;
            happenings.Add(Counted(day, density));
            density /= 2;
            happenings.Add(new CultureThinned(day, 0.5, 0.03));
        }

        var belief = CultureGrowth.After(CulturePrior.Of(Tetraselmis), happenings, 12);
        Assert.InRange(belief.RatePerDay.Middle, 0.36, 0.44);
        Assert.InRange(belief.Density.Middle, 0.85 * density, 1.15 * density);
    }

    [Fact]
    public void A_count_that_falls_far_below_is_told_by_how_far_off_it_is()
    {
        var belief = CultureGrowth.After(
            CulturePrior.Of(Tetraselmis),
            [Counted(0, 2e5), Counted(3, 5e5), Counted(6, 9e5), Counted(9, 2e5)],
            9
        );
        Assert.True(belief.Counts[3].Off < -3);
        Assert.All(belief.Counts.Take(3), fit => Assert.InRange(fit.Off, -2, 2));
    }

    [Fact]
    public void The_share_that_lasts_is_a_harvest_from_which_the_logistic_law_comes_back()
    {
        var (density, capacity) = (CellDensity.FromPerMillilitre(8e5), CellDensity.FromPerMillilitre(2e6));
        var share = AlgalGrowth.LastingShare(density, capacity, 0.5, 2);
        var left = CellDensity.FromPerMillilitre(density.PerMillilitre * (1 - share.Value));
        Assert.Equal(
            density.PerMillilitre,
            AlgalGrowth.Logistic(left, capacity, 0.5, 2).PerMillilitre,
            1e-6 * density.PerMillilitre
        );
        // Far below the capacity it is the share of section 2.1: 0.357 a day stands 0.30 a day.
        Assert.Equal(
            0.3,
            AlgalGrowth.LastingShare(CellDensity.FromPerMillilitre(1), capacity, 0.35667, 1).Value,
            4
        );
    }

    [Fact]
    public void The_days_until_a_density_agree_with_the_logistic_law_where_all_is_known()
    {
        var prior = new CulturePrior(Near(0.5), Near(2e6), Near(1e5));
        var belief = CultureGrowth.After(prior, [], 0);
        var wanted = AlgalGrowth.DaysToReach(
            CellDensity.FromPerMillilitre(1e5),
            CellDensity.FromPerMillilitre(2e6),
            CellDensity.FromPerMillilitre(1e6),
            0.5
        );
        Assert.Equal(wanted, belief.DaysToReach(1e6).Middle!.Value, 0.1);
        Assert.True(belief.DaysToReach(1e6).Earliest < belief.DaysToReach(1e6).Middle);
        Assert.Null(belief.DaysToReach(1e8).Earliest);
    }

    [Fact]
    public void Growth_of_simulated_cultures_lies_in_its_interval_as_often_as_it_says()
    {
        var random = new Random(20261126);
        var (inside, all) = (0, 300);
        var prior = CulturePrior.Of(Tetraselmis);
        for (var culture = 0; culture < all; culture++)
        {
            var rate = prior.Rate.Middle * Math.Exp(Normal(random) * Sd(prior.Rate));
            var capacity = prior.Capacity.Middle * Math.Exp(Normal(random) * Sd(prior.Capacity));
            var density = prior.Start.Middle * Math.Exp(Normal(random) * Sd(prior.Start));
            var happenings = new List<CultureHappening>();
            for (var day = 0; day <= 15; day++)
            {
                if (day % 3 == 0)
                {
                    happenings.Add(Counted(day, density * Math.Exp(0.1 * Normal(random))));
                }

                density = capacity / (1 + ((capacity - density) / density * Math.Exp(-rate)));
                density *= Math.Exp(CultureGrowth.WanderPerRootDay * Normal(random));
            }

            inside += CultureGrowth.After(prior, happenings, 15).RatePerDay.Contains(rate) ? 1 : 0;
        }

        // Nine in ten, plus or minus three standard deviations of 300 coins.
        Assert.InRange(inside, 0.848 * all, 0.952 * all);
    }

    [Fact]
    public void Whatever_is_counted_all_that_is_told_stays_finite_and_above_zero() =>
        Gen.Select(Gen.Double[0, 40], Gen.Int[0, 500], Gen.Double[0.01, 1], Gen.Double[1, 1e6])
            .Array[1, 12]
            .Sample(
                drawn =>
                {
                    var day = 0.0;
                    var happenings = new List<CultureHappening>();
                    foreach (var (after, seen, kept, perCell) in drawn)
                    {
                        day += after;
                        happenings.Add(CultureCounted.FromCells(day, seen, perCell, 0.1));
                        happenings.Add(new CultureThinned(day, kept, 0.05));
                    }

                    var belief = CultureGrowth.After(CulturePrior.Of(Tetraselmis), happenings, day + 1);
                    var share = belief.LastingShare(1);
                    return belief.Density.Low > 0
                        && double.IsFinite(belief.Density.High)
                        && belief.RatePerDay.Low > 0
                        && share is { Low: >= 0, High: <= 1 };
                },
                iter: 200
            );

    [Fact]
    public void None_seen_is_not_none_there()
    {
        var counted = CultureCounted.FromCells(0, 0, 1e4, 0);
        Assert.True(Math.Exp(counted.LogDensity + (1.645 * counted.LogSd)) > 3 * 1e4);
    }

    private static CultureCounted Counted(double day, double density) =>
        CultureCounted.FromDensity(day, density, 0.1);

    private static Interval Near(double value) => Interval.FromPoints(value * 0.9999, value, value * 1.0001);

    private static double Sd(Interval points) =>
        Math.Log(points.High / points.Low) / (2 * Interval.StandardNormal95);

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
