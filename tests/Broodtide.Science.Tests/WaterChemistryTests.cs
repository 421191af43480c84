using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterChemistryTests
{
    private static readonly Gen<Salinity> Salinities = Gen.Double[0, 40].Select(Salinity.FromPractical);
    private static readonly Gen<Temperature> Temperatures = Gen.Double[10, 30]
        .Select(Temperature.FromCelsius);

    [Fact]
    public void More_pH_and_more_warmth_is_more_poison() =>
        Gen.Select(Salinities, Temperatures, Gen.Double[6.5, 9])
            .Sample(
                (salinity, temperature, pH) =>
                {
                    var here = Ammonia.Fraction(salinity, temperature, pH).Value;
                    var warmer = temperature + TemperatureDifference.FromCelsius(1);
                    Assert.True(Ammonia.Fraction(salinity, temperature, pH + 0.1).Value > here);
                    Assert.True(Ammonia.Fraction(salinity, warmer, pH).Value > here);
                }
            );

    // The usual constant and that of another team on the free scale agree within 0.012 in pKa at 25 degC; values of
    // Clegg and Whitfield 1995 moved to the free scale, percent at pH 8 (own evaluation).
    [Theory]
    [InlineData(0, 5.39)]
    [InlineData(10, 5.11)]
    [InlineData(20, 4.82)]
    [InlineData(35, 4.39)]
    public void The_usual_constant_agrees_with_the_modern_one_on_the_free_scale(double s, double percent) =>
        Assert.Equal(
            percent,
            Ammonia.Fraction(Salinity.FromPractical(s), Temperature.FromCelsius(25), 8).Value.Percent,
            0.12
        );

    [Fact]
    public void Ammonia_as_nitrogen_and_as_itself_lead_back_to_each_other() =>
        Gen.Double[0, 100]
            .Sample(mg =>
            {
                var nitrogen = Concentration.FromMilligramsPerLitre(mg);
                Assert.Equal(
                    mg,
                    Ammonia.AsNitrogen(Ammonia.AsAmmonia(nitrogen)).MilligramsPerLitre,
                    1e-12 * (1 + mg)
                );
                Assert.Equal(1.2159 * mg, Ammonia.AsAmmonia(nitrogen).MilligramsPerLitre, 1e-4 * (1 + mg));
            });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-1)]
    [InlineData(15)]
    public void A_pH_that_is_none_is_refused(double pH) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Ammonia.Fraction(default, Temperature.FromCelsius(25), pH)
        );

    [Fact]
    public void Two_formulas_for_oxygen_agree_within_three_thousandths_in_sea_water() =>
        Gen.Double[0, 30]
            .Sample(t =>
            {
                var salinity = Salinity.FromPractical(35);
                var temperature = Temperature.FromCelsius(t);
                Assert.Equal(
                    OxygenSaturation.At(salinity, temperature).Value.MilligramsPerLitre,
                    OxygenSaturation.ByGarciaGordon(salinity, temperature).Value.MilligramsPerLitre,
                    0.003
                );
            });

    [Fact]
    public void Water_in_balance_with_air_is_full_to_a_hundred_per_cent()
    {
        var salinity = Salinity.FromPractical(17);
        var temperature = Temperature.FromCelsius(25);
        var full = OxygenSaturation.At(salinity, temperature, 0.95).Value;
        Assert.Equal(100, OxygenSaturation.PercentOf(full, salinity, temperature, 0.95).Value, 1e-9);
    }

    [Fact]
    public void Air_thinner_than_water_vapour_holds_no_oxygen() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            OxygenSaturation.At(default, Temperature.FromCelsius(30), 0.01)
        );

    [Fact]
    public void Osmolality_rises_with_salt_and_is_marked_for_fresh_water()
    {
        Gen.Select(Gen.Double[1, 44], Temperatures)
            .Sample(
                (s, temperature) =>
                    Assert.True(
                        Osmolality
                            .MillimolesPerKilogramOfWater(Salinity.FromPractical(s + 0.1), temperature)
                            .Value
                            > Osmolality
                                .MillimolesPerKilogramOfWater(Salinity.FromPractical(s), temperature)
                                .Value
                    )
            );
        Assert.False(
            Osmolality.MillimolesPerKilogramOfWater(default, Temperature.FromCelsius(25)).WithinPublishedRange
        );
    }

    [Fact]
    public void Bleach_and_thiosulfate_keep_the_books()
    {
        var dose = Concentration.FromMilligramsPerLitre(5);
        var water = Volume.FromLitres(20);
        var strength = Concentration.FromGramsPerLitre(40);
        var bleach = Chlorine.BleachFor(dose, water, strength);
        Assert.Equal((dose * water).Grams, (strength * bleach).Grams, 1e-12);
        Assert.Equal(
            Chlorine.UsualThiosulfateGramsPerGram,
            Chlorine.ThiosulfatePerGram(ThiosulfateForm.Pentahydrate, ThiosulfateReaction.Tetrathionate),
            0.01
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => Chlorine.BleachFor(dose, water, default));
        Assert.Throws<ArgumentOutOfRangeException>(() => Chlorine.ThiosulfateFor(dose, water, 0));
    }
}
