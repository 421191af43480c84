using System.Globalization;
using Broodtide.Science.Counting;
using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Food;

public sealed class ChamberAndMediaTests
{
    private static readonly Probability Usual = Probability.FromFraction(0.95);

    [Theory]
    // Chamber geometry, food-and-growth-checks.csv, count.haemocytometer.
    [InlineData("neubauer-middle", 218, 25, 1, 2.18e6)]
    [InlineData("neubauer-middle", 95, 5, 2, 9.5e6)]
    [InlineData("fuchs-rosenthal", 320, 16, 1, 1e5)]
    // A large square holds 1e-4 mL, one square of 1 mm2 of Fuchs-Rosenthal 2e-4 mL: food-and-growth.md 1.
    [InlineData("neubauer", 1, 1, 1, 1e4)]
    [InlineData("fuchs-rosenthal", 1, 1, 1, 5e3)]
    [InlineData("sedgewick-rafter", 1000, 1000, 1, 1e3)]
    public void Chambers_stand_for_the_volume_of_their_geometry(
        string chamber,
        int seen,
        int squares,
        double dilution,
        double perMillilitre
    )
    {
        var counts = Enumerable.Repeat(seen / squares, squares).ToArray();
        counts[0] += seen % squares;
        var density = ChamberDensity.Of(counts, CountingChamber.Find(chamber)!, dilution, 0, Usual);
        Assert.Equal(perMillilitre, density.Estimate.PerMillilitre, 1e-9 * perMillilitre);
        Assert.Equal(perMillilitre / dilution, density.InChamber.PerMillilitre, 1e-9 * perMillilitre);
    }

    [Theory]
    // Garwood 1936, Biometrika 28:437: food-and-growth-checks.csv, count.poisson_exact_ci.
    [InlineData(10, 4.795, 18.39)]
    [InlineData(100, 81.364, 121.627)]
    public void Limits_by_chance_are_Garwoods(int seen, double lower, double upper)
    {
        var density = ChamberDensity.Of([seen], CountingChamber.Find("neubauer")!, 1, 0, Usual);
        Assert.Equal(lower * 1e4, density.ByChance.Lower, 100.0);
        Assert.Equal(upper * 1e4, density.ByChance.Upper, 100.0);
        Assert.Equal(density.ByChance.Lower, density.InAll.Lower, 1e-6 * density.InAll.Lower);
    }

    [Fact]
    public void The_error_of_the_chamber_widens_the_limits_as_a_square()
    {
        var none = ChamberDensity.Of([100], CountingChamber.Find("neubauer")!, 1, 0, Usual);
        var some = ChamberDensity.Of([100], CountingChamber.Find("neubauer")!, 1, 0.1, Usual);
        var chance = Math.Log(none.InAll.Upper / 1e6);
        Assert.Equal(
            Math.Sqrt((chance * chance) + Math.Pow(1.959964 * 0.1, 2)),
            Math.Log(some.InAll.Upper / 1e6),
            1e-5
        );
    }

    [Fact]
    public void None_counted_leaves_an_upper_limit_above_three_cells()
    {
        var density = ChamberDensity.Of([0, 0], CountingChamber.Find("neubauer")!, 1, 0.1, Usual);
        Assert.Equal(0, density.ByChance.Lower);
        Assert.True(density.ByChance.Upper / (1e4 / 2) > 3);
    }

    [Fact]
    public void Half_F_agrees_with_the_table_of_Guillard()
    {
        // Guillard and Ryther 1962, Guillard 1975: mg/L as read in a culture sheet, umol/L by molar masses; the last
        // digit of the printed table.
        var table = new Dictionary<string, (double Milligrams, double Micromoles)>
        {
            ["NaNO3"] = (75, 882.4),
            ["NaH2PO4.H2O"] = (5, 36.23),
            ["Na2SiO3.9H2O"] = (30, 105.6),
            ["FeCl3.6H2O"] = (3.15, 11.65),
            ["Na2EDTA.2H2O"] = (4.36, 11.71),
            ["CuSO4.5H2O"] = (0.0098, 0.03925),
            ["Na2MoO4.2H2O"] = (0.0063, 0.02604),
            ["ZnSO4.7H2O"] = (0.022, 0.07651),
            ["CoCl2.6H2O"] = (0.01, 0.04203),
            ["MnCl2.4H2O"] = (0.18, 0.9095),
            ["thiamine.HCl"] = (0.1, 0.2965),
            ["biotin"] = (0.0005, 0.002047),
            ["cyanocobalamin"] = (0.0005, 0.0003689),
        };
        Assert.Equal(table.Count, CultureMedia.HalfF.Substances.Length);
        foreach (var substance in CultureMedia.HalfF.Substances)
        {
            var (milligrams, micromoles) = table[substance.Formula];
            Assert.Equal(milligrams, substance.Dissolved.MilligramsPerLitre, 1e-12);
            Assert.Equal(
                micromoles.ToString("G4", CultureInfo.InvariantCulture),
                substance.MicromolesPerLitre.ToString("G4", CultureInfo.InvariantCulture)
            );
        }

        // 882 umol N, 12.35 mg/L, as tabulated in an Interface Focus paper of 2013.
        Assert.Equal(12.35, CultureMedia.HalfF.Nitrogen.MilligramsPerLitre, 0.02);
    }

    [Theory]
    // After Brown 1991, food-and-growth.md 2.4: one Tetraselmis chui is about 9 Isochrysis or 44 Nannochloropsis.
    [InlineData("isochrysis", 9)]
    [InlineData("nannochloropsis", 44)]
    public void Foods_compare_by_dry_mass(string other, double cells)
    {
        var mass = DryMass.Of(
            CellDensity.FromPerMillilitre(1e4),
            AlgaKind.Find("tetraselmis")!.DryPicogramsPerCell
        );
        Assert.Equal(
            cells,
            DryMass.Cells(mass, AlgaKind.Find(other)!.DryPicogramsPerCell).PerMillilitre / 1e4,
            0.2
        );
    }
}
