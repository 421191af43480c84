using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using CsCheck;
using NodaTime;

namespace Broodtide.Workbench.Tests;

public class MixingReadingTests
{
    private static readonly Instant Spring = Instant.FromUtc(2026, 4, 1, 8, 0);
    private static readonly Instant Summer = Instant.FromUtc(2026, 7, 1, 8, 0);
    private static readonly InstrumentFacts Refractometer = new() { Kind = SalinityInstrument.Refractometer };

    // What a reading of 1.026 at 25 degC means by its reference, as published densities (EOS-80; UNESCO Technical
    // Papers in Marine Science 44) have it; one figure stands for 60 degF and 15 degC, which differ by 0.05.
    [Theory]
    [InlineData("sal:sg-25/25", 34.5)]
    [InlineData("sal:sg-20/20", 35.9)]
    [InlineData("sal:sg-60F/60F", 36.9)]
    [InlineData("sal:sg-15/15", 36.9)]
    [InlineData("sal:sg-15/4", 38.1)]
    public void A_hydrometer_reading_of_1026_at_25_degrees_hangs_on_the_reference(
        string unit,
        double expected
    )
    {
        var known = Known(Read(1.026, unit, 25), new() { Kind = SalinityInstrument.GlassHydrometer });

        Assert.Equal(expected, known.Salinity.Middle, 0.06);
        Assert.True(known.Corrections.Select(c => c.Code).Distinct().Count() == known.Corrections.Count);
    }

    [Fact]
    public void A_specific_gravity_without_reference_is_asked_back_with_what_each_would_mean()
    {
        var unknown = Assert.IsType<ReadingMeaning.Unknown>(Meaning(Read(1.026, "sal:sg", 25), new()));

        Assert.Equal(ReadingObstacle.ReferenceNeeded, unknown.Code);
        double[] expected = [34.5, 35.9, 36.9, 36.9, 38.1];
        var told = unknown.IfReference.Select(m => m.Salinity!.Value.Practical).ToList();
        Assert.All(expected.Zip(told), p => Assert.Equal(p.First, p.Second, 0.06));
        Assert.Equal(7, told.Count);
    }

    // A survey's reduction tables (US Coast and Geodetic Survey, reprint): reading 1.0230 at 22 degC on a float for
    // 15 degC against water of 4 degC gives a salinity of about 33; the formula gives 33.13.
    [Fact]
    public void The_glass_swells_and_the_water_is_warmer_than_the_reference()
    {
        var known = Known(
            Read(1.023, "sal:sg-15/4", 22),
            new() { Kind = SalinityInstrument.GlassHydrometer }
        );

        Assert.Equal(33.13, known.Salinity.Middle, 0.01);
        Assert.Equal(
            [ReadingCorrectionCode.SampleTemperature, ReadingCorrectionCode.GlassExpansion],
            known.Corrections.Select(c => c.Code)
        );
        // About 0.33 in S for 10 degC.
        Assert.Equal(-0.7 * 0.33, known.Corrections[^1].Amount, 0.02);
    }

    [Fact]
    public void A_brine_scale_shows_sea_water_too_high()
    {
        // S = 35 reads 36.5 on a scale in g NaCl/kg, 30 reads 31.3 (CRC Handbook, Quan and Fry 1995).
        var at35 = Known(Read(36.4, "sal:brine-g/kg", 20), Refractometer);
        var at30 = Known(Read(31.3, "sal:brine-g/kg", 20), Refractometer);

        Assert.Equal(35, at35.Salinity.Middle, 0.15);
        Assert.Equal(30, at30.Salinity.Middle, 0.15);
        Assert.Equal([ReadingCorrectionCode.BrineScale], at35.Corrections.Select(c => c.Code));
    }

    [Fact]
    public void A_brine_scale_set_with_a_sea_water_standard_is_right_at_the_standard_and_not_corrected_twice()
    {
        var set = Refractometer with { Calibrations = [Check(Spring, 35, 35)] };

        var at35 = Known(Read(35, "sal:brine-g/kg", 20), set);
        Assert.Equal(35, at35.Salinity.Middle, 1e-6);
        Assert.Empty(at35.Corrections);

        var at30 = Known(Read(30, "sal:brine-g/kg", 20), set);
        Assert.Equal(30.2, at30.Salinity.Middle, 0.1);
        Assert.Equal([ReadingCorrectionCode.BrineScaleFromStandard], at30.Corrections.Select(c => c.Code));
    }

