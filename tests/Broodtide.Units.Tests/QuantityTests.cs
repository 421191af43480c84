using System.Reflection;
using CsCheck;

namespace Broodtide.Units.Tests;

public sealed class QuantityTests
{
    public static TheoryData<string> Makers() =>
        [
            .. typeof(Salinity)
                .Assembly.GetExportedTypes()
                .SelectMany(type => type.GetMethods(BindingFlags.Public | BindingFlags.Static))
                .Where(method =>
                    method.Name.StartsWith("From", StringComparison.Ordinal)
                    && method.GetParameters().All(parameter => parameter.ParameterType == typeof(double))
                )
                .Select(method => $"{method.DeclaringType!.Name}.{method.Name}"),
        ];

    [Theory]
    [MemberData(nameof(Makers))]
    public void No_quantity_is_made_of_a_number_that_is_none(string maker)
    {
        var method = Find(maker);
        Assert.All(
            new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity },
            bad =>
            {
                var arguments = method.GetParameters().Select(_ => (object)bad).ToArray();
                var thrown = Assert.Throws<TargetInvocationException>(() => method.Invoke(null, arguments));
                Assert.IsType<ArgumentOutOfRangeException>(thrown.InnerException);
            }
        );
    }

    [Fact]
    public void There_are_makers_to_try() => Assert.True(Makers().Count >= 20);

    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    [InlineData(77, 25)]
    public void Fahrenheit_and_Celsius_meet_at_the_fixed_points(double fahrenheit, double celsius)
    {
        Assert.Equal(celsius, Temperature.FromFahrenheit(fahrenheit).Celsius, 1e-12);
        Assert.Equal(fahrenheit, Temperature.FromCelsius(celsius).Fahrenheit, 1e-12);
    }

    [Fact]
    public void The_older_temperature_scale_is_six_thousandths_higher_at_25_degrees() =>
        Assert.Equal(25.006, Temperature.FromCelsius(25).CelsiusIpts68, 1e-9);

    [Fact]
    public void A_US_gallon_is_231_cubic_inches()
    {
        // An inch is 25.4 mm exactly (NIST SP 811).
        Assert.Equal(231 * Math.Pow(0.254, 3), Volume.FromUsGallons(1).Litres, 1e-12);
        Assert.Equal(Volume.FromUsGallons(1).Litres, Volume.FromUsQuarts(4).Litres, 1e-12);
    }

    [Fact]
    public void Every_unit_leads_back_to_the_number_it_came_from() =>
        Gen.Double[0.001, 900]
            .Sample(x =>
            {
                Assert.Equal(x, Temperature.FromCelsius(x).Kelvin + Temperature.AbsoluteZeroCelsius, 1e-9);
                Assert.Equal(x, Temperature.FromFahrenheit(x).Fahrenheit, 1e-9);
                Assert.Equal(x, Temperature.FromCelsiusIpts68(x).CelsiusIpts68, 1e-9);
                Assert.Equal(x, Volume.FromUsQuarts(x).UsQuarts, 1e-9);
                Assert.Equal(x, Volume.FromMillilitres(x).Millilitres, 1e-9);
                Assert.Equal(x, Mass.FromKilograms(x).Kilograms, 1e-9);
                Assert.Equal(x, Mass.FromMilligrams(x).Milligrams, 1e-9);
                Assert.Equal(x, Concentration.FromGramsPerLitre(x).GramsPerLitre, 1e-9);
                Assert.Equal(x, Density.FromGramsPerCubicCentimetre(x).GramsPerCubicCentimetre, 1e-9);
                Assert.Equal(
                    x,
                    Conductivity.FromMicrosiemensPerCentimetre(x).MicrosiemensPerCentimetre,
                    1e-9
                );
            });

    [Fact]
    public void Mass_volume_and_density_agree_with_each_other() =>
        Gen.Select(Gen.Double[0.1, 500], Gen.Double[900, 1200])
            .Sample(
                (litres, density) =>
                {
                    var rho = Density.FromKilogramsPerCubicMetre(density);
                    var mass = Volume.FromLitres(litres) * rho;
                    Assert.Equal(litres, (mass / rho).Litres, 1e-9 * litres);
                }
            );

    [Fact]
    public void A_value_outside_the_published_range_is_kept_but_not_shown()
    {
        var outside = new Computed<Salinity>(Salinity.FromPractical(60), WithinPublishedRange: false);
        Assert.Null(outside.OrNone);
        Assert.False(outside.Then(salinity => salinity.Practical).WithinPublishedRange);
        Assert.Equal(60, outside.Then(salinity => salinity.Practical).Value);
    }

    [Fact]
    public void An_interval_ascends_or_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Interval.FromPoints(2, 1, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Interval.FromPoints(1, 4, 3));
        var interval = Interval.FromNormal(10, 2);
        Assert.Equal(10 - (1.6448536 * 2), interval.Low, 1e-6);
        Assert.True(interval.Contains(interval.Middle));
        Assert.Equal(8, interval.AtLeast(8).Low);
        Assert.Equal(21, interval.Scaled(2, 1).Middle, 1e-12);
    }

    private static MethodInfo Find(string maker)
    {
        var parts = maker.Split('.');
        return typeof(Salinity)
            .Assembly.GetExportedTypes()
            .Single(type => type.Name == parts[0])
            .GetMethods(BindingFlags.Public | BindingFlags.Static)
            .Single(method => method.Name == parts[1]);
    }
}
