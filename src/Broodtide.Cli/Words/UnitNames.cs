using Broodtide.Domain.Journal;

namespace Broodtide.Cli.Words;

/// <summary>Unit codes as people read them; each can be typed back.</summary>
internal static class UnitNames
{
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        ["[gal_us]"] = "gal",
        ["[qt_us]"] = "qt",
        ["Cel"] = "°C",
        ["[degF]"] = "°F",
        ["sal:practical"] = "ppt",
        ["sal:g/kg"] = "g/kg",
        ["sal:mix-g/L"] = "g/L finished",
        ["sal:mix-g/L-water"] = "g/L water",
        ["sal:percent-sea"] = "% sea",
        ["sal:chlorinity"] = "chlorinity",
        ["sal:brine-g/kg"] = "brine",
        ["sal:mS/cm"] = "mS/cm raw",
        ["sal:mS/cm-25"] = "mS/cm at 25",
        ["sal:sg"] = "sg",
        ["sal:sg-15/15"] = "sg 15/15",
        ["sal:sg-15/4"] = "sg 15/4",
        ["sal:sg-60F/60F"] = "sg 60F/60F",
        ["sal:sg-20/20"] = "sg 20/20",
        ["sal:sg-20/4"] = "sg 20/4",
        ["sal:sg-25/25"] = "sg 25/25",
        ["sal:sg-25/4"] = "sg 25/4",
        ["[pH]"] = "pH",
        ["mg/L{TAN-N}"] = "mg/L TAN-N",
        ["mg/L{NH4}"] = "mg/L NH4",
        ["mg/L{NH3-N}"] = "mg/L NH3-N",
        ["mg/L{NH3}"] = "mg/L NH3",
        ["mg/L{NO2-N}"] = "mg/L NO2-N",
        ["mg/L{NO2}"] = "mg/L NO2",
        ["mg/L{NO3-N}"] = "mg/L NO3-N",
        ["mg/L{NO3}"] = "mg/L NO3",
        ["mg/L{O2}"] = "mg/L O2",
        ["%{O2}"] = "% O2",
        ["mg/L{Cl2}"] = "mg/L Cl2",
        ["g/L{Cl2}"] = "g/L Cl2",
        ["[dKH]"] = "dKH",
        ["[dGH]"] = "dGH",
        [UnitCode.CellsPerMillilitre] = "cells/mL",
        ["umol/m2/s"] = "µmol/m²/s",
        ["1"] = "",
    };

    // Units of species profiles that people do not read as they are written there.
    private static readonly Dictionary<string, string> InProfiles = new(StringComparer.Ordinal)
    {
        ["{practical}"] = "ppt",
        ["{count}"] = "",
        ["{factor}"] = "times",
        ["{stage}"] = "(stage)",
        ["Cel.d"] = "degree-days (°C)",
        ["K"] = "°C",
        ["g{mix}/L"] = "g mix/L",
        ["wk"] = "weeks",
        ["mo"] = "months",
        ["a"] = "years",
        ["d"] = "days",
        ["/L"] = "a litre",
        ["/a"] = "a year",
        ["/d"] = "a day",
    };

    /// <summary>The unit of a number in a species profile.</summary>
    public static string OfProfile(string code) => InProfiles.GetValueOrDefault(code) ?? Of(code);

    public static string Of(string code) => Names.GetValueOrDefault(code, code);

    public static string OfList(string codes) => string.Join(", ", codes.Split(", ").Select(Of));

    /// <summary>A typed number with its unit.</summary>
    public static string Of(TypedNumber number) =>
        $"{Figures(number)} {Of(number.Unit)}".TrimEnd() + (number.Doubted ? " (doubted)" : "");

    // A specific gravity says everything behind its mark.
    private static string Figures(TypedNumber number) =>
        number.Unit.StartsWith("sal:sg", StringComparison.Ordinal)
            ? number.Value.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture)
            : Saying.Number(number.Value);

    /// <summary>A volume as a jug shows it.</summary>
    public static string Litres(double litres) =>
        litres < 1
            ? $"{Saying.Number(Math.Round(1000 * litres, litres < 0.01 ? 2 : 1))} mL"
            : $"{Saying.Number(litres)} L";
}
