using System.Globalization;
using System.Text.Json;
using System.Text.Unicode;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Sees in one pass, without writing it anew, that a JSON text is certainly canonical: nothing between its parts,
/// plain names in order, strings without an escape. What it does not see for certain need not be wrong.
/// </summary>
internal static class CanonicalGlance
{
    private const int Deepest = 16;

    // A whole number of so many figures is a double to the last of them.
    private const int LongestWhole = 15;

    public static bool Sees(ReadOnlySpan<byte> utf8Json)
    {
        try
        {
            return SeesAll(utf8Json);
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static bool SeesAll(ReadOnlySpan<byte> text)
    {
        // Where the last name of each open object stands; none of length -1 before its first.
        Span<(int Start, int Length)> names = stackalloc (int, int)[Deepest];
        var reader = new Utf8JsonReader(text);
        var end = 0;
        var before = JsonTokenType.None;
        while (reader.Read())
        {
            var start = (int)reader.TokenStartIndex;
            if (start != end + Between(before, reader.TokenType))
            {
                return false;
            }

            var depth = reader.CurrentDepth;
            var value = reader.ValueSpan;
            switch (reader.TokenType)
            {
                case JsonTokenType.StartObject:
                    if (depth + 1 >= Deepest)
                    {
                        return false;
                    }

                    names[depth + 1] = (0, -1);
                    break;
                case JsonTokenType.StartArray when depth + 1 >= Deepest:
                    return false;
                case JsonTokenType.PropertyName:
                    var (last, length) = names[depth];
                    if (
                        reader.ValueIsEscaped
                        || !System.Text.Ascii.IsValid(value)
                        || (length >= 0 && value.SequenceCompareTo(text.Slice(last, length)) <= 0)
                    )
                    {
                        return false;
                    }

                    names[depth] = (start + 1, value.Length);
                    break;
                case JsonTokenType.String when reader.ValueIsEscaped || !Utf8.IsValid(value):
                case JsonTokenType.Number when !IsCanonicalNumber(value):
                    return false;
            }

            end =
                start
                + value.Length
                + (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName ? 2 : 0);
            before = reader.TokenType;
        }

        return end == text.Length;
    }

    // How many bytes stand between two parts where nothing stands that need not.
    private static int Between(JsonTokenType before, JsonTokenType now) =>
        before is JsonTokenType.None or JsonTokenType.StartObject or JsonTokenType.StartArray
        || now is JsonTokenType.EndObject or JsonTokenType.EndArray
            ? 0
            : 1;

    private static bool IsCanonicalNumber(ReadOnlySpan<byte> value)
    {
        var figures = value[0] == '-' ? value[1..] : value;
        if (figures.Length <= LongestWhole && !figures.ContainsAnyExceptInRange((byte)'0', (byte)'9'))
        {
            return figures[0] != '0' || value.Length == 1;
        }

        return double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            && double.IsFinite(number)
            && System.Text.Ascii.Equals(value, EcmaNumber.Format(number));
    }
}
