using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// What a salinity reading means: the corrected practical salinity with its interval, and the corrections that were
/// applied, none twice. The rules:
/// a refractometer's fault is taken in units of its scale before the scale is converted, so a brine scale that was
/// set to show 35 in a 35 ppt sea-water standard needs no brine correction there and little nearby;
/// a compensated refractometer is corrected only for what compensation made for water leaves in sea water;
/// a meter that shows values at 25 degC is not corrected for temperature again: its own straight line is taken back
/// and PSS-78 put in its place, and only where its share per degree is known;
/// a calibration counts from the instant it is said to hold, the last one alone;
/// outside the published range of a formula there is no number.
/// </summary>
public static class ReadingMeanings
{
    /// <summary>Works out what a reading means.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="instrument">What is known of the instrument.</param>
    /// <param name="product">The salt mix, for scales that count it.</param>
    public static ReadingMeaning Of(SalinityReading reading, InstrumentFacts instrument, SaltProduct product)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(instrument);
        ArgumentNullException.ThrowIfNull(product);
        if (!double.IsFinite(reading.Shown.Value))
        {
            return ReadingMeaning.No(ReadingObstacle.NotPossible);
        }

        if (
            reading.Sample is { } sample
            && sample.Celsius is < Wishes.LowestCelsius or > Wishes.HighestCelsius
        )
        {
            return ReadingMeaning.No(ReadingObstacle.OutsidePublishedRange);
        }

        return reading.Shown.Scale switch
        {
            SalinityScale.SpecificGravity => OfGravity(reading, instrument),
            SalinityScale.BrineGramsPerKilogram => RefractometerReading.OnBrineScale(reading, instrument),
            SalinityScale.ConductivityRaw => ConductivityReading.Raw(reading, instrument),
            SalinityScale.ConductivityAt25 => ConductivityReading.At25(reading, instrument),
            SalinityScale.Practical when instrument.Kind == SalinityInstrument.Refractometer =>
                RefractometerReading.OnSeaWaterScale(reading, instrument),
            SalinityScale.Practical => AsShown(reading, instrument),
            _ => AsSaid(reading, product),
        };
    }

    /// <summary>What a specific gravity would mean with each usual reference, read in a glass hydrometer.</summary>
    public static IReadOnlyList<ReferenceMeaning> IfReference(double specificGravity, Temperature? sample) =>
        [
            .. ScaledSalinity.UsualReferences.Select(pair => new ReferenceMeaning(
                pair,
                HydrometerReading.Glass(specificGravity, (sample ?? pair.Sample).Celsius, pair)
                    is { IsPublished: true, Practical: >= 0 } raw
                    ? Salinity.FromPractical(raw.Practical)
                    : null
            )),
        ];

    private static ReadingMeaning OfGravity(SalinityReading reading, InstrumentFacts instrument)
    {
        if ((reading.Shown.Reference ?? instrument.Reference) is not { } pair)
        {
            return new ReadingMeaning.Unknown(
                ReadingObstacle.ReferenceNeeded,
                IfReference(reading.Shown.Value, reading.Sample)
            );
        }

        return instrument.Kind switch
        {
            SalinityInstrument.SwingArmHydrometer => HydrometerReading.OfSwingArm(reading, instrument, pair),
            SalinityInstrument.Refractometer => RefractometerReading.OnGravityScale(
                reading,
                instrument,
                pair
            ),
            _ => HydrometerReading.OfGlass(reading, instrument, pair),
        };
    }

    // A meter that shows salinity has converted by itself; only a calibration can tell how well.
    private static ReadingMeaning AsShown(SalinityReading reading, InstrumentFacts instrument)
    {
        var inForce = instrument.InForce(reading.At);
        var fault = inForce is { Standard: CalibrationStandard.SeaWater or CalibrationStandard.PureWater }
            ? inForce.StandardValue - inForce.Shown
            : 0;
        var sd = Root.OfSquares(instrument.ReadingSd ?? UsualSalinitySd, inForce?.ShownSd ?? 0);
        return ReadingSpread.Meaning(
            (shown, _) => new Raw(shown + fault, shown + fault <= Wishes.HighestSalinity),
            (reading.Shown.Value, sd),
            (RefractometerReading.ScaleCelsius, 0),
            0,
            [new(ReadingCorrectionCode.Calibration, fault, inForce?.HoldsFrom)],
            inForce is null ? [ReadingDoubt.NotCalibrated] : []
        );
    }

    // Grams of mix, percent, chlorinity: no instrument, a statement.
    private static ReadingMeaning AsSaid(SalinityReading reading, SaltProduct product)
    {
        var ofMix =
            reading.Shown.Scale is SalinityScale.MixPerLitreFinished or SalinityScale.MixPerLitreWater;
        var celsius = reading.Sample?.Celsius ?? RefractometerReading.ScaleCelsius;
        var mixShare = ofMix ? product.WaterShareSd / product.Mix.DryShare : 0;
        return ReadingSpread.Meaning(
            (shown, t) =>
                OtherScales.ToPractical(
                    reading.Shown with
                    {
                        Value = shown,
                    },
                    Temperature.FromCelsius(t),
                    product
                )
                    is { } found
                    ? new Raw(
                        found.Value.Practical,
                        found.WithinPublishedRange && found.Value.Practical <= Wishes.HighestSalinity
                    )
                    : null,
            (reading.Shown.Value, reading.Shown.Value * Root.OfSquares(SaidSdShare, mixShare)),
            (celsius, 0),
            0,
            [],
            ofMix && !product.IsMeasured ? [ReadingDoubt.MixNotMeasured] : []
        );
    }

    // Practice, no source: a meter of the trade in ppt; a mixture by kitchen scale and jug.
    private const double UsualSalinitySd = 0.7;
    private const double SaidSdShare = 0.02;
}
