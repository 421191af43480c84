using System.Collections.Frozen;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Recording;

/// <summary>One way to write a unit.</summary>
/// <param name="Code">The code of the journal's list.</param>
/// <param name="Factor">What a number in it is multiplied with to stand in that code's unit.</param>
internal readonly record struct UnitWord(string Code, double Factor = 1);

/// <summary>
/// What people write for a unit, by dimension, in small letters without spaces. A word with several codes has
/// several meanings that must be told apart by asking.
/// </summary>
internal static class UnitWords
{
    private static readonly FrozenDictionary<Dimension, FrozenDictionary<string, UnitWord[]>> Lists =
        new Dictionary<Dimension, FrozenDictionary<string, UnitWord[]>>
        {
            [Dimension.Volume] = List(
                ("ml cc cm3 cm³ millilitre millilitres milliliter milliliters", ["mL"]),
                ("l litre litres liter liters ltr", ["L"]),
                ("gal gals gallon gallons usgal usgallon usgallons [gal_us]", ["[gal_us]"]),
                ("qt qts quart quarts usqt usquart usquarts [qt_us]", ["[qt_us]"])
            ),
            [Dimension.Mass] = List(
                ("mg milligram milligrams", ["mg"]),
                ("g gram grams gramme grammes", ["g"]),
                ("kg kilogram kilograms kilo kilos", ["kg"])
            ),
            [Dimension.Temperature] = List(
                ("c °c ºc ℃ cel celsius degc degcelsius °celsius", ["Cel"]),
                ("f °f ºf ℉ fahrenheit degf degfahrenheit °fahrenheit [degf]", ["[degF]"])
            ),
            [Dimension.Salinity] = List(
                ("ppt psu ‰ permil promille practical practicalsalinity sal:practical", ["sal:practical"]),
                ("g/kg absolute sal:g/kg", ["sal:g/kg"]),
                ("g/l gmix/l gmixperlitre mixg/l", ["sal:mix-g/L", "sal:mix-g/L-water"]),
                (
                    "g/lfinished g/lfinishedwater gmix/lfinished gmix/lfinishedwater sal:mix-g/l",
                    ["sal:mix-g/L"]
                ),
                ("g/lwater g/lofwater gmix/lwater gmix/lofwater sal:mix-g/l-water", ["sal:mix-g/L-water"]),
                (
                    "% %sea %seawater %ofseawater percent percentofseawater sal:percent-sea",
                    ["sal:percent-sea"]
                ),
                ("cl chlorinity g/kgcl sal:chlorinity", ["sal:chlorinity"]),
                ("brine g/kgbrine brineg/kg g/kgnacl nacl sal:brine-g/kg", ["sal:brine-g/kg"]),
                ("ms/cm ms", ["sal:mS/cm", "sal:mS/cm-25"]),
                ("ms/cmraw msraw sal:ms/cm", ["sal:mS/cm"]),
                ("ms/cm25 ms/cm@25 ms/cmat25 ms/cm25c ms/cmat25c ms/cm-25 sal:ms/cm-25", ["sal:mS/cm-25"]),
                ("sg s.g. gravity specificgravity sal:sg", ["sal:sg"]),
                ("sg15/15 d15/15 sal:sg-15/15", ["sal:sg-15/15"]),
                ("sg15/4 d15/4 sal:sg-15/4", ["sal:sg-15/4"]),
                ("sg60/60 sg60f/60f sg60/60f d60/60f sal:sg-60f/60f", ["sal:sg-60F/60F"]),
                ("sg20/20 d20/20 sal:sg-20/20", ["sal:sg-20/20"]),
                ("sg20/4 d20/4 sal:sg-20/4", ["sal:sg-20/4"]),
                ("sg25/25 d25/25 sal:sg-25/25", ["sal:sg-25/25"]),
                ("sg25/4 d25/4 sal:sg-25/4", ["sal:sg-25/4"])
            ),
            [Dimension.Acidity] = List(("ph [ph]", ["[pH]"])),
            [Dimension.TotalAmmonia] = List(
                ("mg/l ppm", ["mg/L{TAN-N}", "mg/L{NH4}"]),
                ("tan tan-n mg/ltan mg/ltan-n nh4-n mg/lnh4-n n asn mg/lasn mg/l{tan-n}", ["mg/L{TAN-N}"]),
                ("nh4 nh4+ mg/lnh4 mg/lnh4+ ion asion mg/lasion mg/l{nh4}", ["mg/L{NH4}"])
            ),
            [Dimension.UnionisedAmmonia] = List(
                ("nh3-n mg/lnh3-n mg/l{nh3-n}", ["mg/L{NH3-N}"]),
                ("nh3 mg/lnh3 mg/l{nh3}", ["mg/L{NH3}"])
            ),
            [Dimension.Nitrite] = List(
                ("mg/l ppm", ["mg/L{NO2-N}", "mg/L{NO2}"]),
                ("no2-n mg/lno2-n n asn mg/lasn mg/l{no2-n}", ["mg/L{NO2-N}"]),
                ("no2 no2- mg/lno2 mg/lno2- ion asion mg/lasion mg/l{no2}", ["mg/L{NO2}"])
            ),
            [Dimension.Nitrate] = List(
                ("mg/l ppm", ["mg/L{NO3-N}", "mg/L{NO3}"]),
                ("no3-n mg/lno3-n n asn mg/lasn mg/l{no3-n}", ["mg/L{NO3-N}"]),
                ("no3 no3- mg/lno3 mg/lno3- ion asion mg/lasion mg/l{no3}", ["mg/L{NO3}"])
            ),
            [Dimension.Oxygen] = List(
                ("mg/l ppm o2 mg/lo2 mg/l{o2}", ["mg/L{O2}"]),
                ("% %o2 %saturation %{o2}", ["%{O2}"])
            ),
            [Dimension.Chlorine] = List(
                ("mg/l ppm cl2 mg/lcl2 mg/l{cl2}", ["mg/L{Cl2}"]),
                ("g/l g/lcl2 g/l{cl2}", ["g/L{Cl2}"])
            ),
            [Dimension.Alkalinity] = List(("meq/l mmol/l", ["meq/L"]), ("dkh °dkh °kh kh [dkh]", ["[dKH]"])),
            [Dimension.Hardness] = List(("dgh °dgh °gh gh °dh [dgh]", ["[dGH]"])),
            [Dimension.CellDensity] = List(
                ("cells/ml /ml cellsperml {cells}/ml", [UnitCode.CellsPerMillilitre])
            ),
            [Dimension.Light] = List(
                ("lx lux", ["lx"]),
                ("umol µmol umol/m2/s µmol/m2/s µmol/m²/s umol/m²/s µmolm-2s-1 par ppfd", ["umol/m2/s"])
            ),
            [Dimension.Length] = List(("mm", ["mm"]), ("cm", ["cm"])),
            [Dimension.Duration] = List(
                ("s sec secs second seconds", ["s"]),
                ("min mins minute minutes", ["min"]),
                ("h hr hrs hour hours", ["h"]),
                ("d day days", ["d"])
            ),
            [Dimension.Number] = List(("1", ["1"])),
            [Dimension.Share] = List(("% percent", ["%"])),
        }.ToFrozenDictionary();

