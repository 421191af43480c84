using NodaTime;
using NodaTime.Text;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Instants as the journal writes them: ISO 8601 in UTC with as many decimals of the second as needed, such as
/// <c>2026-03-01T21:05:00Z</c>.
/// </summary>
public static class UtcText
{
    /// <summary>The text of an instant.</summary>
    public static string Format(Instant instant) => InstantPattern.ExtendedIso.Format(instant);

    /// <summary>Reads what <see cref="Format"/> writes; no other form.</summary>
    // By hand, because a journal of ten years reads some hundred thousand of these on a phone.
    public static bool TryParse(ReadOnlySpan<byte> text, out Instant instant)
    {
        instant = default;
        if (
            text.Length < 20
            || text[^1] != 'Z'
            || text[4] != '-'
            || text[7] != '-'
            || text[10] != 'T'
            || text[13] != ':'
            || text[16] != ':'
            || !Digits(text[..4], out var year)
            || !Digits(text[5..7], out var month)
            || !Digits(text[8..10], out var day)
            || !Digits(text[11..13], out var hour)
            || !Digits(text[14..16], out var minute)
            || !Digits(text[17..19], out var second)
            || !Fraction(text[19..^1], out var nanoseconds)
        )
        {
            return false;
        }

        if (
            year < 1
            || month is < 1 or > 12
            || day < 1
            || day > CalendarSystem.Iso.GetDaysInMonth(year, month)
            || hour > 23
            || minute > 59
            || second > 59
        )
        {
            return false;
        }

        instant = Instant.FromUtc(year, month, day, hour, minute, second).PlusNanoseconds(nanoseconds);
        return true;
    }

    private static bool Fraction(ReadOnlySpan<byte> text, out int nanoseconds)
    {
        nanoseconds = 0;
        if (text.IsEmpty)
        {
            return true;
        }

        if (
            text[0] != '.'
            || text[^1] == '0'
            || text.Length is < 2 or > 10
            || !Digits(text[1..], out var figures)
        )
        {
            return false;
        }

        for (var place = text.Length - 1; place < 9; place++)
        {
            figures *= 10;
        }

        nanoseconds = figures;
        return true;
    }

    private static bool Digits(ReadOnlySpan<byte> text, out int number)
    {
        number = 0;
        foreach (var c in text)
        {
            if (c is < (byte)'0' or > (byte)'9')
            {
                return false;
            }

            number = (number * 10) + (c - '0');
        }

        return true;
    }
}
