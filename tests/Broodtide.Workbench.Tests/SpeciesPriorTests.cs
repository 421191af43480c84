using Broodtide.Science.Development;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Tests;

/// <summary>
/// The shipped profile and the prior with which the hatch forecast was found honest are the same numbers, up to the
/// digits the profile is written with.
/// </summary>
public sealed class SpeciesPriorTests
{
    private static readonly EmbryoPrior FromProfile = EmbryoPriors.Of(SpeciesProfiles.Reference);

    private static readonly EmbryoPrior Honest = ReferencePriors.ReferenceSpecies;

    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    [Fact]
    public void The_days_at_the_reference_temperature_are_those_of_the_prior_in_both_kinds_of_broods()
    {
        Assert.Equal(Honest.ReferenceTemperature, FromProfile.ReferenceTemperature);
        Assert.Equal(Honest.Requirement.Count, FromProfile.Requirement.Count);
        Assert.All(
            Honest.Requirement.Zip(FromProfile.Requirement),
            pair =>
            {
                Assert.Equal(pair.First.Weight, pair.Second.Weight, 1e-12);
                // A factor of three decimals tells a standard deviation to three.
                AssertClose(pair.First.DaysAtReference, pair.Second.DaysAtReference, 0.0005);
            }
        );
    }

    [Fact]
    public void The_base_temperature_is_that_of_the_prior()
    {
        Assert.Equal(Honest.BaseCelsius, FromProfile.BaseCelsius, 1e-12);
        // The points have two decimals.
        Assert.Equal(Honest.BaseSdCelsius, FromProfile.BaseSdCelsius, 0.005);
    }

    [Fact]
    public void The_signs_are_those_of_the_prior()
    {
        AssertClose(Honest.EyedRatio, FromProfile.EyedRatio, 1e-9);
        AssertClose(Honest.PaleLeadDays, FromProfile.PaleLeadDays, 0.005);
        // Written to two figures, 1.6 to 22.
        AssertClose(Honest.SaddleLeadDays, FromProfile.SaddleLeadDays, 0.01);
    }

    [Fact]
    public void What_no_profile_tells_is_left_as_in_the_prior()
    {
        Assert.Equal(Honest.NightShare, FromProfile.NightShare);
        Assert.Equal(Honest.DarkDays, FromProfile.DarkDays);
        Assert.Equal(Honest.Looks, FromProfile.Looks);
    }

    [Fact]
    public void Beside_the_wider_days_of_pale_eggs_stands_the_report_they_were_borrowed_from()
    {
        var pale = Profile.Quantity(QuantityCodes.PaleLead);
        Assert.Equal(ProfileBounds.Assumed, pale.Bounds);
        // New 2002, FAO Fisheries Technical Paper 428, Macrobrachium rosenbergii.
        var report = Assert.Single(pale.Reports);
        Assert.Equal(ProfileAmount.FromParts(null, 2, 3), report.Amount);
        Assert.Equal(Provenance.Borrowed, report.Provenance);
        Assert.True(pale.Low < report.Amount.Low && report.Amount.High < pale.High);
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
        Assert.Equal(4, EmbryoPriors.Of(chosen).PaleLeadDays.Median, 1e-12);
    }

    private static void AssertClose(LognormalSpread wanted, LognormalSpread found, double tolerance)
    {
        Assert.Equal(wanted.Median, found.Median, 1e-12);
        Assert.Equal(wanted.LogSd, found.LogSd, tolerance);
    }
}
