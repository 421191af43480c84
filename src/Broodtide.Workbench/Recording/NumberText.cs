using System.Globalization;
using System.Text;
using Broodtide.Units;

namespace Broodtide.Workbench.Recording;

/// <summary>A number as a person gave it.</summary>
/// <param name="Value">The value understood; finite.</param>
/// <param name="Otherwise">The other value the same text may mean: "1,025" is 1.025 here and 1025 elsewhere.</param>
public readonly record struct NumberRead(double Value, double? Otherwise);

/// <summary>
/// Reads a person's number. A point or a comma may stand before the fraction. Groups of three figures may be parted
/// by spaces of any width or by apostrophes, or by the mark that does not stand before the fraction; a mark that
/// comes twice parts groups. A sign may lead, a typographic minus too. An exponent of one or two figures is taken
/// ("2e6"). Words are not: neither "NaN" nor "inf" is a number here. One comma before exactly three figures has
/// two readings and gives both.
/// </summary>
public static class NumberText
{
    /// <summary>Longest text read as a number, in characters.</summary>
    public const int Longest = 40;

    private const string Spaces = " \u00a0\u2007\u2009\u200a\u202f'\u2019";

    /// <summary>Reads a number; nothing but the number may stand in the text.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="field">Its name, for the reason.</param>
    /// <returns>
    /// The number, or a reason: <c>number-missing</c>, <c>number-too-long</c>, <c>number-not-read</c> with the place
    /// of the first character that does not fit, counted from 1.
    /// </returns>
    public static Parsed<NumberRead> Parse(string? text, string field)
    {
        var typed = text?.Trim() ?? "";
        if (typed.Length == 0)
        {
            return Parsed<NumberRead>.No("number-missing", new Argument("field", field));
        }

        if (typed.Length > Longest)
        {
            return Parsed<NumberRead>.No(
                "number-too-long",
                new("field", field),
                new("characters", typed.Length),
                new("allowedCharacters", Longest)
            );
        }

        var (plain, otherwise, wrongAt) = Plain(typed);
        return plain is null || Value(plain) is not { } value
            ? Parsed<NumberRead>.No(
                "number-not-read",
                new("field", field),
                new("typed", typed),
                new("place", wrongAt + 1)
            )
            : Parsed<NumberRead>.Of(new(value, otherwise is null ? null : Value(otherwise)));
    }

    // Finite or none: "1e99" is a number to the machine, but 1e999 is not.
    private static double? Value(string plain) =>
        double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
        && double.IsFinite(value)
            ? value
            : null;

    /// <summary>The text as an invariant number, or the place where it stops being one.</summary>
    private static (string? Plain, string? Otherwise, int WrongAt) Plain(string typed)
    {
        var sign = typed[0] is '-' or '\u2212' ? "-" : "";
        var start = sign.Length > 0 || typed[0] == '+' ? 1 : 0;
        var end = start;
        while (end < typed.Length && (char.IsAsciiDigit(typed[end]) || IsMark(typed[end])))
        {
            end++;
        }

        var exponent = typed[end..];
        if (exponent.Length > 0 && WrongInExponent(exponent) is { } wrong)
        {
            return (null, null, end + wrong);
        }

        var body = typed[start..end];
        var (whole, fraction, otherwise, place) = Parts(body);
        if (whole is null)
        {
            return (null, null, start + place);
        }

        var plain = $"{sign}{whole}.{fraction}0{exponent}";
        return (plain, otherwise is null ? null : $"{sign}{otherwise}{exponent}", 0);
    }

    // The figures before and after the fraction's mark; or the place of what does not fit.
    private static (string? Whole, string Fraction, string? Otherwise, int Place) Parts(string body)
    {
        var points = body.Count(c => c == '.');
        var commas = body.Count(c => c == ',');
        char? mark =
            points > 0 && commas > 0 ? (body.LastIndexOf('.') > body.LastIndexOf(',') ? '.' : ',')
            : points == 1 ? '.'
            : commas == 1 ? ','
            : null;
        if (mark is { } twice && body.Count(c => c == twice) > 1)
        {
            return (null, "", null, body.LastIndexOf(twice));
        }

        var at = mark is { } fractional ? body.LastIndexOf(fractional) : body.Length;
        var (whole, wrong) = Grouped(body[..at]);
        if (whole is null)
        {
            return (null, "", null, wrong);
        }

        var fraction = at < body.Length ? body[(at + 1)..] : "";
        for (var i = 0; i < fraction.Length; i++)
        {
            if (!char.IsAsciiDigit(fraction[i]))
            {
                return (null, "", null, at + 1 + i);
            }
        }

        if (whole.Length + fraction.Length == 0)
        {
            return (null, "", null, 0);
        }

        var twoReadings =
            mark == ','
            && points == 0
            && fraction.Length == 3
            && at is >= 1 and <= 3
            && whole.Length == at
            && whole[0] != '0';
        return (whole.Length == 0 ? "0" : whole, fraction, twoReadings ? whole + fraction : null, 0);
    }

    // Figures, in groups of three where they are parted, all by one mark.
    private static (string? Figures, int Place) Grouped(string text)
    {
        var figures = new StringBuilder(text.Length);
        char? parting = null;
        var since = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsAsciiDigit(text[i]))
            {
                figures.Append(text[i]);
                since++;
                continue;
            }

            var fits = parting is null ? since is >= 1 and <= 3 : since == 3 && parting == text[i];
            if (!fits)
            {
                return (null, i);
            }

            parting = text[i];
            since = 0;
        }

        return parting is null || since == 3 ? (figures.ToString(), 0) : (null, Math.Max(0, text.Length - 1));
    }

    private static int? WrongInExponent(string text)
    {
        var figures = text.Length > 1 && text[1] is '+' or '-' ? 2 : 1;
        return text[0] is not ('e' or 'E') ? 0
            : text.Length - figures is < 1 or > 2 ? Math.Min(text.Length - 1, figures)
            : text.AsSpan(figures).IndexOfAnyExceptInRange('0', '9') is var place and >= 0 ? figures + place
            : null;
    }

    private static bool IsMark(char c) => c is '.' or ',' || Spaces.Contains(c, StringComparison.Ordinal);
}
