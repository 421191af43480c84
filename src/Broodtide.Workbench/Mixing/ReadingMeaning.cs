using Broodtide.Science.Water;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Mixing;

/// <summary>What a reading means.</summary>
public abstract record ReadingMeaning
{
    private protected ReadingMeaning() { }

    /// <summary>It means a salinity.</summary>
    /// <param name="Salinity">Practical salinity, 5, 50 and 95 %.</param>
    /// <param name="Sd">Its standard deviation, practical salinity.</param>
    /// <param name="Corrections">What was corrected, in order; none twice.</param>
    /// <param name="Doubts">What is not known and widened the interval.</param>
    public sealed record Known(
        Interval Salinity,
        double Sd,
        IReadOnlyList<ReadingCorrection> Corrections,
        IReadOnlyList<ReadingDoubt> Doubts
    ) : ReadingMeaning;

    /// <summary>It gives no number.</summary>
    /// <param name="Code">Why.</param>
    /// <param name="IfReference">For a specific gravity without its reference: what it would mean with each usual one.</param>
    public sealed record Unknown(ReadingObstacle Code, IReadOnlyList<ReferenceMeaning> IfReference)
        : ReadingMeaning;

    internal static Unknown No(ReadingObstacle code) => new(code, []);
}

/// <summary>One correction of a reading.</summary>
/// <param name="Code">What it corrects.</param>
/// <param name="Amount">By how much it moved the practical salinity.</param>
/// <param name="CalibratedFrom">For a calibration: from when it holds.</param>
public sealed record ReadingCorrection(
    ReadingCorrectionCode Code,
    double Amount,
    Instant? CalibratedFrom = null
);

/// <summary>What a correction corrects.</summary>
public enum ReadingCorrectionCode
{
    /// <summary>The fault found when the instrument was checked.</summary>
    Calibration,

    /// <summary>A brine scale, which shows S 35 as about 36.5.</summary>
    BrineScale,

    /// <summary>
    /// A brine scale that was checked with a sea-water standard: its fault and the scale in one, nothing at the
    /// standard itself.
    /// </summary>
    BrineScaleFromStandard,

    /// <summary>Warmth of the sample in a refractometer without compensation, or against a hydrometer's reference.</summary>
    SampleTemperature,

    /// <summary>What compensation made for pure water leaves in sea water.</summary>
    CompensationMadeForWater,

    /// <summary>Glass that swells.</summary>
    GlassExpansion,

    /// <summary>The meter's straight line to 25 degC taken back and PSS-78 put in its place.</summary>
    MeterCompensation,
}

/// <summary>What is not known of a reading.</summary>
public enum ReadingDoubt
{
    /// <summary>The sample's temperature.</summary>
    SampleTemperatureUnknown,

    /// <summary>The share by which the meter refers to 25 degC.</summary>
    MeterAlphaUnknown,

    /// <summary>No calibration holds.</summary>
    NotCalibrated,

    /// <summary>The share of water in the salt mix was never measured.</summary>
    MixNotMeasured,
}

/// <summary>Why a reading gives no number.</summary>
public enum ReadingObstacle
{
    /// <summary>Specific gravity without its reference temperatures: ask for them.</summary>
    ReferenceNeeded,

    /// <summary>The sample's temperature is needed.</summary>
    TemperatureNeeded,

    /// <summary>Outside the published range of the formula.</summary>
    OutsidePublishedRange,

    /// <summary>Less than fresh water can show, by more than the instrument's error.</summary>
    BelowFreshWater,

    /// <summary>No water shows this number on this scale.</summary>
    NotPossible,
}

/// <summary>What a specific gravity would mean.</summary>
/// <param name="Reference">If these are the reference temperatures.</param>
/// <param name="Salinity">Practical salinity; none outside the published range.</param>
public sealed record ReferenceMeaning(ReferencePair Reference, Salinity? Salinity);