    // Read by a scale made for 20 degC, S = 35 shows 37.6 at 15, 32.0 at 25, 28.6 at 30 degC without compensation,
    // and 35.5, 34.7, 34.5 with compensation made for water (Quan and Fry 1995).
    [Theory]
    [InlineData(false, 15, 37.6)]
    [InlineData(false, 25, 32.0)]
    [InlineData(false, 30, 28.6)]
    [InlineData(true, 15, 35.5)]
    [InlineData(true, 25, 34.7)]
    [InlineData(true, 30, 34.5)]
    public void A_refractometer_is_corrected_for_warmth_once(bool compensated, double celsius, double shown)
    {
        var facts = Refractometer with { TemperatureCompensated = compensated };
        var known = Known(Read(shown, "sal:practical", celsius), facts);

        Assert.Equal(35, known.Salinity.Middle, 0.06);
        var correction = Assert.Single(known.Corrections);
        Assert.Equal(
            compensated
                ? ReadingCorrectionCode.CompensationMadeForWater
                : ReadingCorrectionCode.SampleTemperature,
            correction.Code
        );
        Assert.Equal(known.Salinity.Middle - shown, correction.Amount, 1e-9);
    }

    [Fact]
    public void A_refractometer_without_compensation_needs_the_temperature()
    {
        var facts = Refractometer with { TemperatureCompensated = false };

        Assert.Equal(ReadingObstacle.TemperatureNeeded, Why(Read(35, "sal:practical", null), facts));
        var known = Known(Read(34, "sal:practical", null), Refractometer);
        Assert.Contains(ReadingDoubt.SampleTemperatureUnknown, known.Doubts);
    }

    [Fact]
    public void A_calibration_counts_from_the_day_it_holds_and_the_last_one_alone()
    {
        var facts = Refractometer with { Calibrations = [Check(Summer, 35, 34), Check(Spring, 35, 36)] };

        Assert.Equal(33, Known(Read(34, "sal:practical", 20, Spring), facts).Salinity.Middle, 0.01);
        Assert.Equal(34, Known(Read(33, "sal:practical", 20, Summer), facts).Salinity.Middle, 0.01);
        var before = Known(Read(34, "sal:practical", 20, Spring - Duration.FromDays(1)), facts);
        Assert.Equal(34, before.Salinity.Middle, 0.01);
        Assert.Contains(ReadingDoubt.NotCalibrated, before.Doubts);
    }

    // C(35, 25 degC) = 53.071 and C(30, 25 degC) = 46.253 mS/cm (reference code of TEOS-10).
    [Theory]
    [InlineData(53.071, 35)]
    [InlineData(46.253, 30)]
    [InlineData(27.683, 17)]
    public void A_meter_that_shows_25_degree_values_is_not_corrected_for_temperature_again(
        double shown,
        double expected
    )
    {
        var meter = new InstrumentFacts { Kind = SalinityInstrument.ConductivityMeter };
        foreach (var celsius in (double[])[15, 20, 25, 30])
        {
            var known = Known(Read(shown, "sal:mS/cm-25", celsius), meter);
            Assert.Equal(expected, known.Salinity.Middle, 0.02);
            Assert.Empty(known.Corrections);
        }

        var raw = Known(Read(shown, "sal:mS/cm", 25), meter);
        Assert.Equal(expected, raw.Salinity.Middle, 0.02);
    }

    // Sea water of S = 35 has 0.0194 per degC between 20 and 25 degC (reference code of TEOS-10).
    [Fact]
    public void A_meter_with_a_known_line_has_it_taken_back()
    {
        var meter = new InstrumentFacts
        {
            Kind = SalinityInstrument.ConductivityMeter,
            MeterAlphaPerCelsius = 0.0191,
        };
        var shown = PracticalSalinity
            .ConductivityOf(Salinity.FromPractical(35), Temperature.FromCelsius(20))
            .Value.MillisiemensPerCentimetre;

        var known = Known(Read(shown / (1 - (0.0191 * 5)), "sal:mS/cm-25", 20), meter);
        Assert.Equal(35, known.Salinity.Middle, 1e-6);
        Assert.Equal([ReadingCorrectionCode.MeterCompensation], known.Corrections.Select(c => c.Code));
        Assert.InRange(Math.Abs(known.Corrections[0].Amount), 0.01, 0.16);
    }

    [Fact]
    public void A_raw_conductivity_is_read_at_the_temperature_of_the_sample()
    {
        var meter = new InstrumentFacts { Kind = SalinityInstrument.ConductivityMeter };

        // C(35, 15 degC) = 42.914 mS/cm: Culkin and Smith 1980.
        Assert.Equal(35, Known(Read(42.914, "sal:mS/cm", 15), meter).Salinity.Middle, 0.01);
        Assert.Equal(ReadingObstacle.TemperatureNeeded, Why(Read(42.914, "sal:mS/cm", null), meter));
    }

    [Fact]
    public void Grams_of_mix_mean_what_the_mix_holds()
    {
        // 37 g of mix per litre read as 34 ppt at 26 degC: one breeding report on Atyopsis moluccensis.
        var product = SaltProduct.FromGramsPerLitre(
            Concentration.FromGramsPerLitre(37),
            Salinity.FromPractical(34),
            Temperature.FromCelsius(26),
            0.01
        )!;
        var known = Assert.IsType<ReadingMeaning.Known>(
            ReadingMeanings.Of(Read(37, "sal:mix-g/L", 26), new(), product)
        );
        Assert.Equal(34, known.Salinity.Middle, 1e-6);
        Assert.Equal(0.056, product.Mix.WaterShare, 0.001);
    }

