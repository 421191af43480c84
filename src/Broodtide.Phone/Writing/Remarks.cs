using Broodtide.Domain;
using Broodtide.Phone.Language;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Phone.Writing;

/// <summary>What the core says, in a person's words: each remark has a sentence with its arguments by their place.</summary>
internal static class Remarks
{
    /// <summary>A remark as a sentence.</summary>
    /// <param name="remark">The remark.</param>
    /// <param name="label">What the field is called that it is about; none if about none.</param>
    /// <param name="words">The words.</param>
    /// <param name="formats">How numbers and times are shown.</param>
    public static string Of(Remark remark, string? label, Words words, Formats formats)
    {
        var code = "remark." + remark.Code;
        return words.Has(code)
            ? words[code, [.. remark.Arguments.Select(argument => Shown(argument, label, words, formats))]]
            : words["remark.other", remark.Code];
    }

    private static object Shown(Argument argument, string? label, Words words, Formats formats) =>
        (argument.Name, argument.Value) switch
        {
            ("field", string name) => label ?? words.Or("field." + name, name),
            ("unit" or "likelierUnit", string unit) => words.Or("u." + unit, unit),
            ("allowed", string units) => string.Join(
                ", ",
                units.Split(", ").Select(unit => words.Or("u." + unit, unit)).Where(unit => unit.Length > 0)
            ),
            (_, double number) => formats.Plain(number, 4),
            (_, Instant instant) => formats.Moment(instant),
            (_, EntryId) => words["name.entry"],
            (_, var other) => other,
        };
}
