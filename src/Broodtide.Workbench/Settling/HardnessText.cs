using Broodtide.Units;
using Broodtide.Workbench.Recording;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// Hardness or alkalinity as keepers read it off a test: mg/L of calcium carbonate (ppm), German degrees (dH, dKH) or French
/// ones (fH). One German degree is 10 mg/L of calcium oxide, so 17.848 mg/L of calcium carbonate (molar masses 56.077 and
/// 100.087 g/mol); a French degree is 10 mg/L of calcium carbonate by definition.
/// </summary>
public static class HardnessText
{
    /// <summary>Calcium carbonate in a German degree, mg/L.</summary>
    public const double MilligramsPerGermanDegree = 17.848;

    private const double MilligramsPerFrenchDegree = 10;

    // Harder than any water juveniles are put into.
    private const double Most = 5000;

    private static readonly (string Ending, double Factor)[] Units =
    [
        ("mg/l", 1),
        ("ppm", 1),
        ("dgh", MilligramsPerGermanDegree),
        ("dkh", MilligramsPerGermanDegree),
        ("dh", MilligramsPerGermanDegree),
        ("fh", MilligramsPerFrenchDegree),
    ];

    /// <summary>mg/L of calcium carbonate, or why the text is none.</summary>
    /// <param name="text">A number with its unit, such as "8 dH"; mg/L where none is said.</param>
    /// <param name="field">What a reason calls it.</param>
    public static Parsed<double> Parse(string text, string field)
    {
        var plain = text.Trim().Replace("°", "", StringComparison.Ordinal);
        var factor = 1.0;
        foreach (var (ending, of) in Units)
        {
            if (plain.EndsWith(ending, StringComparison.OrdinalIgnoreCase))
            {
                (plain, factor) = (plain[..^ending.Length].Trim(), of);
                break;
            }
        }

        var number = NumberText.Parse(plain, field);
        return !number.Succeeded ? Parsed<double>.No(number.Reason)
            : number.Value.Value * factor is >= 0 and <= Most ? Parsed<double>.Of(number.Value.Value * factor)
            : Parsed<double>.No(
                new Remark("hardness-not-possible", new("field", field), new("typed", text.Trim()))
            );
    }
}
