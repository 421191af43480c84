using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>
/// Water in one text: how much, how salt, how warm, parted by semicolons: "5 L; 35 ppt; 24 C". Fresh where no
/// salinity is said; of the usual temperature where none is.
/// </summary>
internal static class WaterText
{
    public const string Form = "VOLUME; SALINITY; TEMPERATURE, such as \"5 L; 35 ppt; 24 C\"";

    /// <summary>Temperature taken where none is said, degC: a warm room.</summary>
    public const double UsualCelsius = 24;

    public static WaterBody? Of(Said said, Slot slot, SaltProduct product) =>
        said.Text(slot) is { } text ? Of(said, text, slot.Name, product) : null;

    public static WaterBody The(Said said, Slot slot, SaltProduct product) =>
        Of(said, slot, product) ?? default;

    public static WaterBody? Of(Said said, string text, string field, SaltProduct product)
    {
        var parts = text.Split(';', StringSplitOptions.TrimEntries);
        if (parts.Length > 3)
        {
            said.Add(
                new Remark("water-not-read", new("field", field), new("typed", text), new("allowed", Form))
            );
            return null;
        }

        var volume = Number(said, parts, 0, $"{field} volume", Dimension.Volume, null).AsVolume();
        var typedWarm = Number(said, parts, 2, $"{field} temperature", Dimension.Temperature, "Cel");
        var warm = typedWarm.AsTemperature() ?? Temperature.FromCelsius(UsualCelsius);
        var typedSalt = Number(
            said,
            parts,
            1,
            $"{field} salinity",
            Dimension.Salinity,
            UnitCode.PracticalSalinity
        );
        var salt = Salinity(said, typedSalt, $"{field} salinity", warm, product);
        if (typedWarm is not null && typedWarm.AsTemperature() is null)
        {
            said.Add(Impossible($"{field} temperature", typedWarm));
        }

        return volume is { } litres && salt is { } salinity ? new WaterBody(litres, salinity, warm) : null;
    }

    /// <summary>Practical salinity of a typed number; fresh where none was typed.</summary>
    public static Salinity? Salinity(
        Said said,
        TypedNumber? typed,
        string field,
        Temperature temperature,
        SaltProduct product
    )
    {
        if (typed is null)
        {
            return default(Salinity);
        }

        if (
            ScaledSalinity.FromUnit(typed.Value, typed.Unit) is { } scaled
            && OtherScales.ToPractical(scaled, temperature, product)
                is { WithinPublishedRange: true } computed
        )
        {
            return computed.Value;
        }

        said.Add(
            typed.Unit == "sal:sg"
                ? new Remark("references-needed", new("field", field), new("typed", typed.Typed))
                : Impossible(field, typed)
        );
        return null;
    }

    private static Remark Impossible(string field, TypedNumber typed) =>
        new("number-outside-its-formula", new("field", field), new("typed", typed.Typed));

    private static TypedNumber? Number(
        Said said,
        string[] parts,
        int place,
        string field,
        Dimension dimension,
        string? unit
    ) =>
        place == 0 || (place < parts.Length && parts[place].Length > 0)
            ? said.AmountOf(parts[place], field, [dimension], unit)
            : null;
}
