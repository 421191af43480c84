using Broodtide.Checks;
using Broodtide.Science.Development.Staging;

namespace Broodtide.Science.Tests.Development.Staging;

public sealed class BudwormTests
{
    /// <summary>Western spruce budworm, Dennis, Kemp and Beckwith 1986 as corrected by Candy 1990.</summary>
    internal static IReadOnlyList<StageSample> Samples()
    {
        var table = DataTable.Parse(
            File.ReadAllText(ReferenceFiles.PathOf("data/western-spruce-budworm.csv"))
        );
        var stages = Enumerable.Range(1, 7).Select(stage => table.Numbers($"stage{stage}")).ToArray();
        return
        [
            .. table
                .Numbers("ddeg")
                .Select((age, row) => new StageSample(age, [.. stages.Select(stage => (int)stage[row])])),
        ];
    }

    [Fact]
    public void The_refit_of_2021_comes_out_to_the_digits_it_is_printed_with()
    {
        // Boersch-Supan 2021, ReScience C 7(1): three decimals.
        var fit = StageFitting.Fit(Samples());
        Assert.Equal(
            ["120.039", "204.665", "264.590", "341.291", "464.477", "595.707"],
            fit.Boundaries.CutPoints.Select(cut => $"{cut:F3}")
        );
        Assert.Equal("1.412", $"{fit.Boundaries.VarianceFactor:F3}");
        Assert.Equal("-407.380", $"{fit.LogLikelihoodKernel:F3}");
    }

    [Fact]
    public void The_model_of_constant_variance_comes_out_to_the_digits_it_is_printed_with()
    {
        // The same paper: cut points by slope of a proportional-odds fit.
        var fit = StageFitting.Fit(Samples(), StageVariance.Constant);
        var slope = 1 / Math.Sqrt(fit.Boundaries.VarianceFactor);
        Assert.Equal("0.0456", $"{slope:F4}");
        Assert.Equal(
            ["5.47", "9.36", "12.21", "15.67", "21.22", "27.19"],
            fit.Boundaries.CutPoints.Select(cut => $"{cut * slope:F2}")
        );
    }

    [Fact]
    public void A_spread_that_grows_with_thermal_age_fits_better_than_one_that_does_not() =>
        Assert.True(
            StageFitting.Fit(Samples()).Deviance
                < StageFitting.Fit(Samples(), StageVariance.Constant).Deviance - 20
        );

    [Fact]
    public void The_two_ways_to_say_constant_variance_agree()
    {
        var boundaries = StageFitting.Fit(Samples(), StageVariance.Constant);
        var ordered = OrdinalModel.Fit(
            [.. Samples().Select(sample => new OrdinalRow([sample.ThermalAge], sample.Counts))],
            OrdinalKind.Cumulative
        );
        Assert.Equal(ordered.LogLikelihoodKernel, boundaries.LogLikelihoodKernel, 1e-7);
        Assert.Equal(
            boundaries.Boundaries.CutPoints[2],
            -ordered.Thresholds[2] / ordered.Coefficients[0],
            1e-3
        );
    }

    [Theory]
    [InlineData(StageLink.Probit)]
    [InlineData(StageLink.ComplementaryLogLog)]
    public void No_step_away_from_the_fit_is_likelier_whatever_the_link(StageLink link)
    {
        var fit = StageFitting.Fit(Samples(), StageVariance.Proportional, link);
        foreach (var step in new[] { -0.3, 0.3 })
        {
            for (var j = 0; j < 6; j++)
            {
                var cuts = fit.Boundaries.CutPoints.ToArray();
                cuts[j] += step;
                Assert.True(
                    Kernel(new(cuts, fit.Boundaries.VarianceFactor, StageVariance.Proportional, link))
                        < fit.LogLikelihoodKernel
                );
            }

            Assert.True(
                Kernel(
                    new(
                        fit.Boundaries.CutPoints,
                        fit.Boundaries.VarianceFactor * (1 + (step / 10)),
                        StageVariance.Proportional,
                        link
                    )
                ) < fit.LogLikelihoodKernel
            );
        }
    }

    private static double Kernel(StageBoundaries boundaries) =>
        Samples()
            .Sum(sample =>
                boundaries
                    .Shares(sample.ThermalAge)
                    .Zip(sample.Counts)
                    .Sum(pair => pair.Second > 0 ? pair.Second * Math.Log(pair.First) : 0)
            );
}
