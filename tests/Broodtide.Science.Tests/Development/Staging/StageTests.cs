using Broodtide.Science.Development.Staging;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Development.Staging;

public sealed class StageTests
{
    private static readonly Gen<StageDuration> Duration = Gen.Select(Gen.Double[0.5, 12], Gen.Double[0.3, 3])
        .Select((shape, scale) => new StageDuration(shape, scale));

    [Fact]
    public void Shares_of_stages_sum_to_one_and_larvae_never_go_back() =>
        Gen.Select(Gen.Double[5, 60].Array[1, 8], Gen.Double[0.05, 5], Gen.Enum<StageLink>())
            .Sample(
                (gaps, factor, link) =>
                {
                    var cuts = gaps.Select((_, j) => gaps.Take(j + 1).Sum()).ToArray();
                    var boundaries = new StageBoundaries(cuts, factor, StageVariance.Proportional, link);
                    var before = new double[cuts.Length];
                    Array.Fill(before, 1);
                    for (var age = 1.0; age < 400; age *= 1.4)
                    {
                        var shares = boundaries.Shares(age);
                        Assert.Equal(1, shares.Sum(), 1e-12);
                        Assert.All(shares, share => Assert.InRange(share, 0, 1));
                        for (var j = 0; j < cuts.Length; j++)
                        {
                            var within = shares.Take(j + 1).Sum();
                            Assert.True(within <= before[j] + 1e-12);
                            before[j] = within;
                        }
                    }
                }
            );

    [Fact]
    public void The_age_by_which_a_share_has_passed_is_the_inverse_of_the_shares() =>
        Gen.Select(Gen.Double[20, 300], Gen.Double[0.1, 4], Gen.Double[0.02, 0.98], Gen.Enum<StageLink>())
            .Sample(
                (cut, factor, share, link) =>
                {
                    var boundaries = new StageBoundaries([cut], factor, StageVariance.Proportional, link);
                    var age = boundaries.ThermalAgeWhen(0, Probability.FromFraction(share));
                    // Rounding in the two links is seen in the eighth digit now and then.
                    Assert.Equal(share, boundaries.Shares(age)[1], 1e-7);
                }
            );

    [Fact]
    public void Occupancies_sum_to_one_and_larvae_never_go_back() =>
        Gen.Select(Duration.Array[1, 5], Gen.Double[0.1, 60])
            .Sample(
                (stages, age) =>
                {
                    var now = StageDurations.Occupancy(stages, age);
                    var later = StageDurations.Occupancy(stages, age * 1.1);
                    Assert.Equal(1, now.Sum(), 1e-12);
                    Assert.All(now, share => Assert.InRange(share, 0, 1));
                    for (var j = 1; j <= stages.Length; j++)
                    {
                        Assert.True(later.Take(j).Sum() <= now.Take(j).Sum() + 1e-10);
                    }
                }
            );

    [Fact]
    public void Scales_that_differ_by_nothing_worth_naming_give_the_occupancy_of_one_scale()
    {
        var same = StageDurations.Occupancy([new(4, 1), new(3, 1), new(2, 1)], 8);
        var almost = StageDurations.Occupancy([new(4, 1), new(3, 1 + 1e-9), new(2, 1 - 1e-9)], 8);
        Assert.All(same.Zip(almost), pair => Assert.Equal(pair.First, pair.Second, 1e-7));
    }

    [Fact]
    public void Two_exponential_stages_of_different_length_have_the_textbook_occupancy()
    {
        // Bateman 1910: the second of two decays, by partial fractions.
        const double Age = 3;
        var (fast, slow) = (1 / 0.7, 1 / 5.0);
        var shares = StageDurations.Occupancy([new(1, 0.7), new(1, 5)], Age);
        Assert.Equal(Math.Exp(-fast * Age), shares[0], 1e-11);
        Assert.Equal(
            fast / (slow - fast) * (Math.Exp(-fast * Age) - Math.Exp(-slow * Age)),
            shares[1],
            1e-11
        );
        Assert.All(
            StageDurations.Occupancy([new(1, 0.7), new(1, 5)], 0).Zip<double, double>([1, 0, 0]),
            pair => Assert.Equal(pair.Second, pair.First)
        );
    }

