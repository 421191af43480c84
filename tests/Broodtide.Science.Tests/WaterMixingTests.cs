using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterMixingTests
{
    private static readonly Gen<WaterParcel> Parcels = Gen.Select(
        Gen.Double[0.001, 100],
        Gen.Double[0, 45],
        Gen.Double[0, 40],
        (kg, s, t) =>
            new WaterParcel(Mass.FromKilograms(kg), Salinity.FromPractical(s), Temperature.FromCelsius(t))
    );

    [Fact]
    public void Mixing_keeps_the_salt() =>
        Gen.Select(Parcels, Parcels)
            .Sample(
                (a, b) =>
                {
                    var mixed = Mixing.OfTwo(a, b);
                    var before = Salt(a) + Salt(b);
                    Assert.Equal(before, Salt(mixed), 1e-9 * (1 + before));
                    Assert.InRange(
                        mixed.Temperature.Celsius,
                        Math.Min(a.Temperature.Celsius, b.Temperature.Celsius) - 1e-9,
                        Math.Max(a.Temperature.Celsius, b.Temperature.Celsius) + 1e-9
                    );
                }
            );

    [Fact]
    public void Fresh_water_added_as_told_gives_the_salinity_wanted() =>
        Gen.Select(Gen.Double[1, 40], Gen.Double[0.05, 1])
            .Sample(
                (from, share) =>
                {
                    var mass = Mass.FromKilograms(3);
                    var to = Salinity.FromPractical(from * share);
                    var water = Mixing.FreshWaterToLower(mass, Salinity.FromPractical(from), to);
                    var mixed = Mixing.ByMass((mass, Salinity.FromPractical(from)), (water, default));
                    Assert.Equal(to.Practical, mixed.Practical, 1e-9);
                }
            );

    [Fact]
    public void Nothing_mixed_with_nothing_is_refused() =>
        Assert.Throws<ArgumentException>(() => Mixing.ByMass((default, Salinity.FromPractical(35))));

    [Fact]
    public void Fresh_water_never_raises_a_salinity() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            Mixing.FreshWaterToLower(
                Mass.FromKilograms(1),
                Salinity.FromPractical(20),
                Salinity.FromPractical(21)
            )
        );

    private static double Salt(WaterParcel parcel) => parcel.Mass.Grams * parcel.Salinity.Practical;
}
