using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench;

/// <summary>
/// What numbers of the journal mean as salinity: a typed one on its scale, a reading through its instrument and the
/// check that held when it was read.
/// </summary>
public static class WaterMeanings
{
    // A belief without any doubt would never learn.
    private const double LeastSd = 0.05;

    // Doubt in what an instrument showed on a standard, where nobody described the instrument: practice, no source.
    private const double UsualShownShare = 0.01;
    private const double UsualGravityShown = 0.0005;

    /// <summary>What numbers mean in a house.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="product">The salt mix, for scales that count it.</param>
    public static WaterMeaning Of(House house, SaltProduct product)
    {
        var facts = new Dictionary<InstrumentId, InstrumentFacts>();
        return new WaterMeaning(
            (typed, temperature) => Read(Typed(typed, temperature, product)),
            (reading, when) => Read(Reading(reading, when))
        );

        ReadingMeaning? Reading(ReadingTaken reading, Instant when)
        {
            var known = new InstrumentFacts();
            if (reading.Instrument is { } id && !facts.TryGetValue(id, out known!))
            {
                facts[id] = known = Facts(house.Instrument(id), product);
            }

            return Meaning(reading, when, known, product);
        }
    }

    /// <summary>What a reading means, with the corrections applied and the doubts left; none if it is no salinity.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="reading">The reading.</param>
    /// <param name="when">When it was taken.</param>
    /// <param name="product">The salt mix, for scales that count it.</param>
    public static ReadingMeaning? Of(House house, ReadingTaken reading, Instant when, SaltProduct product) =>
        Meaning(
            reading,
            when,
            reading.Instrument is { } id ? Facts(house.Instrument(id), product) : new InstrumentFacts(),
            product
        );

    /// <summary>What a typed salinity means on its scale; none if it is no salinity.</summary>
    public static ReadingMeaning? Typed(TypedNumber typed, Temperature? temperature, SaltProduct product) =>
        ScaledSalinity.FromUnit(typed.Value, typed.Unit) is { } scaled
            ? ReadingMeanings.Of(
                new SalinityReading(scaled, temperature, default),
                new InstrumentFacts(),
                product
            )
            : null;

    /// <summary>An instrument as the water calculations know it.</summary>
    public static InstrumentFacts Facts(Instrument instrument, SaltProduct product)
    {
        if (instrument.Description is not { } described)
        {
            return new InstrumentFacts { Calibrations = Checks(instrument, null, product) };
        }

        var kind = described.Kind switch
        {
            InstrumentKind.Refractometer => SalinityInstrument.Refractometer,
            InstrumentKind.Hydrometer => SalinityInstrument.GlassHydrometer,
            InstrumentKind.SwingArmHydrometer => SalinityInstrument.SwingArmHydrometer,
            InstrumentKind.ConductivityMeter => SalinityInstrument.ConductivityMeter,
            _ => SalinityInstrument.Unknown,
        };
        return new InstrumentFacts
        {
            Kind = kind,
            TemperatureCompensated = described.Compensated ?? described.ZeroedWithWater ?? true,
            Reference = Reference(described),
            ReadingSd = described.Error is { } error and > 0 and < 1000 ? error : null,
            Calibrations = Checks(instrument, described, product),
        };
    }

    private static ReadingMeaning? Meaning(
        ReadingTaken reading,
        Instant when,
        InstrumentFacts facts,
        SaltProduct product
    ) =>
        ScaledSalinity.FromUnit(reading.Value.Value, reading.Value.Unit) is { } scaled
            ? ReadingMeanings.Of(
                new SalinityReading(scaled, reading.SampleTemperature.AsTemperature(), when),
                facts,
                product
            )
            : null;

    private static SalinityRead? Read(ReadingMeaning? meaning) =>
        meaning is ReadingMeaning.Known known
            ? new SalinityRead(
                Salinity.FromPractical(Math.Max(0, known.Salinity.Middle)),
                Math.Max(LeastSd, known.Sd)
            )
            : null;

    private static ReferencePair? Reference(InstrumentDescribed described)
    {
        var written = described.Scale is { } scale ? ScaledSalinity.FromUnit(1, scale)?.Reference : null;
        return (written, described.GlassCelsius) switch
        {
            ({ } pair, { } glass and >= 0 and <= 60) => pair with { Sample = Temperature.FromCelsius(glass) },
            (null, { } glass and >= 0 and <= 60) => ReferencePair.AtOne(Temperature.FromCelsius(glass)),
            _ => written,
        };
    }

    // A standard that is no water, or at no temperature of water, says nothing of the instrument.
    private static IReadOnlyList<InstrumentCalibration> Checks(
        Instrument instrument,
        InstrumentDescribed? described,
        SaltProduct product
    ) =>
        [
            .. instrument
                .Calibrations.Select(each => Check(each, described, product))
                .OfType<InstrumentCalibration>(),
        ];

    private static InstrumentCalibration? Check(
        Calibration calibration,
        InstrumentDescribed? described,
        SaltProduct product
    )
    {
        var finding = calibration.Finding;
        var temperature = finding.Temperature.AsTemperature();
        var (standard, value) = Standard(finding, temperature, product);
        // Set right since: it shows the standard as the standard is.
        var shown =
            finding.Adjusted && Same(finding.Shown, finding.Standard)
                ? finding.Standard.Value
                : finding.Shown.Value;
        var gravity = finding.Shown.Unit.StartsWith("sal:sg", StringComparison.Ordinal);
        var sd =
            described?.Error
            ?? (described?.Resolution / 2)
            ?? (gravity ? UsualGravityShown : UsualShownShare * Math.Abs(shown));
        return InstrumentCalibration.CanBe(standard, value, shown, temperature)
            ? new(
                calibration.HoldsFrom,
                standard,
                value,
                shown,
                temperature,
                double.IsFinite(sd) ? Math.Clamp(sd, 0, 1000) : 0
            )
            : null;
    }

    private static (CalibrationStandard Standard, double Value) Standard(
        InstrumentCalibrated finding,
        Temperature? temperature,
        SaltProduct product
    )
    {
        if (finding.Standard.Unit is "sal:mS/cm" or "sal:mS/cm-25")
        {
            return (CalibrationStandard.Conductivity, finding.Standard.Value);
        }

        var practical = Typed(finding.Standard, temperature, product) is ReadingMeaning.Known known
            ? Math.Max(0, known.Salinity.Middle)
            : finding.Standard.Value;
        return practical <= 0
            ? (CalibrationStandard.PureWater, 0)
            : (CalibrationStandard.SeaWater, practical);
    }

    private static bool Same(TypedNumber left, TypedNumber right) =>
        string.Equals(left.Unit, right.Unit, StringComparison.Ordinal);
}
