using Broodtide.Science.Statistics;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Counting;

public sealed class RegressionTests
{
    private static readonly Probability Level = Probability.FromFraction(0.95);

    private static readonly Gen<Tally> Tallies = Gen.Select(
        Gen.Int[1, 200],
        Gen.Double[0, 1],
        (trials, share) => new Tally((int)Math.Round(share * trials), trials)
    );

    [Fact]
    public void Probabilities_of_all_outcomes_make_one()
    {
        Assert.Equal(1, Sum(600, x => LogProbability.NegativeBinomial(x, 12, 1.3)), 1e-10);
        Assert.Equal(1, Sum(200, x => LogProbability.Poisson(x, 40)), 1e-12);
        Assert.Equal(1, Sum(20, x => LogProbability.BetaBinomial(x, 20, new(0.4, 3))), 1e-12);
        Assert.Equal(1, Sum(90, x => LogProbability.Binomial(x, 90, Probability.FromFraction(0.2))), 1e-12);
        double[] alphas = [0.5, 2, 1];
        var three = 0.0;
        for (var i = 0; i <= 9; i++)
        {
            for (var j = 0; i + j <= 9; j++)
            {
                three += Math.Exp(LogProbability.DirichletMultinomial([i, j, 9 - i - j], alphas));
            }
        }

        Assert.Equal(1, three, 1e-12);
    }

    [Fact]
    public void Clumping_without_end_is_even_mixing_and_a_sharp_belief_a_known_chance()
    {
        Assert.Equal(LogProbability.Poisson(17, 12.5), LogProbability.NegativeBinomial(17, 12.5, 1e11), 1e-8);
        Assert.Equal(
            LogProbability.Binomial(30, 40, Probability.FromFraction(0.7)),
            LogProbability.BetaBinomial(30, 40, new(7e9, 3e9)),
            1e-6
        );
        Assert.Equal(double.NegativeInfinity, LogProbability.Binomial(3, 2, Probability.FromFraction(0.5)));
        Assert.Equal(double.NegativeInfinity, LogProbability.Poisson(1, 0));
        Assert.Equal(0, LogProbability.DirichletMultinomial([0, 0], [1, 1]));
    }

    [Fact]
    public void Limits_of_a_proportion_hold_its_share_and_mirror_its_opposite() =>
        Tallies.Sample(tally =>
        {
            var opposite = new Tally(tally.Trials - tally.Happened, tally.Trials);
            foreach (
                var limits in new Func<Tally, Probability, Limits>[]
                {
                    Proportions.Wilson,
                    Proportions.ClopperPearson,
                }
            )
            {
                var (here, there) = (limits(tally, Level), limits(opposite, Level));
                Assert.True(here.Contains(tally.Share), $"{tally} {here}");
                Assert.Equal(1 - there.Upper, here.Lower, 1e-8);
            }

            var jeffreys = Proportions.Jeffreys(tally, Level);
            var exact = Proportions.ClopperPearson(tally, Level);
            Assert.True(jeffreys.Upper - jeffreys.Lower < exact.Upper - exact.Lower);
        });

    [Fact]
    public void Limits_of_a_difference_change_sign_with_the_groups() =>
        Gen.Select(Tallies, Tallies)
            .Sample(
                (first, second) =>
                {
                    var (there, back) = (new TwoGroups(first, second), new TwoGroups(second, first));
                    var (newcombe, mirrored) = (
                        ProportionDifference.Newcombe(there, Level),
                        ProportionDifference.Newcombe(back, Level)
                    );
                    Assert.Equal(-mirrored.Upper, newcombe.Lower, 1e-12);
                    Assert.True(newcombe.Contains(there.Difference));
                    Assert.InRange(newcombe.Lower, -1 - 1e-9, 1);
                    Assert.Equal(
                        -ProportionDifference.AgrestiCaffo(back, Level).Upper,
                        ProportionDifference.AgrestiCaffo(there, Level).Lower,
                        1e-12
                    );
                }
            );

    [Fact]
    public void One_mean_is_the_common_share_by_every_link()
    {
        Tally[] rows = [new(3, 10), new(9, 20), new(14, 30)];
        foreach (var link in Enum.GetValues<BinomialLink>())
        {
            var fit = BinomialRegression.Fit(rows, RegressionDesign.OneMean(3), link);
            Assert.All(fit.Fitted, share => Assert.Equal(26 / 60.0, share, 1e-9));
            Assert.Equal(2, fit.DegreesOfFreedom);
        }
    }

