namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// How far off a keeper's moves of water usually are. All of it is common practice with no source; an entry that
/// says better wins.
/// </summary>
public sealed record LedgerErrors
{
    /// <summary>The usual errors.</summary>
    public static LedgerErrors Usual { get; } = new();

    /// <summary>Standard deviation of a poured volume, as a share of it: a kitchen jug.</summary>
    public double PourShare { get; init; } = 0.03;

    /// <summary>Least standard deviation of a poured volume, litres.</summary>
    public double PourLeastLitres { get; init; } = 0.005;

    /// <summary>Standard deviation of a vessel's first filling, as a share of it.</summary>
    public double FillShare { get; init; } = 0.03;

    /// <summary>Standard deviation of filling to the working line, as a share of the capacity.</summary>
    public double LineShare { get; init; } = 0.015;

    /// <summary>Standard deviation of a vessel's content when nobody wrote down its filling, as a share.</summary>
    public double UnknownFillShare { get; init; } = 0.2;

    /// <summary>Volume assumed when neither filling nor capacity was written down, litres.</summary>
    public double UnknownVolumeLitres { get; init; } = 5;

    /// <summary>Standard deviation of a salinity nobody wrote down.</summary>
    public double UnknownSalinitySd { get; init; } = 15;

    /// <summary>Standard deviation of tap or rain water taken as fresh.</summary>
    public double FreshSd { get; init; } = 0.1;

    /// <summary>Standard deviation of a weighing, as a share of it.</summary>
    public double WeighShare { get; init; } = 0.02;

    /// <summary>Water in salt mix, 0 to 1 by mass: between dry and all hydrates of the Kester recipe (0.149).</summary>
    public double MixMoisture { get; init; } = 0.1;

    /// <summary>Its standard deviation.</summary>
    public double MixMoistureSd { get; init; } = 0.04;

    /// <summary>
    /// Evaporation assumed at first, mm a day over a surface of volume to the power two thirds: half of the 2.6 mm
    /// that Shah 2014 gives for still water at 25 degC in air of 25 degC and 50 % humidity, since most jars have a lid.
    /// </summary>
    public double EvaporationMillimetresPerDay { get; init; } = 1.3;

    /// <summary>How much of that a closed can loses.</summary>
    public double ClosedShare { get; init; } = 0.03;

    /// <summary>A reading this many standard deviations off does not fit: once in a thousand if all were right.</summary>
    public double MisfitSurprise { get; init; } = 3.29;

    /// <summary>
    /// Standard deviation of what a salinity sensor that stays in the water is off by before a reading by hand tells, practical
    /// salinity: a probe set in a standard weeks ago. Common practice.
    /// </summary>
    public double SensorOffsetSd { get; init; } = 1;

    /// <summary>How far that wanders in a day as the probe grows over, practical salinity: half a ppt in a month. Common practice.</summary>
    public double SensorWanderSd { get; init; } = 0.1;

    /// <summary>Least standard deviation of six hours of a sensor beside what it is off by, practical salinity.</summary>
    public double SensorLeastSd { get; init; } = 0.1;

    /// <summary>Temperature assumed where none was written down, degC.</summary>
    public double TemperatureCelsius { get; init; } = 24;
}
