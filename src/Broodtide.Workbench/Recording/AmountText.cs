using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// Reads a person's number with its unit: "350 mL", "1,5 L", "2 qt", "76F", or "24,5" where a unit is taken for
/// granted. Nitrogen is said as N or as the ion, conductivity raw or at 25 degC, grams of mix a litre of finished
/// water or of fresh water: what leaves it open is asked back.
/// </summary>
public static class AmountText
{
    /// <summary>Reads an amount of one dimension.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="field">Its name, for the reason.</param>
    /// <param name="dimension">What is measured.</param>
    /// <param name="defaultUnit">Code of the unit taken where none is typed; none where it must be typed.</param>
    /// <returns>The number with the whole text kept, or the reason why there is none.</returns>
    public static Parsed<TypedNumber> Parse(
        string? text,
        string field,
        Dimension dimension,
        string? defaultUnit = null
    ) => Parse(text, field, [dimension], defaultUnit);

    /// <summary>Reads an amount that may be of several dimensions, such as ammonia in all its forms.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="field">Its name, for the reason.</param>
    /// <param name="dimensions">What may be measured.</param>
    /// <param name="defaultUnit">Code of the unit taken where none is typed; none where it must be typed.</param>
    /// <returns>
    /// The number with the whole text kept; or a reason: those of <see cref="NumberText.Parse"/>,
    /// <c>unit-missing</c>, <c>unit-not-understood</c>, <c>unit-of-another-kind</c>, or
    /// <c>unit-says-too-little</c> with the units to choose from.
    /// </returns>
    public static Parsed<TypedNumber> Parse(
        string? text,
        string field,
        IReadOnlyList<Dimension> dimensions,
        string? defaultUnit = null
    )
    {
        var typed = text?.Trim() ?? "";
        var (number, unit) = Split(typed);
        var read = NumberText.Parse(number, field);
        if (!read.Succeeded)
        {
            // A text that begins with a letter, such as "NaN", is there but is no number.
            return Parsed<TypedNumber>.No(
                number.Length == 0 && typed.Length > 0
                    ? new Remark("number-not-read", new("field", field), new("typed", typed), new("place", 1))
                    : read.Reason
            );
        }

        if (unit.Length == 0)
        {
            return defaultUnit is null
                ? Parsed<TypedNumber>.No(
                    "unit-missing",
                    new("field", field),
                    new("typed", typed),
                    new("allowed", Allowed(dimensions))
                )
                : Parsed<TypedNumber>.Of(new(typed, defaultUnit, read.Value.Value));
        }

        var meanings = dimensions.SelectMany(d => UnitWords.Meanings(unit, d)).ToList();
        return meanings switch
        {
            [var one] => Parsed<TypedNumber>.Of(new(typed, one.Code, read.Value.Value * one.Factor)),
            [] => No(field, typed, unit, dimensions),
            _ => Parsed<TypedNumber>.No(
                "unit-says-too-little",
                new("field", field),
                new("typed", typed),
                new("unit", unit),
                new("allowed", string.Join(", ", meanings.Select(m => m.Code)))
            ),
        };
    }

    /// <summary>The other value a text may mean, in the same unit; none where it has one reading.</summary>
    internal static double? OtherReading(TypedNumber number)
    {
        var read = NumberText.Parse(Split(number.Typed.Trim()).Number, "");
        // A text that was read in another size of unit does not stand here as its own value.
        return read is { Succeeded: true, Value: { Otherwise: { } other } both } && both.Value == number.Value
            ? other
            : null;
    }

    private static Parsed<TypedNumber> No(
        string field,
        string typed,
        string unit,
        IReadOnlyList<Dimension> dimensions
    ) =>
        Enum.GetValues<Dimension>().Any(other => UnitWords.Meanings(unit, other).Count > 0)
            ? Parsed<TypedNumber>.No(
                "unit-of-another-kind",
                new("field", field),
                new("unit", unit),
                new("wanted", string.Join(", ", dimensions))
            )
            : Parsed<TypedNumber>.No(
                "unit-not-understood",
                new("field", field),
                new("typed", typed),
                new("unit", unit),
                new("allowed", Allowed(dimensions))
            );

    private static string Allowed(IReadOnlyList<Dimension> dimensions) =>
        string.Join(
            ", ",
            UnitCode.All.Where(unit => dimensions.Contains(unit.Dimension)).Select(unit => unit.Code)
        );

    // The unit begins with the first character that is none of a number's; the e of an exponent is one of it.
    private static (string Number, string Unit) Split(string typed)
    {
        var at = 0;
        while (at < typed.Length && !BeginsUnit(typed, at))
        {
            at++;
        }

        return (typed[..at].TrimEnd(), typed[at..].Trim());
    }

    private static bool BeginsUnit(string typed, int at)
    {
        var c = typed[at];
        if (c is 'e' or 'E')
        {
            var next = at + 1 < typed.Length && typed[at + 1] is '+' or '-' ? at + 2 : at + 1;
            return !(
                at > 0
                && char.IsAsciiDigit(typed[at - 1])
                && next < typed.Length
                && char.IsAsciiDigit(typed[next])
            );
        }

        return char.IsLetter(c) || c is '%' or '‰' or '°' or 'º' or '/' or '[' or '{' or '℃' or '℉';
    }
}
