using Broodtide.Science.Estimation.Larvae;
using Broodtide.Workbench.Species;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

public class LarvalBeliefsTests
{
    [Fact]
    public void The_profile_says_what_this_project_assumes_where_a_profile_says_nothing()
    {
        var told = Of200().Population(10).Run.Priors;
        var usual = new LarvalPriors();

        // The profile's points are rounded to three figures.
        Same(usual.BaseHazardPerDay, told.BaseHazardPerDay);
        Same(usual.EarlyMultiplier, told.EarlyMultiplier);
        Same(usual.DevelopmentCv, told.DevelopmentCv);
        Assert.Equal(usual.MetamorphosisLoss.Median, told.MetamorphosisLoss.Median, 1e-12);
        Assert.Equal(usual.MetamorphosisLoss.LogitSd, told.MetamorphosisLoss.LogitSd, 0.003);
        Assert.Equal(usual.DevelopmentPerKelvin, told.DevelopmentPerKelvin, 1e-12);
    }

    [Fact]
    public void Every_number_larvae_are_believed_by_stands_in_the_profile_as_assumed()
    {
        foreach (
            var code in new[]
            {
                LarvalQuantityCodes.Hazard,
                LarvalQuantityCodes.EarlyHazardFactor,
                LarvalQuantityCodes.DevelopmentCv,
                LarvalQuantityCodes.MetamorphosisLoss,
                LarvalQuantityCodes.ReferenceTemperature,
                LarvalQuantityCodes.BaseTemperature,
            }
        )
        {
            var quantity = SpeciesProfiles.Reference.Quantity(code);
            Assert.Equal(Provenance.Assumed, quantity.Provenance);
            Assert.NotEmpty(quantity.Note ?? "");
        }
    }

    private static void Same(LogBelief expected, LogBelief told)
    {
        Assert.Equal(expected.Median, told.Median, 1e-12);
        Assert.Equal(expected.LogSd, told.LogSd, 0.003);
    }
}
