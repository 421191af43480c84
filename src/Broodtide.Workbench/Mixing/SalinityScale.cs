using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>The ways keepers say how salt water is.</summary>
public enum SalinityScale
{
    /// <summary>Practical salinity, what keepers call ppt.</summary>
    Practical,

    /// <summary>Absolute salinity, g/kg.</summary>
    Absolute,

    /// <summary>Grams of salt mix in a litre of finished water.</summary>
    MixPerLitreFinished,

    /// <summary>Grams of salt mix put into a litre of fresh water.</summary>
    MixPerLitreWater,

    /// <summary>Percent of sea water of S 35.</summary>
    PercentOfSeaWater,

    /// <summary>Chlorinity, g/kg.</summary>
    Chlorinity,

    /// <summary>A refractometer's brine scale, g of sodium chloride per kg.</summary>
    BrineGramsPerKilogram,

    /// <summary>Conductivity as it is, mS/cm.</summary>
    ConductivityRaw,

    /// <summary>Conductivity referred to 25 degC, mS/cm.</summary>
    ConductivityAt25,

    /// <summary>Specific gravity; means nothing without its two reference temperatures.</summary>
    SpecificGravity,
}

/// <summary>A salinity as said on a scale.</summary>
/// <param name="Value">The number, in the unit of the scale.</param>
/// <param name="Scale">The scale.</param>
/// <param name="Reference">The reference temperatures of a specific gravity; none elsewhere or where nobody said.</param>
public readonly record struct ScaledSalinity(
    double Value,
    SalinityScale Scale,
    ReferencePair? Reference = null
)
{
    /// <summary>Practical salinity said as such.</summary>
    public static ScaledSalinity Practical(double practical) => new(practical, SalinityScale.Practical);

    /// <summary>A number with one of the journal's unit codes, or null where the code is no salinity.</summary>
    public static ScaledSalinity? FromUnit(double value, string unitCode)
    {
        ArgumentNullException.ThrowIfNull(unitCode);
        return unitCode switch
        {
            "sal:practical" => new(value, SalinityScale.Practical),
            "sal:g/kg" => new(value, SalinityScale.Absolute),
            "sal:mix-g/L" => new(value, SalinityScale.MixPerLitreFinished),
            "sal:mix-g/L-water" => new(value, SalinityScale.MixPerLitreWater),
            "sal:percent-sea" => new(value, SalinityScale.PercentOfSeaWater),
            "sal:chlorinity" => new(value, SalinityScale.Chlorinity),
            "sal:brine-g/kg" => new(value, SalinityScale.BrineGramsPerKilogram),
            "sal:mS/cm" => new(value, SalinityScale.ConductivityRaw),
            "sal:mS/cm-25" => new(value, SalinityScale.ConductivityAt25),
            "sal:sg" => new(value, SalinityScale.SpecificGravity),
            "sal:sg-15/15" => Gravity(value, 15, 15),
            "sal:sg-15/4" => Gravity(value, 15, 4),
            "sal:sg-60F/60F" => Gravity(value, SixtyFahrenheit, SixtyFahrenheit),
            "sal:sg-20/20" => Gravity(value, 20, 20),
            "sal:sg-20/4" => Gravity(value, 20, 4),
            "sal:sg-25/25" => Gravity(value, 25, 25),
            "sal:sg-25/4" => Gravity(value, 25, 4),
            _ => null,
        };
    }

    /// <summary>The pairs of reference temperatures that stand on instruments of the trade. Practice, no source.</summary>
    public static IReadOnlyList<ReferencePair> UsualReferences { get; } =
    [
        Pair(25, 25),
        Pair(20, 20),
        Pair(SixtyFahrenheit, SixtyFahrenheit),
        Pair(15, 15),
        Pair(15, 4),
        Pair(20, 4),
        Pair(25, 4),
    ];

    // 60 degF in degC.
    private const double SixtyFahrenheit = (60 - 32) / 1.8;

    private static ReferencePair Pair(double sample, double water) =>
        new(Temperature.FromCelsius(sample), Temperature.FromCelsius(water));

    private static ScaledSalinity Gravity(double value, double sample, double water) =>
        new(value, SalinityScale.SpecificGravity, Pair(sample, water));
}