    // Units of the trade that the journal's list holds in another size.
    private static readonly FrozenDictionary<Dimension, (string Word, UnitWord[] Meaning)[]> Scaled =
        new Dictionary<Dimension, (string, UnitWord[])[]>
        {
            [Dimension.Salinity] =
            [
                ("µs/cm", [new("sal:mS/cm", 0.001), new("sal:mS/cm-25", 0.001)]),
                ("us/cm", [new("sal:mS/cm", 0.001), new("sal:mS/cm-25", 0.001)]),
                ("µs/cmraw", [new("sal:mS/cm", 0.001)]),
                ("µs/cm25", [new("sal:mS/cm-25", 0.001)]),
                ("µs/cmat25", [new("sal:mS/cm-25", 0.001)]),
                ("us/cmraw", [new("sal:mS/cm", 0.001)]),
                ("us/cm25", [new("sal:mS/cm-25", 0.001)]),
            ],
            [Dimension.CellDensity] =
            [
                ("cells/µl", [new(UnitCode.CellsPerMillilitre, 1000)]),
                ("cells/ul", [new(UnitCode.CellsPerMillilitre, 1000)]),
                ("cells/l", [new(UnitCode.CellsPerMillilitre, 0.001)]),
            ],
            [Dimension.Light] = [("klx", [new("lx", 1000)]), ("klux", [new("lx", 1000)])],
            [Dimension.Volume] = [("µl", [new("mL", 0.001)]), ("ul", [new("mL", 0.001)])],
            [Dimension.Chlorine] = [("%", [new("g/L{Cl2}", 10)])],
        }.ToFrozenDictionary();

    /// <summary>What a word means in a dimension: nothing, one unit, or several to choose from.</summary>
    public static IReadOnlyList<UnitWord> Meanings(string word, Dimension dimension)
    {
        // GREEK SMALL LETTER MU is what some keyboards give for the MICRO SIGN.
        var plain = string.Concat(word.Where(c => !char.IsWhiteSpace(c)))
            .Replace('\u03bc', 'µ')
            .ToLowerInvariant();
        return Lists.GetValueOrDefault(dimension)?.GetValueOrDefault(plain)
            ?? Scaled
                .GetValueOrDefault(dimension)
                ?.FirstOrDefault(scaled => string.Equals(scaled.Word, plain, StringComparison.Ordinal))
                .Meaning
            ?? [];
    }

    private static FrozenDictionary<string, UnitWord[]> List(
        params (string Words, string[] Codes)[] meanings
    ) =>
        meanings
            .SelectMany(meaning =>
                meaning
                    .Words.Split(' ')
                    .Select(word =>
                        KeyValuePair.Create(word, Array.ConvertAll(meaning.Codes, c => new UnitWord(c)))
                    )
            )
            .ToFrozenDictionary(StringComparer.Ordinal);
}
