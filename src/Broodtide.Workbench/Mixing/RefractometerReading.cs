using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>What a refractometer's reading means.</summary>
internal static class RefractometerReading
{
    /// <summary>Temperature the scales are made for, degC.</summary>
    public const double ScaleCelsius = 20;

    // A reading by hand, in units of the scale. Practice, no source.
    private const double UsualSd = 0.5;

    // The table of sodium chloride has four decimals: 0.15 to 0.3 of doubt, taken as a standard deviation of 0.15.
    private const double BrineTableSd = 0.15;

    // Range of Quan and Fry 1995.
    private const double HighestSalinity = 35;
    private const double HighestCelsius = 30;

    public static ReadingMeaning OnSeaWaterScale(SalinityReading reading, InstrumentFacts facts)
    {
        var fault = Fault(reading, facts, (s, t, zero) => SeaWaterShows(s, t, facts.ScaleMadeFor, zero));
        return Meaning(
            reading,
            facts,
            (shown, t) => FromSeaWater(shown + fault, t, facts),
            shown => shown + fault,
            [new(ReadingCorrectionCode.Calibration, fault, facts.InForce(reading.At)?.HoldsFrom)],
            0
        );
    }

    public static ReadingMeaning OnBrineScale(SalinityReading reading, InstrumentFacts facts)
    {
        var inForce = facts.InForce(reading.At);
        var fault = Fault(reading, facts, BrineShows);
        var value = reading.Shown.Value;
        // The scale itself, at the temperature it is made for.
        var atScale = FromBrine(value + fault, ScaleCelsius, RefractometerZero.Water)?.Practical ?? 0;
        ReadingCorrection[] corrections =
            inForce?.Standard == CalibrationStandard.SeaWater
                ? [new(ReadingCorrectionCode.BrineScaleFromStandard, atScale - value, inForce.HoldsFrom)]
                :
                [
                    new(ReadingCorrectionCode.Calibration, fault, inForce?.HoldsFrom),
                    new(ReadingCorrectionCode.BrineScale, atScale - (value + fault)),
                ];
        return Meaning(
            reading,
            facts,
            (shown, t) => FromBrine(shown + fault, t, Zero(facts)),
            _ => atScale,
            corrections,
            BrineTableSd
        );
    }

    // A sea-water scale with marks of specific gravity: the mark stands for the salinity it has at its references.
    public static ReadingMeaning OnGravityScale(
        SalinityReading reading,
        InstrumentFacts facts,
        ReferencePair pair
    )
    {
        if (HydrometerReading.AtReference(reading.Shown.Value, pair) is not { } face)
        {
            return ReadingMeaning.No(ReadingObstacle.NotPossible);
        }

        var perGravity = (HydrometerReading.AtReference(reading.Shown.Value + 1e-4, pair) - face) / 1e-4;
        // The calibration stands in marks of gravity as well.
        var asSalinity = facts with
        {
            ReadingSd = (facts.ReadingSd * perGravity) ?? UsualSd,
            Calibrations =
            [
                .. facts.Calibrations.Select(c => new InstrumentCalibration(
                    c.HoldsFrom,
                    c.Standard,
                    c.StandardValue,
                    HydrometerReading.AtReference(c.Shown, pair) ?? c.StandardValue,
                    c.Temperature,
                    c.ShownSd * (perGravity ?? 0)
                )),
            ],
        };
        return OnSeaWaterScale(reading with { Shown = ScaledSalinity.Practical(face) }, asSalinity);
    }

