using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Tests;

public sealed class SpeciesProfileTests
{
    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    [Fact]
    public void Larvae_complete_at_17_to_34_which_was_measured()
    {
        // Kondo, Hamasaki and Dan 2021, Crustacean Research 50:41-54.
        Assert.Equal(
            new(Salinity.FromPractical(17), Salinity.FromPractical(34)),
            Profile.LarvalSalinityCompleting
        );
        Assert.Equal(Provenance.Measured, Profile.Quantity(QuantityCodes.LarvalSalinity).Provenance);
    }

    [Fact]
    public void Salinities_of_35_to_36_are_common_practice_with_no_source()
    {
        var high = Profile.Quantity("larval-salinity-high-practice");
        Assert.Equal((35, 36), (high.Low, high.High));
        Assert.Equal(Provenance.Practice, high.Provenance);
        Assert.Equal("common practice, no source", high.Source);
    }

    [Fact]
    public void The_default_target_is_30_in_a_band_of_25_to_34_inside_the_measured_range()
    {
        Assert.Equal(Salinity.FromPractical(30), Profile.LarvalSalinityTarget);
        Assert.Equal(new(Salinity.FromPractical(25), Salinity.FromPractical(34)), Profile.LarvalSalinityBand);
        Assert.True(Profile.LarvalSalinityBand.Contains(Profile.LarvalSalinityTarget));
        Assert.True(Profile.LarvalSalinityCompleting.Contains(Profile.LarvalSalinityBand.Low));
        Assert.True(Profile.LarvalSalinityCompleting.Contains(Profile.LarvalSalinityBand.High));
        Assert.Equal(Provenance.Assumed, Profile.Quantity(QuantityCodes.LarvalSalinityTarget).Provenance);
    }

    [Fact]
    public void The_typed_doors_give_the_numbers_of_the_file()
    {
        Assert.Equal(637.5, Profile.EmbryoThermal.DegreeDays);
        Assert.Equal(1.169, Profile.EmbryoThermal.SpreadFactor);
        Assert.Equal(1.778, Profile.EmbryoThermal.OddSpreadFactor);
        Assert.Equal(0.06, Profile.EmbryoThermal.OddShare.Value);
        Assert.Equal(25, Profile.EmbryoThermal.ReferenceDays!.Value, 12);
        Assert.Equal(5, Profile.EmbryoThermal.BaseTemperature.Celsius);
        Assert.Equal(-0.76, Profile.EmbryoThermal.BaseTemperatureLow.Celsius, 12);
        Assert.Equal(10.76, Profile.EmbryoThermal.BaseTemperatureHigh.Celsius, 12);
        Assert.Equal(Units.Interval.FromPoints(1.6, 6, 22), Profile.HatchSigns.SaddleLeadDays);
        Assert.Equal(1.0 / 3, Profile.HatchSigns.EyedShareLow, 12);
        Assert.Equal(0.75, Profile.HatchSigns.EyedShareHigh);
        Assert.Equal(Units.Interval.FromPoints(1.19, 2.5, 5.24), Profile.HatchSigns.PaleLeadDays);
        Assert.Equal(Duration.FromMinutes(15), Profile.BrackishLimit);
        Assert.Equal(new(Salinity.FromPractical(1), Salinity.FromPractical(17)), Profile.BrackishSalinity);
        Assert.Equal(0.05, Profile.SafetyLimits.UnionisedAmmoniaNitrogen.MilligramsPerLitre);
        Assert.Equal(0.328, Profile.SafetyLimits.NitriteNitrogen.MilligramsPerLitre);
        Assert.Equal(5, Profile.SafetyLimits.DissolvedOxygen.MilligramsPerLitre);
        Assert.Equal((7.0, 8.5), (Profile.SafetyLimits.PhLow, Profile.SafetyLimits.PhHigh));
        Assert.Equal(29, Profile.SafetyLimits.LossesFrom.Celsius);
        Assert.Equal(30, Profile.LarvaePerLitre);
        Assert.Equal((28.0, 62.0), (Profile.LarvalDaysLow, Profile.LarvalDaysHigh));
        Assert.Equal(Duration.FromDays(5), Profile.LarvaFreshWaterLethal);
        Assert.Equal(1, Profile.VesselStepPractical);
        Assert.Equal(1, Profile.VesselStepTemperature.Celsius);
    }

    [Fact]
    public void Every_assumption_says_in_a_note_what_it_rests_on_or_is_a_step_of_this_project()
    {
        Assert.All(
            Profile.Quantities.Where(q => q.Provenance == Provenance.Assumed),
            q =>
                Assert.True(
                    q.Note is not null || q.Code.StartsWith("vessel-", StringComparison.Ordinal),
                    q.Code
                )
        );
    }

    [Fact]
    public void A_profile_is_found_by_code_or_scientific_name_and_a_stranger_is_not()
    {
        Assert.Same(Profile, SpeciesProfiles.Find("CARIDINA-multidentata"));
        Assert.Same(Profile, SpeciesProfiles.Find("Caridina multidentata"));
        Assert.Null(SpeciesProfiles.Find("Palaemon serratus"));
        Assert.Null(SpeciesProfiles.Find(null));
        Assert.Contains(Profile, SpeciesProfiles.All);
    }

    [Fact]
    public void An_unknown_code_is_a_programmers_mistake_only_where_a_quantity_is_demanded()
    {
        Assert.Throws<ArgumentException>(() => Profile.Quantity("no-such-thing"));
        Assert.Null(Profile.Find("no-such-thing"));
        Assert.Null(Profile.Find(null));
    }

    [Fact]
    public void A_profile_as_shipped_has_no_choices_and_no_conflicts()
    {
        Assert.All(Profile.Quantities, quantity => Assert.Null(quantity.Chosen));
        Assert.Empty(Profile.Conflicts);
    }
}