    [Fact]
    public void Three_answers_by_a_factor_say_what_counting_them_says()
    {
        // With thresholds for a stopping chain and one factor, two categories leave a table of two by two.
        OrdinalRow[] rows = [new([0], [30, 10]), new([1], [12, 28])];
        var odds = Math.Log(12.0 / 28) - Math.Log(30.0 / 10);
        foreach (var kind in new[] { OrdinalKind.Cumulative, OrdinalKind.Stopping })
        {
            var fit = OrdinalModel.Fit(rows, kind);
            Assert.Equal(Math.Log(3), fit.Thresholds[0], 1e-9);
            Assert.Equal(odds, fit.Coefficients[0], 1e-9);
            Assert.Equal(0, fit.Deviance, 1e-9);
            Assert.Equal(
                Math.Sqrt((1.0 / 30) + (1.0 / 10) + (1.0 / 12) + (1.0 / 28)),
                fit.StandardErrors[0],
                1e-6
            );
        }
    }

    [Fact]
    public void Two_factors_are_told_apart_and_no_step_is_likelier()
    {
        OrdinalRow[] rows =
        [
            new([0, 0], [20, 12, 8]),
            new([1, 0], [11, 14, 15]),
            new([0, 1], [9, 13, 18]),
            new([1, 1], [4, 10, 26]),
        ];
        foreach (var kind in new[] { OrdinalKind.Cumulative, OrdinalKind.Stopping })
        {
            var fit = OrdinalModel.Fit(rows, kind);
            Assert.All(fit.Coefficients, coefficient => Assert.InRange(coefficient, -2, -0.3));
            Assert.True(
                fit.LogLikelihoodKernel
                    > OrdinalModel
                        .Fit([.. rows.Select(row => row with { Covariates = [row.Covariates[0]] })], kind)
                        .LogLikelihoodKernel
            );
        }
    }

    [Fact]
    public void Mortality_makes_the_larvae_that_arrive_look_faster()
    {
        var period = new LarvalPeriod(30, 0.2);
        Assert.True(period.AmongSurvivors(0.1).MeanDays < period.MeanDays);
        Assert.Equal(1, period.ShareReaching(0), 1e-12);
        Assert.Equal(0.5, period.Done(period.AgeDaysWhen(Probability.FromFraction(0.5))), 1e-10);
    }

    [Fact]
    public void The_first_of_many_comes_before_the_first_of_few() =>
        Gen.Select(Gen.Int[1, 400], Gen.Double[0.05, 0.4], Gen.Double[0.02, 0.98])
            .Sample(
                (larvae, variation, share) =>
                {
                    var period = new LarvalPeriod(35, variation);
                    CohortShare[] cohorts = [new(0, 2), new(3, 1)];
                    var p = Probability.FromFraction(share);
                    var few = MetamorphosisDays.First(cohorts, period, larvae, p);
                    Assert.True(MetamorphosisDays.First(cohorts, period, larvae * 2, p) < few);
                    Assert.True(few <= MetamorphosisDays.When(cohorts, period, p) + 1e-9);
                }
            );

    [Fact]
    public void Where_there_may_be_no_larva_there_may_be_no_first_one() =>
        Assert.Null(
            MetamorphosisDays.FirstOfPoisson(
                [new(0, 1)],
                new LarvalPeriod(30, 0.1),
                0.5,
                Probability.FromFraction(0.9)
            )
        );

    [Fact]
    public void A_course_that_repeats_goes_on_and_one_that_ends_too_soon_tells_no_day()
    {
        var requirement = new ThermalRequirement(330, 0.1, Temperature.FromCelsius(12));
        TemperatureStretch[] course = [new(Temperature.FromCelsius(24), 1)];
        var half = Probability.FromFraction(0.5);
        Assert.Equal(27.5, requirement.DayWhen(course, true, half)!.Value, 1e-9);
        Assert.Null(requirement.DayWhen(course, false, half));
        Assert.Null(requirement.DayWhen([new(Temperature.FromCelsius(11), 400)], true, half));
    }

    [Fact]
    public void Numbers_that_are_none_stop_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new StageSample(double.NaN, [1, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StageSample(3, [1, -2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StageBoundaries([3, double.NaN], 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StageBoundaries([3, 2], 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StageBoundaries([3], 1).Shares(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            StageDurations.Occupancy([new(2, 1)], double.PositiveInfinity)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => new LarvalPeriod(30, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MetamorphosisDays.Done([new(double.NaN, 1)], new LarvalPeriod(30, 0.1), 3)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            OrdinalModel.Fit([new([double.NaN], [1, 2])], OrdinalKind.Cumulative)
        );
        Assert.Throws<ArgumentException>(() =>
            StageFitting.Fit([new(10, [8, 0]), new(20, [4, 5]), new(30, [0, 7])])
        );
    }
}
