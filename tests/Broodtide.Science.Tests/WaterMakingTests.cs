using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterMakingTests
{
    private static readonly Gen<Salinity> Salinities = Gen.Double[0.1, 45].Select(Salinity.FromPractical);
    private static readonly Gen<SaltMix> Mixes = Gen.Double[0, 0.3].Select(SaltMix.WithWaterShare);
    private static readonly Gen<Temperature> Temperatures = Gen.Double[5, 35].Select(Temperature.FromCelsius);

    [Fact]
    public void A_batch_made_as_told_has_the_salinity_and_the_volume_wanted() =>
        Gen.Select(Salinities, Gen.Double[0.1, 100], Temperatures, Mixes)
            .Sample(
                (salinity, litres, temperature, mix) =>
                {
                    var batch = MakingSeaWater
                        .ForVolume(salinity, Volume.FromLitres(litres), temperature, mix)
                        .Value;
                    Assert.Equal(salinity.Practical, MakingSeaWater.SalinityOf(batch, mix).Practical, 1e-9);
                    var density = SeawaterDensity.Eos80(salinity, temperature).Value;
                    var volume = (batch.Product + batch.FreshWater) / density;
                    Assert.Equal(litres, volume.Litres, 1e-9 * litres);
                }
            );

    [Fact]
    public void A_batch_in_fresh_water_has_the_salinity_wanted_and_tells_the_moisture() =>
        Gen.Select(Salinities, Gen.Double[0.1, 100], Mixes)
            .Sample(
                (salinity, kilograms, mix) =>
                {
                    var batch = MakingSeaWater.InFreshWater(salinity, Mass.FromKilograms(kilograms), mix);
                    Assert.Equal(salinity.Practical, MakingSeaWater.SalinityOf(batch, mix).Practical, 1e-9);
                    var found = SaltMix.FromTrial(batch.Product, batch.FreshWater, salinity);
                    Assert.Equal(mix.WaterShare, found.WaterShare, 1e-9);
                }
            );

    [Fact]
    public void Salt_added_as_told_raises_water_to_the_salinity_wanted() =>
        Gen.Select(Gen.Double[0, 30], Gen.Double[0, 15], Mixes)
            .Sample(
                (from, more, mix) =>
                {
                    var water = Mass.FromKilograms(8);
                    var before = Salinity.FromPractical(from);
                    var to = Salinity.FromPractical(from + more);
                    var product = MakingSeaWater.ToRaise(water, before, to, mix);
                    var salt =
                        mix.DryIn(product).Grams
                        + (SalinityScales.AbsoluteGramsPerKilogram(before) / 1000 * water.Grams);
                    var after = SalinityScales.FromAbsolute(1000 * salt / (water + product).Grams);
                    Assert.Equal(to.Practical, after.Practical, 1e-9);
                }
            );

    [Fact]
    public void Grams_per_litre_lead_back_to_the_salinity() =>
        Gen.Select(Salinities, Temperatures)
            .Sample(
                (salinity, temperature) =>
                {
                    var perFinished = MakingSeaWater.DrySaltPerLitre(salinity, temperature).Value;
                    Assert.Equal(
                        salinity.Practical,
                        MakingSeaWater
                            .FromProductPerFinishedLitre(perFinished, temperature, default)
                            .Value.Practical,
                        1e-9
                    );
                    var perLitreOfWater = Concentration.FromGramsPerLitre(
                        MakingSeaWater.DryGramsPerKilogramOfWater(salinity)
                            * SeawaterDensity.PureWater(temperature).Value.GramsPerCubicCentimetre
                    );
                    Assert.Equal(
                        salinity.Practical,
                        MakingSeaWater
                            .FromProductPerLitreOfWater(perLitreOfWater, temperature, default)
                            .Value.Practical,
                        1e-9
                    );
                }
            );

    [Fact]
    public void Salt_does_not_lower_a_salinity() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MakingSeaWater.ToRaise(
                Mass.FromKilograms(1),
                Salinity.FromPractical(30),
                Salinity.FromPractical(20),
                default
            )
        );

    [Fact]
    public void The_reference_composition_is_whole() =>
        Assert.Equal(1, SeaSaltComposition.Parts.Sum(part => part.MassFraction), 1e-6);

    [Fact]
    public void The_pure_salts_of_the_recipe_hold_0_149_of_water()
    {
        var salinity = Salinity.FromPractical(35);
        var weighed = KesterRecipe.WeighedGramsPerKilogram(salinity);
        var dry = KesterRecipe.AnhydrousGramsPerKilogram(salinity);
        // Kester et al. 1967 as weighed: 41.31 g/kg, of which 35.17 g dry.
        Assert.Equal(41.31, weighed, 0.01);
        Assert.Equal(0.149, 1 - (dry / weighed), 0.0005);
    }

    [Fact]
    public void Evaporation_keeps_the_salt() =>
        Gen.Select(Salinities, Gen.Double[1, 50], Gen.Double[0, 0.9])
            .Sample(
                (salinity, kilograms, share) =>
                {
                    var mass = Mass.FromKilograms(kilograms);
                    var lost = share * mass;
                    var after = Evaporation.SalinityAfter(salinity, mass, lost);
                    var back = Mixing.ByMass(
                        (Mass.FromGrams(mass.Grams - lost.Grams), after),
                        (lost, default)
                    );
                    Assert.Equal(salinity.Practical, back.Practical, 1e-9);
                }
            );

    [Fact]
    public void Damp_air_takes_less_water_and_salt_holds_it_back() =>
        Gen.Select(Temperatures, Temperatures, Gen.Double[0.2, 0.7])
            .Sample(
                (water, air, humidity) =>
                {
                    var dry = Evaporation.StillAir(default, water, new(air, humidity)).Value;
                    var damp = Evaporation.StillAir(default, water, new(air, humidity + 0.1)).Value;
                    var salty = Evaporation
                        .StillAir(Salinity.FromPractical(35), water, new(air, humidity))
                        .Value;
                    Assert.True(damp <= dry);
                    Assert.True(salty <= dry);
                }
            );

    [Fact]
    public void Nothing_left_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Evaporation.SalinityAfter(
                Salinity.FromPractical(35),
                Mass.FromKilograms(1),
                Mass.FromKilograms(1)
            )
        );

    [Fact]
    public void Two_opinions_on_evaporation_lie_within_a_factor_of_two_at_room_conditions()
    {
        var air = new RoomAir(Temperature.FromCelsius(24), 0.5);
        var water = Temperature.FromCelsius(25);
        var shah = Evaporation.StillAir(default, water, air).Value;
        var pool = Evaporation.QuietPool(default, water, air).Value;
        Assert.InRange(pool / shah, 0.5, 2);
    }
}
