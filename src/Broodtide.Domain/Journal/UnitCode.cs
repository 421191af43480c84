using System.Collections.Frozen;

namespace Broodtide.Domain.Journal;

/// <summary>What a unit measures. Numbers of one dimension can be compared, others cannot.</summary>
public enum Dimension
{
    /// <summary>An amount of water.</summary>
    Volume,

    /// <summary>A weight.</summary>
    Mass,

    /// <summary>A point on a temperature scale.</summary>
    Temperature,

    /// <summary>Saltiness on any of the scales keepers use.</summary>
    Salinity,

    /// <summary>Acidity.</summary>
    Acidity,

    /// <summary>Nitrogen of ammonia and ammonium together.</summary>
    TotalAmmonia,

    /// <summary>Un-ionised ammonia.</summary>
    UnionisedAmmonia,

    /// <summary>Nitrite.</summary>
    Nitrite,

    /// <summary>Nitrate.</summary>
    Nitrate,

    /// <summary>Dissolved oxygen.</summary>
    Oxygen,

    /// <summary>Chlorine, free or total.</summary>
    Chlorine,

    /// <summary>Alkalinity.</summary>
    Alkalinity,

    /// <summary>General hardness.</summary>
    Hardness,

    /// <summary>Cells per volume.</summary>
    CellDensity,

    /// <summary>How bright: illuminance, or photons that algae can use.</summary>
    Light,

    /// <summary>A length.</summary>
    Length,

    /// <summary>A span of time.</summary>
    Duration,

    /// <summary>How many.</summary>
    Number,

    /// <summary>A share of a whole.</summary>
    Share,
}

/// <summary>
/// One unit of the journal's closed list. Codes are UCUM where UCUM has one; salinity scales and nitrogen said as
/// element or as ion have codes of our own, written out in docs/journal.md.
/// </summary>
/// <param name="Code">The code as it stands in a body.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Lowest">Lowest value that is physically possible, in this unit.</param>
/// <param name="Highest">Highest value that is physically possible, in this unit.</param>
public sealed record UnitCode(string Code, Dimension Dimension, double Lowest, double Highest)
{
    private const double Most = 1e12;

    private static readonly UnitCode[] List =
    [
        new("mL", Dimension.Volume, 0, Most),
        new("L", Dimension.Volume, 0, Most),
        new("[gal_us]", Dimension.Volume, 0, Most),
        new("[qt_us]", Dimension.Volume, 0, Most),
        new("mg", Dimension.Mass, 0, Most),
        new("g", Dimension.Mass, 0, Most),
        new("kg", Dimension.Mass, 0, Most),
        new("Cel", Dimension.Temperature, -273.15, 1000),
        new("[degF]", Dimension.Temperature, -459.67, 1832),
        // Salinity scales.
        new(PracticalSalinity, Dimension.Salinity, 0, 1000),
        new("sal:g/kg", Dimension.Salinity, 0, 1000),
        new("sal:mix-g/L", Dimension.Salinity, 0, 2000),
        new("sal:mix-g/L-water", Dimension.Salinity, 0, 2000),
        new("sal:percent-sea", Dimension.Salinity, 0, 2000),
        new("sal:chlorinity", Dimension.Salinity, 0, 1000),
        new("sal:brine-g/kg", Dimension.Salinity, 0, 1000),
        new("sal:mS/cm", Dimension.Salinity, 0, 1000),
        new("sal:mS/cm-25", Dimension.Salinity, 0, 1000),
        new("sal:sg", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-15/15", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-15/4", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-60F/60F", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-20/20", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-20/4", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-25/25", Dimension.Salinity, 0.5, 2000),
        new("sal:sg-25/4", Dimension.Salinity, 0.5, 2000),
        // Water chemistry: nitrogen is always said as N or as the ion.
        new("[pH]", Dimension.Acidity, -2, 16),
        new("mg/L{TAN-N}", Dimension.TotalAmmonia, 0, 1e6),
        new("mg/L{NH4}", Dimension.TotalAmmonia, 0, 1e6),
        new("mg/L{NH3-N}", Dimension.UnionisedAmmonia, 0, 1e6),
        new("mg/L{NH3}", Dimension.UnionisedAmmonia, 0, 1e6),
        new("mg/L{NO2-N}", Dimension.Nitrite, 0, 1e6),
        new("mg/L{NO2}", Dimension.Nitrite, 0, 1e6),
        new("mg/L{NO3-N}", Dimension.Nitrate, 0, 1e6),
        new("mg/L{NO3}", Dimension.Nitrate, 0, 1e6),
        new("mg/L{O2}", Dimension.Oxygen, 0, 1e6),
        new("%{O2}", Dimension.Oxygen, 0, 1e4),
        new("mg/L{Cl2}", Dimension.Chlorine, 0, 1e6),
        new("g/L{Cl2}", Dimension.Chlorine, 0, 1e6),
        new("meq/L", Dimension.Alkalinity, 0, 1e4),
        new("[dKH]", Dimension.Alkalinity, 0, 1e4),
        new("[dGH]", Dimension.Hardness, 0, 1e4),
        new(CellsPerMillilitre, Dimension.CellDensity, 0, Most),
        // What an eye sees and what an alga uses: which is how much of the other depends on the lamp.
        new("lx", Dimension.Light, 0, 1e7),
        new("umol/m2/s", Dimension.Light, 0, 1e6),
        new("mm", Dimension.Length, 0, 1e6),
        new("cm", Dimension.Length, 0, 1e6),
        new("s", Dimension.Duration, 0, 1e10),
        new("min", Dimension.Duration, 0, 1e9),
        new("h", Dimension.Duration, 0, 1e8),
        new("d", Dimension.Duration, 0, 1e7),
        new("1", Dimension.Number, 0, Most),
        new("%", Dimension.Share, 0, 1e4),
    ];

    /// <summary>The code of practical salinity, PSS-78: what keepers call ppt.</summary>
    public const string PracticalSalinity = "sal:practical";

    /// <summary>The code of algal cells in a millilitre, in UCUM.</summary>
    public const string CellsPerMillilitre = "{cells}/mL";

    private static readonly FrozenDictionary<string, UnitCode> ByCode = List.ToFrozenDictionary(
        unit => unit.Code,
        StringComparer.Ordinal
    );

    /// <summary>Every unit, in the order of the documentation.</summary>
    public static IReadOnlyList<UnitCode> All => List;

    /// <summary>The unit of a code, or none if the list has no such code.</summary>
    public static UnitCode? Find(string code) => ByCode.GetValueOrDefault(code);

    /// <summary>Whether a number in this unit is physically possible: finite, not negative where that is nothing.</summary>
    public bool Allows(double value) => value >= Lowest && value <= Highest;
}
