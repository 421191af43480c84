using System.Runtime.Intrinsics;
using Broodtide.Checks;
using Broodtide.Science.Water;
using Broodtide.Science.Water.Rows;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterRowsTests
{
    public enum Width
    {
        Eight,
        Four,
        Two,
        AsTheProcessorHas,
    }

    public static TheoryData<Width> Widths => [.. Enum.GetValues<Width>()];

    // Ratios from nothing to brine: half of them below S = 2, where the low branch holds.
    private static readonly Gen<double> Ratios = Gen.OneOf(Gen.Double[0, 2.5], Gen.Double[0, 0.06]);

    private static readonly Gen<(double, double, double)> Rows = Gen.Select(
        Ratios,
        Gen.Double[-2, 40],
        Gen.Double[0, 10_000]
    );

    [Theory]
    [MemberData(nameof(Widths))]
    public void Salinity_of_many_rows_is_that_of_the_plain_formula(Width width) =>
        Gen.Select(Rows.Array[0, 40], Gen.Bool)
            .Sample(
                (rows, atSurface) =>
                {
                    var (r, t, p) = Columns(rows, atSurface);
                    var plain = new double[rows.Length];
                    PracticalSalinityRows.Plain(r, t, p, plain);
                    var fast = Salinities(width, r, t, p);
                    Agree(plain, fast, 1e-11);
                    Assert.All(plain, s => Assert.True(double.IsFinite(s)));
                }
            );

    [Theory]
    [MemberData(nameof(Widths))]
    public void Density_of_many_rows_is_that_of_the_plain_formula(Width width) =>
        Gen.Select(
                Gen.Select(Gen.Double[0, 50], Gen.Double[-2, 40], Gen.Double[0, 10_000]).Array[0, 40],
                Gen.Bool
            )
            .Sample(
                (rows, atSurface) =>
                {
                    var (s, t, p) = Columns(rows, atSurface);
                    var plain = new double[rows.Length];
                    SeawaterDensityRows.Plain(s, t, p, plain);
                    Agree(plain, Densities(width, s, t, p), 1e-9);
                    Assert.All(plain, rho => Assert.InRange(rho, 980, 1100));
                }
            );

    [Fact]
    public void At_the_surface_the_rows_are_the_single_formulas()
    {
        Gen.Select(Ratios, Gen.Double[-2, 35])
            .Sample(
                (ratio, celsius) =>
                {
                    var temperature = Temperature.FromCelsius(celsius);
                    Span<double> s = [0];
                    Assert.Equal(0, PracticalSalinityRows.FromConductivityRatios([ratio], [celsius], [], s));
                    Assert.Equal(
                        PracticalSalinity.FromConductivityRatio(ratio, temperature).Value.Practical,
                        s[0],
                        1e-11
                    );
                    Span<double> rho = [0];
                    Assert.Equal(0, SeawaterDensityRows.ByEos80(s, [celsius], [], rho));
                    Assert.Equal(
                        SeawaterDensity
                            .Eos80(Salinity.FromPractical(s[0]), temperature)
                            .Value.KilogramsPerCubicMetre,
                        rho[0],
                        1e-9
                    );
                }
            );
    }

    // UNESCO 44: the check values of pressure are from memory, the rows of the water file were read.
    [Theory]
    [MemberData(nameof(Widths))]
    public void Published_salinities_come_out_of_the_rows(Width width)
    {
        var rows = ReferenceFiles
            .Rows("water-checks.csv")
            .Where(row => row.Check!.Quantity == "salinity.from_conductivity_ratio")
            .Select(row => row.Check!)
            .ToArray();
        Assert.True(rows.Length >= 7);
        double[] r = [.. rows.Select(row => Input(row, "R")), 1.2, 0.65, 1.888091];
        double[] t68 = [.. rows.Select(row => Input(row, "t68_C")), 20, 5, 40];
        double[] p = [.. rows.Select(row => Input(row, "p_dbar")), 2000, 1500, 10_000];
        var expected = rows.Select(row => (row.Expected[0], row.Tolerance))
            .Concat([(37.245628, 1e-6), (27.995347, 1e-6), (40.0, 1e-5)])
            .ToArray();
        var found = Salinities(width, r, [.. t68.Select(t => t / 1.00024)], p);
        Assert.All(expected, (value, at) => Assert.Equal(value.Item1, found[at], value.Item2));
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Published_densities_come_out_of_the_rows(Width width)
    {
        var rows = ReferenceFiles
            .Rows("water-checks.csv")
            .Where(row => row.Check!.Quantity == "density.eos80")
            .Select(row => row.Check!)
            .ToArray();
        Assert.True(rows.Length >= 13);
        double[] s = [.. rows.Select(row => Input(row, "S")), 0, 0, 35, 35];
        double[] t68 = [.. rows.Select(row => Input(row, "t68_C")), 5, 25, 5, 25];
        double[] p = [.. rows.Select(_ => 0.0), 10_000, 10_000, 10_000, 10_000];
        var expected = rows.Select(row => (row.Expected[0], row.Tolerance))
            .Concat([(1044.12802, 1e-5), (1037.90204, 1e-5), (1069.48914, 1e-5), (1062.53817, 1e-5)])
            .ToArray();
        var found = Densities(width, s, [.. t68.Select(t => t / 1.00024)], p);
        Assert.All(expected, (value, at) => Assert.Equal(value.Item1, found[at], value.Item2));
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void A_bad_row_has_no_value_and_does_not_touch_its_neighbours(Width width)
    {
        double[] bad = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1e-9, -double.Epsilon];
        for (var at = 0; at < 19; at++)
        {
            foreach (var value in bad)
            {
                foreach (var column in new[] { 0, 1, 2 })
                {
                    if (column == 1 && value is > -1 and < 0)
                    {
                        continue;
                    }

                    double[][] columns =
                    [
                        [.. Enumerable.Repeat(1.0, 19)],
                        [.. Enumerable.Repeat(24.0, 19)],
                        [.. Enumerable.Repeat(100.0, 19)],
                    ];
                    columns[column][at] = value;
                    OnlyOneIsMissing(Salinities(width, columns[0], columns[1], columns[2]), at);
                    OnlyOneIsMissing(Densities(width, columns[0], columns[1], columns[2]), at);
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Where_the_plain_formula_has_no_value_the_rows_have_none(Width width)
    {
        double[] r = [0, 1e-12, 1e300, 0.01, 0.01, 0.02, 1, 1, 1, 0.001, 0.05];
        double[] t = [24, 24, 24, -46.7, 120, 300, -273.15, 1000, 1000.1, -40, 60];
        var plain = new double[r.Length];
        PracticalSalinityRows.Plain(r, t, [], plain);
        Agree(plain, Salinities(width, r, t, []), 1e-9);
        Assert.Contains(plain, double.IsNaN);
        Assert.Equal(0, plain[0]);

        double[] s = [0, 42, 1e6, 1e300, 35, 35, 35];
        double[] warm = [24, -2, 24, 24, -273.15, 1000, 200];
        var densities = new double[s.Length];
        SeawaterDensityRows.Plain(s, warm, [], densities);
        Agree(densities, Densities(width, s, warm, []), 1e-9);
        Assert.Contains(densities, double.IsNaN);
    }

    [Fact]
    public void The_result_may_be_one_of_the_columns()
    {
        double[] r = [.. Enumerable.Range(0, 21).Select(i => i / 10.0)];
        double[] t = [.. Enumerable.Range(0, 21).Select(i => i + 5.0)];
        var apart = new double[21];
        PracticalSalinityRows.FromConductivityRatios(r, t, [], apart);
        PracticalSalinityRows.FromConductivityRatios(r, t, [], r);
        Assert.Equal(apart, r);
        Assert.Throws<ArgumentException>(() =>
            PracticalSalinityRows.FromConductivityRatios(t.AsSpan(0, 20), t.AsSpan(0, 20), [], t.AsSpan(1))
        );
        Assert.Throws<ArgumentException>(() => SeawaterDensityRows.ByEos80(r, t.AsSpan(1), [], apart));
        Assert.Throws<ArgumentException>(() => SeawaterDensityRows.ByEos80(r, t, [1], apart));
    }

    [Fact]
    public void The_number_of_rows_without_a_value_is_told()
    {
        double[] r = [.. Enumerable.Range(0, 37).Select(i => i % 5 == 0 ? double.NaN : 1)];
        var t = Enumerable.Repeat(24.0, 37).ToArray();
        var s = new double[37];
        Assert.Equal(8, PracticalSalinityRows.FromConductivityRatios(r, t, [], s));
        Assert.Equal(8, SeawaterDensityRows.ByEos80(s, t, [], s));
        Assert.Equal(0, PracticalSalinityRows.FromConductivityRatios([], [], [], []));
    }

    private static void OnlyOneIsMissing(double[] found, int at) =>
        Assert.All(found, (value, i) => Assert.Equal(i == at, double.IsNaN(value)));

    private static void Agree(double[] expected, double[] found, double tolerance) =>
        Assert.All(
            expected,
            (value, at) =>
            {
                if (double.IsNaN(value))
                {
                    Assert.Equal(double.NaN, found[at]);
                }
                else
                {
                    Assert.Equal(value, found[at], tolerance * Math.Max(1, Math.Abs(value)));
                }
            }
        );

    private static (double[] First, double[] Celsius, double[] Decibar) Columns(
        (double, double, double)[] rows,
        bool atSurface
    ) =>
        (
            [.. rows.Select(row => row.Item1)],
            [.. rows.Select(row => row.Item2)],
            atSurface ? [] : [.. rows.Select(row => row.Item3)]
        );

    private static double Input(CheckRow row, string name) => row.Inputs.Number(name);

    private static double[] Salinities(Width width, double[] r, double[] t, double[] p)
    {
        var s = new double[r.Length];
        switch (width)
        {
            case Width.Eight:
                PracticalSalinityRows.Fill<EightLanes, Vector512<double>>(r, t, p, s);
                break;
            case Width.Four:
                PracticalSalinityRows.Fill<FourLanes, Vector256<double>>(r, t, p, s);
                break;
            case Width.Two:
                PracticalSalinityRows.Fill<TwoLanes, Vector128<double>>(r, t, p, s);
                break;
            default:
                Assert.Equal(PracticalSalinityRows.FromConductivityRatios(r, t, p, s), s.Count(double.IsNaN));
                break;
        }

        return s;
    }

    private static double[] Densities(Width width, double[] s, double[] t, double[] p)
    {
        var rho = new double[s.Length];
        switch (width)
        {
            case Width.Eight:
                SeawaterDensityRows.Fill<EightLanes, Vector512<double>>(s, t, p, rho);
                break;
            case Width.Four:
                SeawaterDensityRows.Fill<FourLanes, Vector256<double>>(s, t, p, rho);
                break;
            case Width.Two:
                SeawaterDensityRows.Fill<TwoLanes, Vector128<double>>(s, t, p, rho);
                break;
            default:
                Assert.Equal(SeawaterDensityRows.ByEos80(s, t, p, rho), rho.Count(double.IsNaN));
                break;
        }

        return rho;
    }
}