    [Theory]
    [InlineData(45, "sal:practical", 25.0, ReadingObstacle.OutsidePublishedRange)]
    [InlineData(33, "sal:practical", 36.0, ReadingObstacle.OutsidePublishedRange)]
    [InlineData(33, "sal:practical", 90.0, ReadingObstacle.OutsidePublishedRange)]
    [InlineData(1026, "sal:sg-25/25", 25.0, ReadingObstacle.NotPossible)]
    [InlineData(0.99, "sal:sg-25/25", 25.0, ReadingObstacle.BelowFreshWater)]
    [InlineData(90, "sal:mS/cm", 25.0, ReadingObstacle.OutsidePublishedRange)]
    [InlineData(-5, "sal:practical", 25.0, ReadingObstacle.BelowFreshWater)]
    public void Outside_the_published_range_there_is_no_number_but_a_reason(
        double value,
        string unit,
        double celsius,
        ReadingObstacle why
    ) =>
        Assert.Equal(
            why,
            Why(
                Read(value, unit, celsius),
                unit.StartsWith("sal:practical", StringComparison.Ordinal) ? Refractometer : new()
            )
        );

    [Fact]
    public void A_better_instrument_gives_a_narrower_interval()
    {
        var coarse = Known(Read(33, "sal:practical", 20), Refractometer with { ReadingSd = 1 });
        var fine = Known(Read(33, "sal:practical", 20), Refractometer with { ReadingSd = 0.1 });

        Assert.True(fine.Salinity.Width < coarse.Salinity.Width);
        Assert.Equal(2 * 1.645 * coarse.Sd, coarse.Salinity.Width, 0.01);
        Assert.InRange(coarse.Sd, 1, 1.1);
    }

    [Fact]
    public void Every_finite_reading_has_a_meaning_or_a_reason_and_no_correction_comes_twice() =>
        (
            from value in Gen.OneOf(Gen.Double[0, 60], Gen.Double[0.98, 1.05], Gen.Double[-1e9, 1e9])
            from unit in Gen.Int[0, Units.Length - 1].Select(i => Units[i])
            from celsius in Gen.OneOf(Gen.Double[0, 40], Gen.Double[-273, 1000])
            from knows in Gen.Bool.Array[4]
            from kind in Gen.Enum<SalinityInstrument>()
            from standard in Gen.Enum<CalibrationStandard>()
            from shown in Gen.Double[-5, 60]
            select (
                Reading: Read(value, unit, knows[0] ? celsius : null, Summer),
                Facts: new InstrumentFacts
                {
                    Kind = kind,
                    TemperatureCompensated = knows[1],
                    MeterAlphaPerCelsius = knows[2] ? 0.02 : null,
                    Calibrations = knows[3]
                        ? [new(Spring, standard, 30, shown, Temperature.FromCelsius(22), 0.1)]
                        : [],
                }
            )
        ).Sample(
            sample =>
            {
                if (
                    ReadingMeanings.Of(sample.Reading, sample.Facts, SaltProduct.Unmeasured)
                    is ReadingMeaning.Known known
                )
                {
                    Assert.True(double.IsFinite(known.Salinity.Width) && known.Salinity.Low >= 0);
                    var codes = known.Corrections.Select(c => c.Code).ToList();
                    Assert.Equal(codes.Distinct(), codes);
                }
            },
            iter: 3000
        );

    [Fact]
    public void Every_salinity_unit_of_the_journal_has_its_scale() =>
        Assert.All(
            Domain.Journal.UnitCode.All,
            unit =>
                Assert.Equal(
                    unit.Dimension == Domain.Journal.Dimension.Salinity,
                    ScaledSalinity.FromUnit(1, unit.Code) is not null
                )
        );

    private static readonly string[] Units =
    [
        .. Domain
            .Journal.UnitCode.All.Where(u => u.Dimension == Domain.Journal.Dimension.Salinity)
            .Select(u => u.Code),
    ];

    private static InstrumentCalibration Check(Instant from, double salinity, double shown) =>
        new(from, CalibrationStandard.SeaWater, salinity, shown, Temperature.FromCelsius(20), 0.2);

    private static SalinityReading Read(double value, string unit, double? celsius, Instant? at = null) =>
        new(
            ScaledSalinity.FromUnit(value, unit)!.Value,
            celsius is { } c ? Temperature.FromCelsius(c) : null,
            at ?? Summer
        );

    private static ReadingMeaning Meaning(SalinityReading reading, InstrumentFacts facts) =>
        ReadingMeanings.Of(reading, facts, SaltProduct.Unmeasured);

    private static ReadingMeaning.Known Known(SalinityReading reading, InstrumentFacts facts) =>
        Assert.IsType<ReadingMeaning.Known>(Meaning(reading, facts));

    private static ReadingObstacle Why(SalinityReading reading, InstrumentFacts facts) =>
        Assert.IsType<ReadingMeaning.Unknown>(Meaning(reading, facts)).Code;
}
