using Broodtide.Science.Development;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Tests;

/// <summary>
/// The shipped profile and the prior with which the hatch forecast was found honest are the same numbers, up to the
/// digits the profile is written with.
/// </summary>
public sealed class SpeciesPriorTests
{
    // The profile writes factors and shares with three decimals, days and degrees with two.
    private const double HalfOfThirdDecimal = 0.0005;
    private const double HalfOfSecondDecimal = 0.005;

    // 95 % point of the standard normal distribution; Abramowitz and Stegun 1972, table 26.1.
    private const double Normal95 = 1.644854;

    private static SpeciesProfile Profile => SpeciesProfiles.CaridinaMultidentata;

    private static EmbryoPrior Prior => ReferencePriors.CaridinaMultidentata;

    [Fact]
    public void The_measured_days_and_their_temperature_are_those_of_the_prior()
    {
        Assert.Equal(Prior.ReferenceTemperature, Profile.EmbryoThermal.ReferenceTemperature);
        Assert.All(
            Prior.Requirement,
            part =>
                Assert.Equal(Profile.EmbryoThermal.ReferenceDays!.Value, part.DaysAtReference.Median, 1e-12)
        );
    }

    [Fact]
    public void The_spread_of_ordinary_and_of_odd_broods_is_that_of_the_prior()
    {
        Assert.Equal(2, Prior.Requirement.Count);
        var (ordinary, odd) = (Prior.Requirement[0], Prior.Requirement[1]);
        Assert.Equal(1, ordinary.Weight + odd.Weight, 1e-12);
        Assert.Equal(odd.Weight, Profile.EmbryoThermal.OddShare.Value, 1e-12);
        Assert.Equal(
            Factor(ordinary.DaysAtReference),
            Profile.EmbryoThermal.SpreadFactor,
            HalfOfThirdDecimal
        );
        Assert.Equal(Factor(odd.DaysAtReference), Profile.EmbryoThermal.OddSpreadFactor, HalfOfThirdDecimal);
    }

    [Fact]
    public void The_base_temperature_and_its_points_are_those_of_the_prior()
    {
        var reach = Normal95 * Prior.BaseSdCelsius;
        var thermal = Profile.EmbryoThermal;
        Assert.Equal(Prior.BaseCelsius, thermal.BaseTemperature.Celsius, 1e-12);
        Assert.Equal(Prior.BaseCelsius - reach, thermal.BaseTemperatureLow.Celsius, HalfOfSecondDecimal);
        Assert.Equal(Prior.BaseCelsius + reach, thermal.BaseTemperatureHigh.Celsius, HalfOfSecondDecimal);
    }

    [Fact]
    public void The_share_at_which_eyes_show_is_that_of_the_prior()
    {
        var points = Points(Prior.EyedRatio);
        Assert.Equal(points.Low, Profile.HatchSigns.EyedShareLow, HalfOfThirdDecimal);
        Assert.Equal(points.High, Profile.HatchSigns.EyedShareHigh, HalfOfThirdDecimal);
    }

    [Fact]
    public void The_lead_of_pale_eggs_is_that_of_the_prior_and_the_borrowed_report_stands_beside_it()
    {
        AssertClose(Points(Prior.PaleLeadDays), Profile.HatchSigns.PaleLeadDays, HalfOfSecondDecimal);

        var pale = Profile.Quantity(QuantityCodes.PaleLead);
        Assert.Equal(ProfileBounds.Assumed, pale.Bounds);
        // New 2002, FAO Fisheries Technical Paper 428, Macrobrachium rosenbergii.
        var report = Assert.Single(pale.Reports);
        Assert.Equal(ProfileAmount.FromParts(null, 2, 3), report.Amount);
        Assert.Equal(Provenance.Borrowed, report.Provenance);
        Assert.True(pale.Low < report.Amount.Low && report.Amount.High < pale.High);
    }

    [Fact]
    public void The_lead_of_a_new_saddle_is_that_of_the_prior()
    {
        // Written to two figures: 1.6, 6, 22.
        var points = Points(Prior.SaddleLeadDays);
        Assert.Equal(points.Low, Profile.HatchSigns.SaddleLeadDays.Low, 0.05);
        Assert.Equal(points.Middle, Profile.HatchSigns.SaddleLeadDays.Middle, 1e-12);
        Assert.Equal(points.High, Profile.HatchSigns.SaddleLeadDays.High, 0.5);
    }

    [Fact]
    public void Pale_days_the_keeper_has_seen_stand_in_for_those_of_the_profile()
    {
        var chosen = Profile.With([
            new(
                QuantityCodes.PaleLead,
                4,
                3,
                6,
                "d",
                "seen in three broods",
                "keeper",
                NodaTime.Instant.FromUtc(2026, 5, 1, 0, 0)
            ),
        ]);
        Assert.Equal(Interval.FromPoints(3, 4, 6), chosen.HatchSigns.PaleLeadDays);
    }

    private static double Factor(LognormalSpread spread) => Math.Exp(Normal95 * spread.LogSd);

    private static Interval Points(LognormalSpread spread) =>
        Interval.FromPoints(spread.Median / Factor(spread), spread.Median, spread.Median * Factor(spread));

    private static void AssertClose(Interval wanted, Interval found, double tolerance)
    {
        Assert.Equal(wanted.Low, found.Low, tolerance);
        Assert.Equal(wanted.Middle, found.Middle, tolerance);
        Assert.Equal(wanted.High, found.High, tolerance);
    }
}
