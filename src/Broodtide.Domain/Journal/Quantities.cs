using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Typed numbers as quantities, for the units that are a plain factor or offset. Salinity scales need the water
/// science and are not here. Each gives none when the unit is of another kind or the number impossible.
/// </summary>
public static class Quantities
{
    // A picolitre: less than any keeper moves, and far above where shares of it overflow.
    private const double LeastVolume = 1e-12;

    /// <summary>As a volume; what is less than a picolitre is none at all.</summary>
    public static Volume? AsVolume(this TypedNumber? number) =>
        number is { Value: >= 0 and <= 1e12, Unit: var unit }
            ? AsVolume(number.Value < LeastVolume ? 0 : number.Value, unit)
            : null;

    private static Volume? AsVolume(double value, string unit) =>
        unit switch
        {
            "mL" => Volume.FromMillilitres(value),
            "L" => Volume.FromLitres(value),
            "[gal_us]" => Volume.FromUsGallons(value),
            "[qt_us]" => Volume.FromUsQuarts(value),
            _ => null,
        };

    /// <summary>As a mass.</summary>
    public static Mass? AsMass(this TypedNumber? number) =>
        number is { Value: >= 0 and <= 1e12 }
            ? number.Unit switch
            {
                "mg" => Mass.FromMilligrams(number.Value),
                "g" => Mass.FromGrams(number.Value),
                "kg" => Mass.FromKilograms(number.Value),
                _ => null,
            }
            : null;

    /// <summary>As a temperature.</summary>
    public static Temperature? AsTemperature(this TypedNumber? number) =>
        number?.KnownUnit() is { Dimension: Dimension.Temperature } unit && unit.Allows(number.Value)
            ? unit.Code == "Cel"
                ? Temperature.FromCelsius(number.Value)
                : Temperature.FromFahrenheit(number.Value)
            : null;

    /// <summary>As minutes.</summary>
    public static double? AsMinutes(this TypedNumber? number) =>
        number is { Value: >= 0 and <= 1e9 }
            ? number.Unit switch
            {
                "s" => number.Value / 60,
                "min" => number.Value,
                "h" => number.Value * 60,
                "d" => number.Value * 1440,
                _ => null,
            }
            : null;
}
