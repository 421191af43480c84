using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterRefractometerTests
{
    private static readonly Gen<Salinity> Salinities = Gen.Double[0.1, 42].Select(Salinity.FromPractical);
    private static readonly Gen<Temperature> Temperatures = Gen.Double[5, 30].Select(Temperature.FromCelsius);
    private static readonly Gen<RefractometerZero> Zeros = Gen.Bool.Select(zeroed =>
        zeroed ? RefractometerZero.Water : RefractometerZero.None
    );

    [Fact]
    public void The_index_leads_back_to_the_salinity() =>
        Gen.Select(Salinities, Temperatures, Gen.Double[400, 700])
            .Sample(
                (salinity, temperature, wavelength) =>
                {
                    var index = RefractiveIndex.Of(salinity, temperature, wavelength);
                    Assert.Equal(
                        salinity.Practical,
                        RefractiveIndex.SalinityAt(index.Value, temperature, wavelength).Value.Practical,
                        1e-8
                    );
                }
            );

    [Fact]
    public void A_brine_scale_leads_back_to_the_salinity() =>
        Gen.Select(
                Gen.Double[3, 42].Select(Salinity.FromPractical),
                Gen.Double[5, 20].Select(Temperature.FromCelsius),
                Zeros
            )
            .Sample(
                (salinity, temperature, zero) =>
                {
                    var shown = Refractometer.BrineScaleShows(salinity, temperature, zero);
                    Assert.Equal(
                        salinity.Practical,
                        Refractometer.FromBrineScale(shown.Value, temperature, zero).Value.Practical,
                        1e-8
                    );
                }
            );

    [Fact]
    public void A_sea_water_scale_leads_back_to_the_salinity() =>
        Gen.Select(Salinities, Temperatures, Temperatures, Zeros)
            .Sample(
                (salinity, temperature, scale, zero) =>
                {
                    var shown = Refractometer.SeaWaterScaleShows(salinity, temperature, scale, zero);
                    Assert.Equal(
                        salinity.Practical,
                        Refractometer
                            .FromSeaWaterScale(shown.Value, temperature, scale, zero)
                            .Value.Practical,
                        1e-8
                    );
                }
            );

    [Fact]
    public void A_sea_water_scale_at_its_own_temperature_tells_the_truth() =>
        Gen.Select(Salinities, Temperatures, Zeros)
            .Sample(
                (salinity, temperature, zero) =>
                    Assert.Equal(
                        salinity.Practical,
                        Refractometer.SeaWaterScaleShows(salinity, temperature, temperature, zero).Value,
                        1e-8
                    )
            );

    [Fact]
    public void A_standard_of_plain_salt_for_35_is_3_65_per_cent()
    {
        // R. Holmes-Farley after the CRC Handbook, 57th edition: 36.5 g of NaCl and 963.5 g of water.
        var matching = SodiumChlorideSolution.PercentMatchingIndexOf(
            Salinity.FromPractical(35),
            Temperature.FromCelsius(20)
        );
        Assert.Equal(3.65, matching.Value, 0.03);
        Assert.True(matching.WithinPublishedRange);
    }

    [Fact]
    public void An_index_below_fresh_water_is_no_salinity() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            RefractiveIndex.SalinityAt(1.33, Temperature.FromCelsius(20))
        );

    [Fact]
    public void Salt_that_no_longer_dissolves_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SodiumChlorideSolution.DensityAt20(30));
        Assert.Throws<ArgumentOutOfRangeException>(() => SodiumChlorideSolution.RefractiveIndexAt20(-0.1));
        Assert.False(SodiumChlorideSolution.DensityAt20(20).WithinPublishedRange);
    }
}
