using System.Globalization;

namespace Broodtide.Checks;

/// <summary>The text forms of values: numbers, words and lists of either in square brackets.</summary>
public static class CheckValue
{
    /// <summary>A number such as 12, -0.05 or 1.5e6; also NaN, Inf and -Inf.</summary>
    public static bool TryNumber(string text, out double number)
    {
        switch (text)
        {
            case "NaN":
                number = double.NaN;
                return true;
            case "Inf":
                number = double.PositiveInfinity;
                return true;
            case "-Inf":
                number = double.NegativeInfinity;
                return true;
            default:
                return double.TryParse(
                    text,
                    NumberStyles.AllowLeadingSign
                        | NumberStyles.AllowDecimalPoint
                        | NumberStyles.AllowExponent,
                    CultureInfo.InvariantCulture,
                    out number
                );
        }
    }

    /// <summary>The items of a list in square brackets, one space between them.</summary>
    public static bool TryList(string text, out IReadOnlyList<string> items)
    {
        items = [];
        if (text.Length < 2 || text[0] != '[' || text[^1] != ']')
        {
            return false;
        }

        var inside = text[1..^1];
        items = inside.Length == 0 ? [] : inside.Split(' ');
        return items.All(IsWord);
    }

    /// <summary>Letters, digits and the signs <c>_ . + - ( ) / :</c>.</summary>
    public static bool IsWord(string text) =>
        text.Length > 0
        && text.All(sign =>
            char.IsAsciiLetterOrDigit(sign) || "_.+-()/:".Contains(sign, StringComparison.Ordinal)
        );

    /// <summary>A number or a list of numbers, as a result is written.</summary>
    /// <exception cref="CheckFormatException">Neither.</exception>
    public static IReadOnlyList<double> ParseNumbers(string text, string column)
    {
        IReadOnlyList<string> items = [text];
        if (text.StartsWith('[') && !TryList(text, out items))
        {
            throw Refused(text, column);
        }

        return
        [
            .. items.Select(item => TryNumber(item, out var number) ? number : throw Refused(text, column)),
        ];
    }

    private static CheckFormatException Refused(string text, string column) =>
        new(
            $"`{text}` in the column {column}: allowed is a number such as 12, -0.05 or 1.5e6, a list such as [1 2 3], "
                + "or NaN where the quantity must refuse"
        );
}
