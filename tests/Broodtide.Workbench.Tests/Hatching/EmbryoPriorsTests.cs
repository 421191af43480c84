using Broodtide.Science.Development;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Tests.Hatching;

public class EmbryoPriorsTests
{
    private static readonly SpeciesProfile Profile = SpeciesProfiles.Reference;

    [Fact]
    public void The_profile_and_the_prior_are_tied_number_by_number()
    {
        var thermal = Profile.EmbryoThermal;
        var prior = EmbryoPriors.Of(Profile);

        Assert.Equal(thermal.ReferenceTemperature, prior.ReferenceTemperature);
        Assert.Equal(2, prior.Requirement.Count);
        Assert.All(
            prior.Requirement,
            part => Assert.Equal(thermal.ReferenceDays!.Value, part.DaysAtReference.Median, 1e-12)
        );
        Assert.Equal(thermal.OddShare.Value, prior.Requirement[1].Weight, 1e-12);
        // The factor leads from the median to the 5 and the 95 % point: 1.645 standard deviations of the logarithm.
        Assert.Equal(
            thermal.SpreadFactor,
            Math.Exp(1.6448536269514722 * prior.Requirement[0].DaysAtReference.LogSd),
            1e-12
        );
        Assert.Equal(
            thermal.OddSpreadFactor,
            Math.Exp(1.6448536269514722 * prior.Requirement[1].DaysAtReference.LogSd),
            1e-12
        );
        Assert.Equal(thermal.BaseTemperature.Celsius, prior.BaseCelsius, 1e-12);
        Assert.Equal(
            (thermal.BaseTemperatureHigh.Celsius - thermal.BaseTemperatureLow.Celsius) / 3.2897072539,
            prior.BaseSdCelsius,
            1e-9
        );
        Assert.Equal(Profile.HatchSigns.SaddleLeadDays.Middle, prior.SaddleLeadDays.Median, 1e-12);
    }

    [Fact]
    public void The_profile_and_the_science_agree_on_the_measured_days()
    {
        var prior = EmbryoPriors.Of(Profile);
        var reference = ReferencePriors.ReferenceSpecies;

        Assert.Equal(reference.ReferenceTemperature, prior.ReferenceTemperature);
        Assert.Equal(
            reference.Requirement[0].DaysAtReference.Median,
            prior.Requirement[0].DaysAtReference.Median,
            1e-12
        );
        Assert.Equal(reference.EyedRatio.Median, prior.EyedRatio.Median, 1e-12);
    }

    [Theory]
    [InlineData(QuantityCodes.EmbryoSpreadFactor, 1.0, "{factor}")]
    [InlineData(QuantityCodes.EmbryoOddBroodShare, 0.0, "1")]
    [InlineData(QuantityCodes.EmbryoOddBroodShare, 1.0, "1")]
    [InlineData(QuantityCodes.EmbryoReferenceTemperature, 0.0, "Cel")]
    [InlineData(QuantityCodes.EmbryoReferenceTemperature, 900.0, "Cel")]
    [InlineData(QuantityCodes.EmbryoDegreeDays, 0.0, "Cel.d")]
    [InlineData(QuantityCodes.EmbryoBaseTemperature, 80.0, "Cel")]
    [InlineData(QuantityCodes.PaleLead, 0.0, "d")]
    [InlineData(QuantityCodes.PaleLead, 900.0, "d")]
    public void A_choice_that_makes_no_sense_still_gives_a_forecast(string code, double value, string unit)
    {
        var profile = Profile.With([
            new(code, value, null, null, unit, "to try", "keeper", Instant.FromUtc(2026, 5, 1, 0, 0)),
        ]);
        Assert.Empty(profile.Conflicts);

        var forecast = HatchForecast.From(
            EmbryoPriors.Of(profile),
            new BroodEvidence
            {
                Facts = [new BroodFact.SeenEmpty(-2), new BroodFact.SeenBerried(0)],
                Temperatures = [],
                Assumption = ReferencePriors.UncontrolledRoom,
            }
        );

        Assert.True(double.IsFinite(forecast.Median));
    }
}
