using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests;

public sealed class WaterConductivityTests
{
    // 35 degC on the scale of the source is 34.99 on ITS-90.
    private static readonly Gen<Temperature> Temperatures = Gen.Double[0, 34.9]
        .Select(Temperature.FromCelsius);

    [Fact]
    public void Salinity_to_conductivity_and_back_is_the_same_salinity() =>
        Gen.Select(Gen.Double[0.001, 42], Temperatures)
            .Sample(
                (s, temperature) =>
                {
                    var conductivity = PracticalSalinity.ConductivityOf(
                        Salinity.FromPractical(s),
                        temperature
                    );
                    var back = PracticalSalinity.FromConductivity(conductivity.Value, temperature);
                    Assert.Equal(s, back.Value.Practical, 1e-8);
                    Assert.True(back.WithinPublishedRange);
                }
            );

    [Fact]
    public void The_low_branch_meets_PSS78_at_two_without_a_step() =>
        Temperatures.Sample(temperature =>
        {
            var at = PracticalSalinity.ConductivityRatioOf(Salinity.FromPractical(2), temperature).Value;
            var below = PracticalSalinity.FromConductivityRatio(at * (1 - 1e-9), temperature).Value.Practical;
            var above = PracticalSalinity.FromConductivityRatio(at * (1 + 1e-9), temperature).Value.Practical;
            Assert.Equal(above, below, 1e-7);
        });

    [Fact]
    public void More_conductivity_is_more_salt() =>
        Gen.Select(Gen.Double[0.01, 60], Temperatures)
            .Sample(
                (mS, temperature) =>
                {
                    var less = PracticalSalinity.FromConductivity(
                        Conductivity.FromMillisiemensPerCentimetre(mS),
                        temperature
                    );
                    var more = PracticalSalinity.FromConductivity(
                        Conductivity.FromMillisiemensPerCentimetre(1.001 * mS),
                        temperature
                    );
                    Assert.True(more.Value > less.Value);
                }
            );

    [Fact]
    public void Water_that_does_not_conduct_is_fresh()
    {
        var temperature = Temperature.FromCelsius(24);
        Assert.Equal(0, PracticalSalinity.FromConductivity(default, temperature).Value.Practical);
        Assert.Equal(
            0,
            PracticalSalinity.ConductivityOf(default, temperature).Value.MillisiemensPerCentimetre
        );
    }

    // The short form for 25 degC by coefficients of its own, with 53.087 mS/cm at S = 35 (Schemel 2001, from memory):
    // another way to the same salinity.
    [Theory]
    [InlineData(5)]
    [InlineData(17)]
    [InlineData(30)]
    [InlineData(35)]
    [InlineData(40)]
    public void The_short_form_for_25_degrees_gives_the_same_salinity_within_two_hundredths(double s)
    {
        var conductivity = PracticalSalinity
            .ConductivityOf(Salinity.FromPractical(s), Temperature.FromCelsius(25))
            .Value.MillisiemensPerCentimetre;
        double[] k = [0.0123, -0.2174, 25.3283, 13.7714, -6.4788, 2.5842];
        var x = Math.Sqrt(conductivity / 53.087);
        Assert.Equal(s, k.Select((factor, power) => factor * Math.Pow(x, power)).Sum(), 0.02);
    }

    [Fact]
    public void The_straight_line_of_meters_is_within_0_16_of_the_exact_route() =>
        Gen.Select(Gen.Double[1, 40], Gen.Double[15, 30])
            .Sample(
                (s, t) =>
                {
                    var temperature = Temperature.FromCelsius(t);
                    var raw = PracticalSalinity.ConductivityOf(Salinity.FromPractical(s), temperature).Value;
                    var shown = ConductivityMeter.Shown(raw, temperature);
                    var read = PracticalSalinity.FromConductivity(shown, Temperature.FromCelsius(25));
                    Assert.Equal(s, read.Value.Practical, 0.16);
                    Assert.Equal(
                        raw.MillisiemensPerCentimetre,
                        ConductivityMeter.RawBehind(shown, temperature).MillisiemensPerCentimetre,
                        1e-9
                    );
                }
            );

    [Fact]
    public void Referring_to_25_degrees_at_25_degrees_changes_nothing() =>
        Gen.Double[0.01, 60]
            .Sample(mS =>
                Assert.Equal(
                    mS,
                    PracticalSalinity
                        .ReferredTo25(
                            Conductivity.FromMillisiemensPerCentimetre(mS),
                            Temperature.FromCelsius(25)
                        )
                        .Value.MillisiemensPerCentimetre,
                    1e-7
                )
            );

    [Fact]
    public void A_number_far_outside_is_marked_and_not_refused()
    {
        var brine = PracticalSalinity.FromConductivity(
            Conductivity.FromMillisiemensPerCentimetre(90),
            Temperature.FromCelsius(25)
        );
        Assert.False(brine.WithinPublishedRange);
        Assert.InRange(brine.Value.Practical, 60, 70);
    }

    [Fact]
    public void A_negative_ratio_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PracticalSalinity.FromConductivityRatio(-0.1, Temperature.FromCelsius(25))
        );
}