    private static ReadingMeaning Meaning(
        SalinityReading reading,
        InstrumentFacts facts,
        Func<double, double, Raw?> formula,
        Func<double, double> beforeTemperature,
        IEnumerable<ReadingCorrection> corrections,
        double otherSd
    )
    {
        if (reading.Sample is null && !facts.TemperatureCompensated)
        {
            return ReadingMeaning.No(ReadingObstacle.TemperatureNeeded);
        }

        var doubts = new List<ReadingDoubt>();
        var inForce = facts.InForce(reading.At);
        if (inForce is null)
        {
            doubts.Add(ReadingDoubt.NotCalibrated);
        }

        // Unknown warmth of a compensated instrument: 20 degC, and a spread that covers a warm room.
        var (celsius, celsiusSd) = (reading.Sample?.Celsius ?? ScaleCelsius, ReadingSpread.ThermometerSd);
        if (reading.Sample is null)
        {
            doubts.Add(ReadingDoubt.SampleTemperatureUnknown);
            celsiusSd = UnknownWarmthSd;
        }

        var shown = reading.Shown.Value;
        var all = corrections.ToList();
        if (formula(shown, celsius) is { } final)
        {
            all.Add(
                new(
                    facts.TemperatureCompensated
                        ? ReadingCorrectionCode.CompensationMadeForWater
                        : ReadingCorrectionCode.SampleTemperature,
                    final.Practical - beforeTemperature(shown)
                )
            );
        }

        var sd = Root.OfSquares(facts.ReadingSd ?? UsualSd, inForce?.ShownSd ?? 0);
        return ReadingSpread.Meaning(formula, (shown, sd), (celsius, celsiusSd), otherSd, all, doubts);
    }

    // What the scale would show in the standard, less what it showed: in units of the scale.
    private static double Fault(
        SalinityReading reading,
        InstrumentFacts facts,
        Func<double, double, RefractometerZero, double> shows
    ) =>
        facts.InForce(reading.At) is { Standard: not CalibrationStandard.Conductivity } calibration
            ? shows(
                calibration.Standard == CalibrationStandard.PureWater ? 0 : calibration.StandardValue,
                calibration.Temperature?.Celsius ?? facts.ScaleMadeFor.Celsius,
                Zero(facts)
            ) - calibration.Shown
            : 0;

    private static RefractometerZero Zero(InstrumentFacts facts) =>
        facts.TemperatureCompensated ? RefractometerZero.Water : RefractometerZero.None;

    private static double BrineShows(double salinity, double celsius, RefractometerZero zero) =>
        Refractometer
            .BrineScaleShows(Salinity.FromPractical(salinity), Temperature.FromCelsius(celsius), zero)
            .Value;

    private static double SeaWaterShows(
        double salinity,
        double celsius,
        Temperature scale,
        RefractometerZero zero
    ) =>
        Refractometer
            .SeaWaterScaleShows(
                Salinity.FromPractical(salinity),
                Temperature.FromCelsius(celsius),
                scale,
                zero
            )
            .Value;

    // The sea-water scale is a straight line in S: below fresh water it is drawn on, to tell how far below.
    private static Raw? FromSeaWater(double shown, double celsius, InstrumentFacts facts)
    {
        var zero = Zero(facts);
        var ofFresh = SeaWaterShows(0, celsius, facts.ScaleMadeFor, zero);
        var perUnit = SeaWaterShows(1, celsius, facts.ScaleMadeFor, zero) - ofFresh;
        if (shown < ofFresh)
        {
            return new((shown - ofFresh) / perUnit, true);
        }

        var found = Refractometer.FromSeaWaterScale(
            shown,
            Temperature.FromCelsius(celsius),
            facts.ScaleMadeFor,
            zero
        );
        return new(found.Value.Practical, found.WithinPublishedRange);
    }

    private static Raw? FromBrine(double shown, double celsius, RefractometerZero zero)
    {
        var ofFresh = BrineShows(0, celsius, zero);
        if (shown < ofFresh || shown < 0)
        {
            return new(Math.Min(shown - ofFresh, shown), true);
        }

        if (shown > MostOnBrineScale)
        {
            return null;
        }

        var found = Refractometer.FromBrineScale(shown, Temperature.FromCelsius(celsius), zero);
        return new(
            found.Value.Practical,
            found.WithinPublishedRange
                && found.Value.Practical <= HighestSalinity
                && celsius <= HighestCelsius
        );
    }

    private const double UnknownWarmthSd = 4;

    // Sodium chloride dissolves to 26 % by mass.
    private const double MostOnBrineScale = 260;
}
