using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterDensityTests
{
    // Fofonoff and Millard 1983, UNESCO Tech. Pap. Mar. Sci. 44, check list p. 19 (IPTS-68).
    [Theory]
    [InlineData(0, 5, 999.96675)]
    [InlineData(35, 25, 1023.34306)]
    public void EOS80_gives_the_check_values_of_its_paper(double s, double t68, double expected) =>
        Assert.Equal(
            expected,
            SeawaterDensity
                .Eos80(Salinity.FromPractical(s), Temperature.FromCelsiusIpts68(t68))
                .Value.KilogramsPerCubicMetre,
            0.00002
        );

    [Fact]
    public void Salinity_to_density_and_back_is_the_same_salinity() =>
        Gen.Select(Gen.Double[0, 60], Gen.Double[-2, 40])
            .Sample(
                (s, t) =>
                {
                    var temperature = Temperature.FromCelsius(t);
                    var density = SeawaterDensity.Eos80(Salinity.FromPractical(s), temperature).Value;
                    var back = SeawaterDensity.SalinityAt(density, temperature);
                    Assert.Equal(s, back.Value.Practical, 1e-8);
                }
            );

    [Fact]
    public void Outside_the_published_range_there_is_a_number_and_a_mark()
    {
        var salty = SeawaterDensity.Eos80(Salinity.FromPractical(50), Temperature.FromCelsius(25));
        var hot = SeawaterDensity.Eos80(Salinity.FromPractical(35), Temperature.FromCelsius(45));
        var plain = SeawaterDensity.Eos80(Salinity.FromPractical(42), Temperature.FromCelsius(25));
        Assert.False(salty.WithinPublishedRange);
        Assert.False(hot.WithinPublishedRange);
        Assert.True(plain.WithinPublishedRange);
        Assert.True(salty.Value > plain.Value);
    }

    [Fact]
    public void Water_lighter_than_fresh_water_has_no_salinity()
    {
        var light = Density.FromKilogramsPerCubicMetre(990);
        var temperature = Temperature.FromCelsius(20);
        Assert.False(SeawaterDensity.TrySalinityAt(light, temperature, out _));
        Assert.Throws<ArgumentOutOfRangeException>(() => SeawaterDensity.SalinityAt(light, temperature));
    }

    [Fact]
    public void Pure_water_has_salinity_zero()
    {
        var temperature = Temperature.FromCelsius(22);
        var density = SeawaterDensity.PureWater(temperature).Value;
        Assert.Equal(0, SeawaterDensity.SalinityAt(density, temperature).Value.Practical, 1e-9);
    }
}