    [Fact]
    public void A_measured_number_in_a_probit_line_gives_the_published_dose()
    {
        // Finney 1947, Probit Analysis: rotenone on Macrosiphoniella; published LC50 4.85 mg/L (log10 0.6858).
        // Figures from memory.
        double[] milligramsPerLitre = [10.2, 7.7, 5.1, 3.8, 2.6];
        Tally[] dead = [new(44, 50), new(42, 49), new(24, 46), new(16, 48), new(6, 50)];
        var design = RegressionDesign
            .OneMean(5)
            .With("logDose", [.. milligramsPerLitre.Select(dose => Math.Log10(dose))]);
        var fit = BinomialRegression.Fit(dead, design, BinomialLink.Probit);
        var logDose =
            -fit.Coefficients.Named("intercept").Estimate / fit.Coefficients.Named("logDose").Estimate;
        Assert.Equal(0.6858, logDose, 0.001);
    }

    [Fact]
    public void Rows_that_vary_no_more_than_chance_show_no_correlation()
    {
        Tally[] rows = [new(5, 10), new(5, 10), new(10, 20), new(9, 20)];
        var beta = BetaBinomialRegression.Fit(rows, RegressionDesign.OneMean(4));
        var effect = VesselEffectRegression.Fit(rows, RegressionDesign.OneMean(4));
        Assert.Equal(0, beta.Correlation);
        Assert.Equal(0, effect.VesselSd);
        Assert.Equal(29 / 60.0, beta.Mean(), 1e-9);
        Assert.True(Overdispersion.TaroneZ(rows) < 0);
    }

    [Fact]
    public void A_table_that_parts_cleanly_says_so()
    {
        Factor[] factors = [new("salt", ["low", "low", "high", "high"], "low")];
        Tally[] rows = [new(0, 10), new(0, 12), new(9, 10), new(11, 12)];
        Assert.True(BinomialRegression.Fit(rows, RegressionDesign.OfFactors(factors, ["salt"])).Separated);
    }

    [Fact]
    public void More_points_of_quadrature_come_to_rest()
    {
        var around = ReferenceFiles.Surroundings.Table("orobanche_crowder1978_table3.csv");
        Tally[] rows = [.. around.Numbers("y").Zip(around.Numbers("n"), (y, n) => new Tally((int)y, (int)n))];
        var design = RegressionDesign.OfFactors([new("root", around.Texts("root"), "BEAN")], ["root"]);
        var (seven, thirty) = (
            VesselEffectRegression.Fit(rows, design, 7),
            VesselEffectRegression.Fit(rows, design, 30)
        );
        Assert.Equal(thirty.VesselSd, seven.VesselSd, 1e-4);
        Assert.True(seven.Converged && thirty.Converged);
        Assert.NotNull(thirty.Coefficients.Named("rootCUCUMBER").StandardError);
    }

    [Fact]
    public void Repeated_counts_of_one_place_that_vary_like_chance_leave_the_number_to_the_bound()
    {
        // Dennis, Morgan and Ridout 2015: variance not below the mean sends the estimate to infinity.
        var model = Model(1, 6, NumberLaw.Poisson);
        Assert.True(
            NMixture
                .Fit(
                    [
                        [2, 9, 4, 1, 7, 3],
                    ],
                    model
                )
                .NumberBoundMatters
        );
        Assert.False(
            NMixture
                .Fit(
                    [
                        [9, 9, 10, 9, 9, 10],
                    ],
                    model
                )
                .NumberBoundMatters
        );
    }

    [Fact]
    public void Places_that_differ_more_than_chance_have_a_finite_clumping()
    {
        // Seen nearly always, so the clumping is that of the numbers themselves.
        int?[][] counts =
        [
            .. new[] { 3, 21, 8, 0, 17, 11, 2, 26 }.Select(c => new int?[] { c, c, c == 0 ? 0 : c - 1 }),
        ];
        var poisson = NMixture.Fit(counts, Model(8, 24, NumberLaw.Poisson));
        var clumped = NMixture.Fit(counts, Model(8, 24, NumberLaw.NegativeBinomial));
        Assert.True(clumped.LogLikelihood > poisson.LogLikelihood + 3);
        Assert.InRange(Math.Exp(clumped.LogClumping!.Value), 0.5, 3);
    }

    [Fact]
    public void What_a_regression_cannot_use_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Tally(3, 2));
        Assert.Throws<ArgumentException>(() =>
            BinomialRegression.Fit([new(1, 2)], RegressionDesign.OneMean(2))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            RegressionDesign.OneMean(2).With("x", [1, double.NaN])
        );
        Assert.Throws<ArgumentException>(() =>
            RegressionDesign.OfFactors([new("a", ["x", "y"], "z")], ["a"])
        );
        Assert.Throws<ArgumentException>(() => Overdispersion.TaroneZ([new(2, 2), new(3, 3)]));
        Assert.Throws<ArgumentException>(() =>
            NMixture.Fit(
                [
                    [0, 0],
                ],
                Model(1, 2, NumberLaw.Poisson)
            )
        );
    }

    private static NMixtureModel Model(int places, int visits, NumberLaw law) =>
        new(RegressionDesign.OneMean(places), RegressionDesign.OneMean(visits), law, 120);

    private static double Sum(int most, Func<int, double> log) =>
        Enumerable.Range(0, most + 1).Sum(x => Math.Exp(log(x)));
}
