using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>What a conductivity meter's reading means.</summary>
internal static class ConductivityReading
{
    private const double TwentyFive = 25;
    private const double Highest = 1000;

    // A meter of the trade: 1 % of what it shows. Practice, no source.
    private const double UsualSdShare = 0.01;

    // With a share per degree nobody knows the error of S stays below 0.16 for 15 to 30 degC, S up to 40 (computed
    // with 0.0191 against the reference formulas of sea water).
    private const double UnknownAlphaSd = 0.16;

    public static ReadingMeaning Raw(SalinityReading reading, InstrumentFacts facts)
    {
        if (reading.Sample is not { } sample)
        {
            return ReadingMeaning.No(ReadingObstacle.TemperatureNeeded);
        }

        var inForce = facts.InForce(reading.At);
        var factor = Factor(inForce, inForce?.Temperature?.Celsius ?? TwentyFive);
        var value = reading.Shown.Value;
        var face = Practical(value, TwentyFive) ?? 0;
        var checkedFace = Practical(value * factor, TwentyFive) ?? 0;
        var final = Practical(value * factor, sample.Celsius) ?? 0;
        return ReadingSpread.Meaning(
            (shown, t) => At(shown * factor, t),
            (value, Sd(facts, inForce, value)),
            (sample.Celsius, ReadingSpread.ThermometerSd),
            0,
            [
                new(ReadingCorrectionCode.Calibration, checkedFace - face, inForce?.HoldsFrom),
                new(ReadingCorrectionCode.SampleTemperature, final - checkedFace),
            ],
            inForce is null ? [ReadingDoubt.NotCalibrated] : []
        );
    }

    public static ReadingMeaning At25(SalinityReading reading, InstrumentFacts facts)
    {
        var inForce = facts.InForce(reading.At);
        var factor = Factor(inForce, TwentyFive);
        var value = reading.Shown.Value;
        var face = Practical(value, TwentyFive) ?? 0;
        var checkedFace = Practical(value * factor, TwentyFive) ?? 0;
        var doubts = new List<ReadingDoubt>();
        if (inForce is null)
        {
            doubts.Add(ReadingDoubt.NotCalibrated);
        }

        var corrections = new List<ReadingCorrection>
        {
            new(ReadingCorrectionCode.Calibration, checkedFace - face, inForce?.HoldsFrom),
        };
        var shownSd = (value, Sd(facts, inForce, value));
        if (
            facts.MeterAlphaPerCelsius is { } alpha
            && reading.Sample is { } sample
            && TakenBack(value * factor, sample.Celsius, alpha) is { } final
        )
        {
            corrections.Add(new(ReadingCorrectionCode.MeterCompensation, final.Practical - checkedFace));
            return ReadingSpread.Meaning(
                (shown, t) => TakenBack(shown * factor, t, alpha),
                shownSd,
                (sample.Celsius, ReadingSpread.ThermometerSd),
                0,
                corrections,
                doubts
            );
        }

        doubts.Add(
            reading.Sample is null ? ReadingDoubt.SampleTemperatureUnknown : ReadingDoubt.MeterAlphaUnknown
        );
        return ReadingSpread.Meaning(
            (shown, _) => At(shown * factor, TwentyFive),
            shownSd,
            (TwentyFive, 0),
            UnknownAlphaSd,
            corrections,
            doubts
        );
    }

    private static double Sd(InstrumentFacts facts, InstrumentCalibration? inForce, double value)
    {
        // A cell's fault is a factor, and so is the doubt in it.
        var ofCalibration = inForce is { Shown: > 0 } ? value * inForce.ShownSd / inForce.Shown : 0;
        return Root.OfSquares(facts.ReadingSd ?? (UsualSdShare * value), ofCalibration);
    }

    private static Raw? TakenBack(double at25, double celsius, double alpha)
    {
        var line = 1 + (alpha * (celsius - TwentyFive));
        return alpha is >= 0 and <= 0.1 && line > 0 ? At(at25 * line, celsius) : null;
    }

    private static Raw? At(double raw, double celsius)
    {
        if (!(raw is >= 0 and <= Highest))
        {
            return null;
        }

        var found = PracticalSalinity.FromConductivity(
            Conductivity.FromMillisiemensPerCentimetre(raw),
            Temperature.FromCelsius(celsius)
        );
        return new(found.Value.Practical, found.WithinPublishedRange);
    }

    private static double? Practical(double raw, double celsius) => At(raw, celsius)?.Practical;

    // What it should show in the standard over what it showed.
    private static double Factor(InstrumentCalibration? calibration, double celsius)
    {
        var should = calibration?.Standard switch
        {
            CalibrationStandard.Conductivity => calibration.StandardValue,
            CalibrationStandard.SeaWater => PracticalSalinity
                .ConductivityOf(
                    Salinity.FromPractical(calibration.StandardValue),
                    Temperature.FromCelsius(celsius)
                )
                .Value.MillisiemensPerCentimetre,
            _ => 0,
        };
        return should > 0 && calibration!.Shown > 0 ? should / calibration.Shown : 1;
    }
}
