using Broodtide.Science.Water;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Mixing;

/// <summary>The instruments keepers read salinity from.</summary>
public enum SalinityInstrument
{
    /// <summary>Nobody said; the scale decides how it is read.</summary>
    Unknown,

    /// <summary>A refractometer, by hand or digital.</summary>
    Refractometer,

    /// <summary>A floating hydrometer of glass.</summary>
    GlassHydrometer,

    /// <summary>A plastic hydrometer with a swinging arm. It does not swell as glass does: only a calibration helps.</summary>
    SwingArmHydrometer,

    /// <summary>A conductivity meter.</summary>
    ConductivityMeter,
}

/// <summary>What is known of an instrument.</summary>
public sealed record InstrumentFacts
{
    /// <summary>What it is.</summary>
    public SalinityInstrument Kind { get; init; }

    /// <summary>
    /// Whether a refractometer makes up for warmth: by automatic compensation, or because it is set to zero with
    /// pure water of the sample's temperature before reading.
    /// </summary>
    public bool TemperatureCompensated { get; init; } = true;

    /// <summary>Temperature a refractometer's sea-water scale is made for; mostly 20 degC.</summary>
    public Temperature ScaleMadeFor { get; init; } = Temperature.FromCelsius(20);

    /// <summary>
    /// The temperatures on a hydrometer: of the sample at which the glass has its volume, and of the water that
    /// reads 1.000. None where nobody said.
    /// </summary>
    public ReferencePair? Reference { get; init; }

    /// <summary>
    /// Share per degC by which a meter refers conductivity to 25 degC; none where nobody said. 0.0191 is usual.
    /// </summary>
    public double? MeterAlphaPerCelsius { get; init; }

    /// <summary>Standard deviation of a reading in the unit of its scale; none for the usual one of its kind.</summary>
    public double? ReadingSd { get; init; }

    /// <summary>Its calibrations, in any order. The last one that holds at the time of a reading counts, alone.</summary>
    public IReadOnlyList<InstrumentCalibration> Calibrations { get; init; } = [];

    /// <summary>The calibration in force at an instant, or none.</summary>
    public InstrumentCalibration? InForce(Instant at) =>
        Calibrations.Where(c => c.HoldsFrom <= at).MaxBy(c => c.HoldsFrom);
}

/// <summary>What an instrument was checked against.</summary>
public enum CalibrationStandard
{
    /// <summary>Pure water.</summary>
    PureWater,

    /// <summary>
    /// Sea water of a known practical salinity, or, for a refractometer, a solution with the refractive index of it
    /// at 20 degC, such as the 35 ppt standard.
    /// </summary>
    SeaWater,

    /// <summary>A conductivity standard, mS/cm, on the footing the meter shows (raw, or at 25 degC).</summary>
    Conductivity,
}

/// <summary>One check of an instrument against a standard. It is not set since: what it showed is its fault.</summary>
public sealed record InstrumentCalibration
{
    // In the unit of the scale; no scale of an instrument for water goes so far.
    private const double MostShown = 1000;

    /// <summary>A check.</summary>
    /// <param name="holdsFrom">From when the fault is said to hold; earlier readings keep theirs.</param>
    /// <param name="standard">What it was checked against.</param>
    /// <param name="standardValue">Practical salinity of the standard, 0 to 42, or mS/cm, 0 to 1000; 0 for pure water.</param>
    /// <param name="shown">What it showed, or was set to show, in the unit of its scale.</param>
    /// <param name="temperature">Temperature of the standard; none for the temperature the scale is made for.</param>
    /// <param name="shownSd">Standard deviation of what it showed, in the unit of its scale.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A number is not finite or out of range, or the temperature is outside -1.99 to 39.98 degC.
    /// </exception>
    public InstrumentCalibration(
        Instant holdsFrom,
        CalibrationStandard standard,
        double standardValue,
        double shown,
        Temperature? temperature,
        double shownSd
    )
    {
        HoldsFrom = holdsFrom;
        Standard = standard;
        StandardValue = Finite.Within(standardValue, 0, HighestOf(standard));
        Shown = Finite.Within(shown, -MostShown, MostShown);
        if (temperature is { } at)
        {
            Finite.Within(at.Celsius, Wishes.LowestCelsius, Wishes.HighestCelsius);
        }

        Temperature = temperature;
        ShownSd = Finite.NotNegative(shownSd);
    }

    /// <summary>Whether a standard and what was shown can be used at all; what a store holds may be anything.</summary>
    /// <param name="standard">What it was checked against.</param>
    /// <param name="standardValue">Its value.</param>
    /// <param name="shown">What it showed.</param>
    /// <param name="temperature">Temperature of the standard.</param>
    public static bool CanBe(
        CalibrationStandard standard,
        double standardValue,
        double shown,
        Temperature? temperature
    ) =>
        standardValue >= 0
        && standardValue <= HighestOf(standard)
        && shown is >= -MostShown and <= MostShown
        && temperature?.Celsius is not (< Wishes.LowestCelsius or > Wishes.HighestCelsius);

    /// <summary>From when it holds.</summary>
    public Instant HoldsFrom { get; }

    /// <summary>What it was checked against.</summary>
    public CalibrationStandard Standard { get; }

    /// <summary>Practical salinity of the standard, or mS/cm.</summary>
    public double StandardValue { get; }

    /// <summary>What it showed, in the unit of its scale.</summary>
    public double Shown { get; }

    /// <summary>Temperature of the standard, if known.</summary>
    public Temperature? Temperature { get; }

    /// <summary>Standard deviation of what it showed, in the unit of its scale.</summary>
    public double ShownSd { get; }

    private static double HighestOf(CalibrationStandard standard) =>
        standard == CalibrationStandard.Conductivity ? 1000 : Wishes.HighestSalinity;
}

/// <summary>One salinity reading as it was written down.</summary>
/// <param name="Shown">What was shown, on its scale.</param>
/// <param name="Sample">Temperature of the sample; none where nobody measured it.</param>
/// <param name="At">When it was read.</param>
public sealed record SalinityReading(ScaledSalinity Shown, Temperature? Sample, Instant At);
