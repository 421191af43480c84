using System.Collections.Frozen;
using System.Collections.Immutable;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Species;

/// <summary>What a unit measures. Units of one kind convert into each other.</summary>
public enum ProfileUnitKind
{
    /// <summary>A share from 0 to 1.</summary>
    Share,

    /// <summary>A factor, 1 or more.</summary>
    Factor,

    /// <summary>A whole thing counted: eggs, larvae.</summary>
    Count,

    /// <summary>A zoeal stage's number.</summary>
    Stage,

    /// <summary>A temperature, a point on the scale.</summary>
    Temperature,

    /// <summary>How much warmer.</summary>
    TemperatureDifference,

    /// <summary>A time span.</summary>
    Time,

    /// <summary>Temperature above a base, summed over time.</summary>
    ThermalTime,

    /// <summary>Practical salinity.</summary>
    Salinity,

    /// <summary>Mass of salt mix per litre; not a salinity, since the mix holds water.</summary>
    SaltMix,

    /// <summary>Mass of a dissolved substance per volume.</summary>
    Concentration,

    /// <summary>Acidity.</summary>
    Ph,

    /// <summary>A length.</summary>
    Length,

    /// <summary>A mass.</summary>
    Mass,

    /// <summary>Illuminance.</summary>
    Light,

    /// <summary>Animals per volume.</summary>
    Stocking,

    /// <summary>Cells per volume.</summary>
    CellDensity,

    /// <summary>Events per time.</summary>
    Frequency,
}

/// <summary>
/// One unit of the closed list a profile may use, written as UCUM writes it (unitsofmeasure.org; words in braces
/// are UCUM annotations of the unit one).
/// </summary>
public sealed record ProfileUnit
{
    // toBase = value * factor + offset. UCUM: mo is 1/12 of the Julian year a of 365.25 d.
    private static readonly ImmutableArray<ProfileUnit> List =
    [
        new("1", ProfileUnitKind.Share, 1, 0, 0, 1),
        new("%", ProfileUnitKind.Share, 0.01, 0, 0, 1),
        new("{factor}", ProfileUnitKind.Factor, 1, 0, 1, double.MaxValue),
        new("{count}", ProfileUnitKind.Count, 1, 0, 0, double.MaxValue),
        new("{stage}", ProfileUnitKind.Stage, 1, 0, 0, 100),
        new("Cel", ProfileUnitKind.Temperature, 1, 0, -273.15, 1000),
        new("[degF]", ProfileUnitKind.Temperature, 1 / 1.8, -32 / 1.8, -273.15, 1000),
        new("K", ProfileUnitKind.TemperatureDifference, 1, 0, 0, 1000),
        new("min", ProfileUnitKind.Time, 1 / 1440.0, 0, 0, MostDays),
        new("h", ProfileUnitKind.Time, 1 / 24.0, 0, 0, MostDays),
        new("d", ProfileUnitKind.Time, 1, 0, 0, MostDays),
        new("wk", ProfileUnitKind.Time, 7, 0, 0, MostDays),
        new("mo", ProfileUnitKind.Time, 365.25 / 12, 0, 0, MostDays),
        new("a", ProfileUnitKind.Time, 365.25, 0, 0, MostDays),
        new("Cel.d", ProfileUnitKind.ThermalTime, 1, 0, 0, double.MaxValue),
        new("{practical}", ProfileUnitKind.Salinity, 1, 0, 0, 1000),
        new("g{mix}/L", ProfileUnitKind.SaltMix, 1, 0, 0, 1000),
        new("mg/L", ProfileUnitKind.Concentration, 1, 0, 0, double.MaxValue),
        new("[pH]", ProfileUnitKind.Ph, 1, 0, 0, 14),
        new("mm", ProfileUnitKind.Length, 1, 0, 0, double.MaxValue),
        new("mg", ProfileUnitKind.Mass, 1, 0, 0, double.MaxValue),
        new("lx", ProfileUnitKind.Light, 1, 0, 0, double.MaxValue),
        new("/L", ProfileUnitKind.Stocking, 1, 0, 0, double.MaxValue),
        new(UnitCode.CellsPerMillilitre, ProfileUnitKind.CellDensity, 1, 0, 0, double.MaxValue),
        new("/a", ProfileUnitKind.Frequency, 1, 0, 0, double.MaxValue),
        new("/d", ProfileUnitKind.Frequency, 365.25, 0, 0, double.MaxValue),
    ];

    // Ten centuries: any span a keeper means, and far inside the range of an instant.
    private const double MostDays = 365_250;

    private static readonly FrozenDictionary<string, ProfileUnit> ByCode = List.ToFrozenDictionary(
        unit => unit.Code,
        StringComparer.Ordinal
    );

    private readonly double _factor;
    private readonly double _offset;
    private readonly double _lowest;
    private readonly double _highest;

    private ProfileUnit(
        string code,
        ProfileUnitKind kind,
        double factor,
        double offset,
        double lowest,
        double highest
    )
    {
        Code = code;
        Kind = kind;
        _factor = factor;
        _offset = offset;
        _lowest = lowest;
        _highest = highest;
    }

    /// <summary>All units a profile may use.</summary>
    public static ImmutableArray<ProfileUnit> All => List;

    /// <summary>The code as a profile and an entry write it, for example <c>Cel</c>.</summary>
    public string Code { get; }

    /// <summary>What it measures.</summary>
    public ProfileUnitKind Kind { get; }

    /// <summary>The unit with this exact code, or none.</summary>
    public static ProfileUnit? Find(string? code) => code is null ? null : ByCode.GetValueOrDefault(code);

    /// <summary>
    /// Whether a number in this unit can be at all: finite, a share within 0 to 1, a temperature from absolute
    /// zero to 1000 degC, pH within 0 to 14, and nothing else negative.
    /// </summary>
    public bool Allows(double value)
    {
        var inBase = (value * _factor) + _offset;
        return double.IsFinite(value) && inBase >= _lowest && inBase <= _highest;
    }

    /// <summary>The number in another unit of the same kind; unchanged if the unit is the same.</summary>
    /// <exception cref="ArgumentException">The other unit is of another kind.</exception>
    public double Convert(double value, ProfileUnit to)
    {
        if (to.Kind != Kind)
        {
            throw new ArgumentException($"{Code} is of another kind than {to.Code}.", nameof(to));
        }

        return to == this ? value : ((value * _factor) + _offset - to._offset) / to._factor;
    }

    /// <summary>The code.</summary>
    public override string ToString() => Code;
}
