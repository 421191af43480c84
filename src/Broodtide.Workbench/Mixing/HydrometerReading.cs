using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>What a hydrometer's reading means.</summary>
internal static class HydrometerReading
{
    // Half a usual division of 0.001. Practice, no source.
    private const double GlassSd = 0.0005;

    // A swinging arm: sticky, bubbly; worse when never checked. Practice, no source.
    private const double SwingArmSd = 0.001;
    private const double UncheckedSwingArmSd = 0.002;

    // Any float of the trade lies between: outside, the number is a slip.
    private const double LightestGravity = 0.98;
    private const double HeaviestGravity = 1.3;

    // Rise of specific gravity for each unit of S, near enough to tell how far below fresh water a reading lies.
    private const double GravityPerPractical = 7.6e-4;

    public static ReadingMeaning OfGlass(SalinityReading reading, InstrumentFacts facts, ReferencePair pair)
    {
        if (reading.Sample is not { } sample)
        {
            return ReadingMeaning.No(ReadingObstacle.TemperatureNeeded);
        }

        var inForce = facts.InForce(reading.At);
        var glass = new GlassHydrometer(pair.Sample, pair.Water);
        var fault = Fault(
            inForce,
            pair,
            (s, t) => glass.ReadingIn(Salinity.FromPractical(s), Temperature.FromCelsius(t)).Value
        );
        var value = reading.Shown.Value;
        var face = AtReference(value, pair) ?? 0;
        var faultless = AtReference(value + fault, pair) ?? 0;
        var atSample = Plain(value + fault, sample.Celsius, pair)?.Practical ?? 0;
        var final = Glass(value + fault, sample.Celsius, pair)?.Practical ?? 0;
        return ReadingSpread.Meaning(
            (shown, t) => Glass(shown + fault, t, pair),
            (value, Root.OfSquares(facts.ReadingSd ?? GlassSd, inForce?.ShownSd ?? 0)),
            (sample.Celsius, ReadingSpread.ThermometerSd),
            0,
            [
                new(ReadingCorrectionCode.Calibration, faultless - face, inForce?.HoldsFrom),
                new(ReadingCorrectionCode.SampleTemperature, atSample - faultless),
                new(ReadingCorrectionCode.GlassExpansion, final - atSample),
            ],
            inForce is null ? [ReadingDoubt.NotCalibrated] : []
        );
    }

    // A swinging arm is said to make up for warmth by itself; how well, only its calibration tells.
    public static ReadingMeaning OfSwingArm(
        SalinityReading reading,
        InstrumentFacts facts,
        ReferencePair pair
    )
    {
        var inForce = facts.InForce(reading.At);
        var fault = Fault(inForce, pair, (s, _) => SpecificGravity.Of(Salinity.FromPractical(s), pair).Value);
        var value = reading.Shown.Value;
        var usual = inForce is null ? UncheckedSwingArmSd : SwingArmSd;
        return ReadingSpread.Meaning(
            (shown, _) => Plain(shown + fault, pair.Sample.Celsius, pair),
            (value, Root.OfSquares(facts.ReadingSd ?? usual, inForce?.ShownSd ?? 0)),
            (pair.Sample.Celsius, 0),
            0,
            [
                new(
                    ReadingCorrectionCode.Calibration,
                    (AtReference(value + fault, pair) ?? 0) - (AtReference(value, pair) ?? 0),
                    inForce?.HoldsFrom
                ),
            ],
            inForce is null ? [ReadingDoubt.NotCalibrated] : []
        );
    }

    /// <summary>Salinity of the water in which a glass hydrometer reads so; null where no water does.</summary>
    public static Raw? Glass(double reading, double celsius, ReferencePair pair) =>
        reading is < LightestGravity or > HeaviestGravity ? null
        : new GlassHydrometer(pair.Sample, pair.Water).TrySalinityFrom(
            reading,
            Temperature.FromCelsius(celsius),
            out var salinity
        )
            ? new Raw(salinity.Value.Practical, salinity.WithinPublishedRange)
        : Below(
            reading,
            new GlassHydrometer(pair.Sample, pair.Water)
                .ReadingIn(default, Temperature.FromCelsius(celsius))
                .Value
        );

    /// <summary>Salinity a specific gravity stands for at its own references; null where none does.</summary>
    public static double? AtReference(double reading, ReferencePair pair) =>
        Plain(reading, pair.Sample.Celsius, pair)?.Practical;

    private static Raw? Plain(double reading, double celsius, ReferencePair pair)
    {
        if (reading is < LightestGravity or > HeaviestGravity)
        {
            return null;
        }

        var at = pair with { Sample = Temperature.FromCelsius(celsius) };
        return SpecificGravity.TrySalinityAt(reading, at, out var salinity)
            ? new Raw(salinity.Value.Practical, salinity.WithinPublishedRange)
            : Below(reading, SpecificGravity.Of(default, at).Value);
    }

    private static Raw? Below(double reading, double ofFresh) =>
        reading < ofFresh ? new Raw((reading - ofFresh) / GravityPerPractical, true) : null;

    // What it would read in the standard, less what it read.
    private static double Fault(
        InstrumentCalibration? calibration,
        ReferencePair pair,
        Func<double, double, double> reads
    ) =>
        calibration is { Standard: not CalibrationStandard.Conductivity }
            ? reads(
                calibration.Standard == CalibrationStandard.PureWater ? 0 : calibration.StandardValue,
                (calibration.Temperature ?? pair.Sample).Celsius
            ) - calibration.Shown
            : 0;
}
