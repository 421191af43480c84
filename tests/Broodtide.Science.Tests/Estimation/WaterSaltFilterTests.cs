using Broodtide.Science.Estimation;
using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation;

public sealed class WaterSaltFilterTests
{
    private static readonly Temperature Warm = Temperature.FromCelsius(25);

    private static WaterSaltFilter Three()
    {
        var filter = new WaterSaltFilter();
        filter.Add(Volume.FromLitres(8), 0.2, Salinity.FromPractical(32), 0.5, Warm, 0.1);
        filter.Add(Volume.FromLitres(4), 0.1, Salinity.FromPractical(20), 1, Warm, 0.05);
        filter.Add(Volume.FromLitres(20), 0.5, default, 0.1, Warm, 0.2);
        return filter;
    }

    [Fact]
    public void A_new_vessel_shows_the_volume_and_salinity_it_was_given()
    {
        var filter = Three();

        Assert.Equal(8, filter.ExpectVolume(0).Mean, 1e-9);
        Assert.Equal(0.2, filter.ExpectVolume(0).Sd, 1e-3);
        Assert.Equal(32, filter.ExpectSalinity(0).Mean, 1e-9);
        Assert.Equal(0.5, filter.ExpectSalinity(0).Sd, 1e-9);
    }

    [Fact]
    public void The_salt_in_a_litre_is_that_of_the_published_recipe()
    {
        // 35.99 g of anhydrous salt in a litre of S 35 at 25 degC: TEOS-10 through GSW-C, water.md section 7.
        var filter = new WaterSaltFilter();
        filter.Add(Volume.FromLitres(1), 0, Salinity.FromPractical(35), 0, Warm, 0);

        Assert.Equal(35.99, filter.ExpectSaltGrams(0).Mean, 0.01);
    }

    [Fact]
    public void Pouring_between_vessels_creates_and_destroys_no_salt() =>
        Gen.Select(Gen.Int[0, 2], Gen.Int[0, 3], Gen.Double[0, 3], Gen.Double[0, 20])
            .Array[1, 60]
            .Sample(moves =>
            {
                var filter = Three();
                var start = filter.TotalSaltGrams;
                var lost = 0.0;
                foreach (var (from, to, litres, days) in moves)
                {
                    filter.Advance(days);
                    var target = to == 3 ? (int?)null : to;
                    if (target == from)
                    {
                        continue;
                    }

                    var poured = filter.Pour(from, target, Volume.FromLitres(litres), 0.03 * litres);
                    lost += target is null ? poured.SaltGrams : 0;
                }

                Assert.Equal(start, filter.TotalSaltGrams + lost, 1e-9 * start);
            });

    [Fact]
    public void Evaporation_takes_water_and_leaves_the_salt()
    {
        // S1 = S0 m / (m - e): water.md section 8.
        var filter = new WaterSaltFilter();
        filter.Add(Volume.FromLitres(10), 0, Salinity.FromPractical(30), 0, Warm, 0.1);
        var massKg =
            10 * SeawaterDensity.Eos80(Salinity.FromPractical(30), Warm).Value.KilogramsPerCubicMetre / 1000;
        filter.Advance(10);

        Assert.Equal(30 * massKg / (massKg - 1), filter.ExpectSalinity(0).Mean, 1e-9);
    }

    [Fact]
    public void Two_waters_poured_together_have_the_salinity_of_mixing_by_mass()
    {
        var filter = new WaterSaltFilter();
        var salt = filter.Add(Volume.FromLitres(2), 0, Salinity.FromPractical(35), 0, Warm, 0);
        var fresh = filter.Add(Volume.FromLitres(3), 0, default, 0, Warm, 0);
        filter.Pour(fresh, salt, Volume.FromLitres(1), 0);

        var expected = Mixing.ByMass(
            (
                Volume.FromLitres(2) * SeawaterDensity.Eos80(Salinity.FromPractical(35), Warm).Value,
                Salinity.FromPractical(35)
            ),
            (Volume.FromLitres(1) * SeawaterDensity.PureWater(Warm).Value, default)
        );
        Assert.Equal(expected.Practical, filter.ExpectSalinity(salt).Mean, 1e-9);
    }

    [Fact]
    public void The_linear_errors_agree_with_a_simulation_of_the_same_pours()
    {
        // The outside judge is brute force: 20,000 worlds drawn with the same errors and poured by mass balance.
        var filter = new WaterSaltFilter();
        var a = filter.Add(Volume.FromLitres(8), 0.2, Salinity.FromPractical(32), 0.6, Warm, 0);
        var b = filter.Add(Volume.FromLitres(5), 0.1, Salinity.FromPractical(12), 0.8, Warm, 0);
        filter.Pour(a, b, Volume.FromLitres(2), 0.06);
        filter.PourIn(a, Volume.FromLitres(1.5), 0.05, default, 0);

        var random = new Random(20260301);
        var seenA = new double[20_000];
        var seenB = new double[20_000];
        for (var i = 0; i < seenA.Length; i++)
        {
            var (va, sa) = (8 + (0.2 * Normal(random)), 32 + (0.6 * Normal(random)));
            var (vb, sb) = (5 + (0.1 * Normal(random)), 12 + (0.8 * Normal(random)));
            var poured = 2 + (0.06 * Normal(random));
            var added = 1.5 + (0.05 * Normal(random));
            var (ra, rb) = (Rho(sa), Rho(sb));
            seenB[i] = ((vb * rb * sb) + (poured * ra * sa)) / ((vb * rb) + (poured * ra));
            seenA[i] = (va - poured) * ra * sa / (((va - poured) * ra) + (added * Rho(0)));
        }

        Assert.Equal(Mean(seenA), filter.ExpectSalinity(a).Mean, 0.05);
        Assert.Equal(Mean(seenB), filter.ExpectSalinity(b).Mean, 0.05);
        Assert.Equal(1, filter.ExpectSalinity(a).Sd / Sd(seenA), 0.05);
        Assert.Equal(1, filter.ExpectSalinity(b).Sd / Sd(seenB), 0.05);
    }

