using Broodtide.Domain.Journal;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Recording;

namespace Broodtide.Phone.Parts;

/// <summary>What stands in a field for an amount: the text as typed and the unit taken where none is typed.</summary>
public sealed class AmountInput(Dimension dimension, string unit, string text = "")
{
    public Dimension Dimension => dimension;

    /// <summary>Code of the unit chosen beside the field.</summary>
    public string Unit { get; set; } = unit;

    public string Text { get; set; } = text;

    /// <summary>Whether the keeper typed or chose here: nothing else overwrites it then.</summary>
    public bool IsTouched { get; set; }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Text);

    /// <summary>The number understood, or why there is none.</summary>
    public Parsed<TypedNumber> Read() => AmountText.Parse(Text, "", dimension, Unit);

    /// <summary>The number understood, if there is one.</summary>
    public TypedNumber? Typed => Read() is { Succeeded: true } read ? read.Value : null;

    public double? Value => Typed?.Value;

    public Volume? Volume => Typed.AsVolume();

    public Mass? Mass => Typed.AsMass();

    public Temperature? Temperature => Typed.AsTemperature();

    public double? Minutes => Typed.AsMinutes();

    /// <summary>The number on its scale; none where there is no number.</summary>
    public ScaledSalinity? Scaled =>
        Typed is { } typed ? ScaledSalinity.FromUnit(typed.Value, typed.Unit) : null;

    /// <summary>The practical salinity that the number stands for at a temperature, taken at its word.</summary>
    public Salinity? PracticalAt(Temperature temperature, SaltProduct product) =>
        Scaled is { } scaled && OtherScales.ToPractical(scaled, temperature, product) is { } found
            ? found.Value
            : null;
}

/// <summary>Fields that begin in the units the keeper prefers.</summary>
internal static class Amounts
{
    public static AmountInput OfVolume(Formats formats, Volume? volume = null, bool small = false)
    {
        var unit =
            formats.Units == UnitSystem.Us ? (small ? "[qt_us]" : "[gal_us]")
            : small ? "mL"
            : "L";
        var input = new AmountInput(Dimension.Volume, unit);
        Set(input, volume, formats);
        return input;
    }

    public static AmountInput OfTemperature(Formats formats, Temperature? temperature = null)
    {
        var input = new AmountInput(Dimension.Temperature, formats.Units == UnitSystem.Us ? "[degF]" : "Cel");
        Set(input, temperature, formats);
        return input;
    }

    public static AmountInput OfSalinity(Formats formats, Salinity? salinity = null)
    {
        var input = new AmountInput(Dimension.Salinity, UnitCode.PracticalSalinity);
        Set(input, salinity, formats);
        return input;
    }

    public static AmountInput OfMinutes(Formats formats, double minutes) =>
        new(Dimension.Duration, "min", formats.Plain(minutes, 1));

    public static void Set(AmountInput input, Volume? volume, Formats formats) =>
        input.Text = volume is { } litres
            ? input.Unit switch
            {
                "mL" => formats.Plain(litres.Millilitres, 0),
                "[gal_us]" => formats.Plain(litres.UsGallons, 2),
                "[qt_us]" => formats.Plain(litres.UsQuarts, 2),
                _ => formats.Plain(litres.Litres, 2),
            }
            : "";

    public static void Set(AmountInput input, Temperature? temperature, Formats formats) =>
        input.Text = temperature is { } warmth
            ? formats.Plain(input.Unit == "[degF]" ? warmth.Fahrenheit : warmth.Celsius, 1)
            : "";

    public static void Set(AmountInput input, Salinity? salinity, Formats formats)
    {
        input.Unit = salinity is null ? input.Unit : UnitCode.PracticalSalinity;
        input.Text = salinity is { } salt ? formats.Plain(salt.Practical, 2) : "";
    }

    /// <summary>The units to choose from for a field, the preferred first.</summary>
    public static IReadOnlyList<string> Units(AmountInput input, Formats formats) =>
        (input.Dimension, formats.Units) switch
        {
            (Dimension.Volume, UnitSystem.Us) => ["[gal_us]", "[qt_us]", "L", "mL"],
            (Dimension.Volume, _) => ["L", "mL", "[gal_us]", "[qt_us]"],
            (Dimension.Temperature, UnitSystem.Us) => ["[degF]", "Cel"],
            (Dimension.Temperature, _) => ["Cel", "[degF]"],
            (Dimension.Salinity, _) => SalinityScales,
            (Dimension.Mass, _) => ["g", "kg"],
            (Dimension.Chlorine, _) => [input.Unit],
            _ => [input.Unit],
        };

    /// <summary>The scales a keeper may say a salinity on.</summary>
    public static readonly string[] SalinityScales =
    [
        UnitCode.PracticalSalinity,
        "sal:sg",
        "sal:sg-25/25",
        "sal:sg-20/20",
        "sal:sg-60F/60F",
        "sal:sg-15/15",
        "sal:sg-15/4",
        "sal:sg-20/4",
        "sal:sg-25/4",
        "sal:mix-g/L",
        "sal:mix-g/L-water",
        "sal:percent-sea",
        "sal:brine-g/kg",
        "sal:mS/cm-25",
        "sal:mS/cm",
        "sal:g/kg",
        "sal:chlorinity",
    ];
}
