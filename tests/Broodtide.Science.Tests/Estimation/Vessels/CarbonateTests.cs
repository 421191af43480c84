using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Estimation.Vessels;

public sealed class CarbonateTests
{
    private static readonly Salinity Sea = Salinity.FromPractical(35);
    private static readonly Temperature Warm = Temperature.FromCelsius(25);

    // S 35, 25 degC. Carbonic acid against Lueker et al. 2000, Mar. Chem. 70:105, another fit: pK1 5.8471 and pK2 8.9662 by
    // its formula. The others: check values of Dickson, Sabine and Christian 2007, from memory.
    [Fact]
    public void Constants_agree_with_the_published_values()
    {
        var constants = CarbonateConstants.At(Sea, Warm).Value;
        Assert.Equal(-3.5617, Math.Log(constants.SolubilityPerAtmosphere), 1e-4);
        Assert.Equal(5.8471, -Math.Log10(constants.First), 0.01);
        Assert.Equal(8.9662, -Math.Log10(constants.Second), 0.02);
        Assert.Equal(-19.7964, Math.Log(constants.Boric), 1e-3);
        Assert.Equal(-30.434, Math.Log(constants.Water), 2e-3);
        Assert.Equal(1 + (0.02824 / Math.Exp(-2.30)), constants.TotalPerFree, 5e-3);
    }

    [Fact]
    public void Outside_the_published_waters_it_says_so()
    {
        Assert.True(CarbonateConstants.At(Sea, Warm).WithinPublishedRange);
        Assert.False(CarbonateConstants.At(Salinity.FromPractical(46), Warm).WithinPublishedRange);
    }

    [Fact]
    public void Sea_water_at_rest_with_the_air_has_its_known_acidity_and_carbon()
    {
        // Surface sea water of 2.3 meq/kg under 400 microatmospheres: pH about 8.05 (total), carbon about 2.0 mmol/kg.
        var terms = new CarbonateTerms(Sea, Warm);
        var alkalinity = 2.3e-3 * terms.PerLitre;
        var hydrogen = terms.HydrogenAtCarbonDioxide(alkalinity, 400 * terms.PerMicroatmosphere);
        Assert.InRange(-Math.Log10(hydrogen / terms.PerLitre), 8.02, 8.08);
        var carbon = terms.CarbonAt(alkalinity, hydrogen);
        Assert.InRange(carbon / terms.PerLitre, 1.94e-3, 2.04e-3);
        Assert.Equal(1, terms.Hydrogen(carbon, alkalinity) / hydrogen, 1e-9);
        Assert.Equal(terms.PhOf(hydrogen), -Math.Log10(hydrogen / terms.PerLitre / terms.TotalPerFree), 12);
    }
}