    [Fact]
    public void A_reading_of_one_vessel_tells_of_the_vessel_it_was_poured_into()
    {
        var filter = new WaterSaltFilter();
        var source = filter.Add(Volume.FromLitres(10), 0.1, Salinity.FromPractical(30), 3, Warm, 0);
        var target = filter.Add(Volume.FromLitres(0.000001), 0, default, 0, Warm, 0);
        filter.Pour(source, target, Volume.FromLitres(4), 0.1);
        var before = filter.ExpectSalinity(target);

        filter.ObserveSalinity(source, Salinity.FromPractical(34), 0.3);

        Assert.True(filter.ExpectSalinity(target).Mean > before.Mean + 3);
        Assert.True(filter.ExpectSalinity(target).Sd < 0.2 * before.Sd);
    }

    [Fact]
    public void Evaporation_is_learned_from_readings()
    {
        // True loss 0.2 kg a day from 8 L, thought to be 0.05: ten days of readings find it.
        var filter = new WaterSaltFilter();
        var jar = filter.Add(Volume.FromLitres(8), 0.1, Salinity.FromPractical(30), 0.3, Warm, 0.05);
        var massKg = 8 * Rho(30);
        for (var day = 1; day <= 12; day++)
        {
            filter.Advance(1);
            filter.ObserveSalinity(jar, Salinity.FromPractical(30 * massKg / (massKg - (0.2 * day))), 0.3);
        }

        var learned = filter.ExpectEvaporation(jar);
        Assert.InRange(learned.Mean, 0.12, 0.25);
        Assert.True(learned.Sd < 0.05);
    }

    [Fact]
    public void What_a_reading_moves_is_told()
    {
        var filter = Three();
        var before = filter.ExpectSaltGrams(0).Mean;
        var innovation = filter.ObserveSalinity(0, Salinity.FromPractical(33), 0.3);

        Assert.Equal(32, innovation.Expected, 1e-9);
        Assert.Equal(filter.ExpectSaltGrams(0).Mean - before, innovation.SaltMovedGrams, 1e-9);
        Assert.True(innovation.SaltMovedGrams > 0);
    }

    [Fact]
    public void Nothing_becomes_negative_or_infinite_whatever_is_done() =>
        Gen.Select(Gen.Int[0, 6], Gen.Int[0, 2], Gen.Double[0, 50], Gen.Double[0, 60])
            .Array[1, 80]
            .Sample(deeds =>
            {
                var filter = Three();
                foreach (var (deed, slot, x, y) in deeds)
                {
                    Do(filter, deed, slot, x, y);
                    for (var i = 0; i < filter.Count; i++)
                    {
                        foreach (
                            var value in new[]
                            {
                                filter.ExpectSalinity(i),
                                filter.ExpectVolume(i),
                                filter.ExpectEvaporation(i),
                                filter.ExpectSaltGrams(i),
                            }
                        )
                        {
                            Assert.True(double.IsFinite(value.Mean) && value.Mean >= 0, $"{deed}: {value}");
                            Assert.True(double.IsFinite(value.Sd) && value.Sd >= 0, $"{deed}: {value}");
                        }
                    }
                }
            });

    private static void Do(WaterSaltFilter filter, int deed, int slot, double x, double y)
    {
        switch (deed)
        {
            case 0:
                filter.Advance(x);
                break;
            case 1:
                filter.Pour(slot, (slot + 1) % 3, Volume.FromLitres(x), 0.1 * x);
                break;
            case 2:
                filter.PourIn(slot, Volume.FromLitres(x), 0.1 * x, Salinity.FromPractical(y), 1);
                break;
            case 3:
                filter.ObserveSalinity(slot, Salinity.FromPractical(y), 0.1 + (x / 10));
                break;
            case 4:
                filter.ObserveVolume(slot, Volume.FromLitres(x), 0.01 + (y / 10));
                break;
            case 5:
                filter.Dissolve(slot, Mass.FromGrams(x), 1, 0.1, 0.04);
                break;
            default:
                filter.Evaporate(slot, Volume.FromLitres(x / 10), 0.1);
                break;
        }
    }

    private static double Rho(double salinity) =>
        SeawaterDensity.Eos80(Salinity.FromPractical(salinity), Warm).Value.KilogramsPerCubicMetre / 1000;

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double Mean(double[] values) => values.Average();

    private static double Sd(double[] values)
    {
        var mean = values.Average();
        return Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / (values.Length - 1));
    }
}
