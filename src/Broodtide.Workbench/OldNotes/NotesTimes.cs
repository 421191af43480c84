using System.Globalization;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.OldNotes;

/// <summary>
/// Dates and times of a file as its keeper said they are written. A day without a time is that day, some time; an hour
/// that the clock went through twice is either.
/// </summary>
public sealed class NotesTimes
{
    private readonly DateOrder _order;
    private readonly int? _twoDigitsFrom;
    private readonly DateTimeZone _zone;
    private readonly Instant _now;

    /// <summary>Times by a mapping whose questions are answered.</summary>
    /// <param name="map">The mapping.</param>
    /// <param name="now">Later times cannot be.</param>
    public NotesTimes(NotesMap map, Instant now)
    {
        ArgumentNullException.ThrowIfNull(map);
        (_order, _twoDigitsFrom, _now) = (map.Order!.Value, map.TwoDigitYearsFrom, now);
        _zone = DateTimeZoneProviders.Tzdb[map.Zone!];
    }

    /// <summary>When a row happened; or what is wrong with its date or time.</summary>
    /// <param name="date">The cell of the date, which may hold the time too.</param>
    /// <param name="time">The cell of the time; empty where there is none.</param>
    public Parsed<Happened> Read(ReadOnlySpan<char> date, ReadOnlySpan<char> time)
    {
        date = date.Trim();
        if (date.IsEmpty)
        {
            return Parsed<Happened>.No("notes-date-missing");
        }

        Span<int> figures = stackalloc int[3];
        Span<int> lengths = stackalloc int[3];
        var at = 0;
        for (var part = 0; part < 3; part++)
        {
            var start = at;
            while (at < date.Length && char.IsAsciiDigit(date[at]) && at - start < 5)
            {
                figures[part] = (figures[part] * 10) + (date[at++] - '0');
            }

            lengths[part] = at - start;
            if (
                lengths[part] == 0
                || (part < 2 && (at >= date.Length || date[at] is not ('.' or '/' or '-')))
            )
            {
                return No("notes-date-unreadable", date);
            }

            at += part < 2 ? 1 : 0;
        }

        var (year, month, day) = _order switch
        {
            DateOrder.DayMonthYear => (2, 1, 0),
            DateOrder.MonthDayYear => (2, 0, 1),
            _ => (0, 1, 2),
        };
        if (lengths[year] is not (2 or 4) || lengths[month] > 2 || lengths[day] > 2)
        {
            return No("notes-date-unreadable", date);
        }

        if (lengths[year] == 2)
        {
            if (_twoDigitsFrom is not { } from)
            {
                return No("notes-year-two-figures", date);
            }

            // The year of the hundred that ends in these figures.
            var whole = from - (from % 100) + figures[year];
            figures[year] = whole < from ? whole + 100 : whole;
        }

        if (
            figures[year] < 1900
            || figures[month] is < 1 or > 12
            || figures[day] < 1
            || figures[day] > CalendarSystem.Iso.GetDaysInMonth(figures[year], figures[month])
        )
        {
            return No("notes-date-impossible", date);
        }

        var rest = date[at..].TrimStart(" T\u00a0");
        return In(new(figures[year], figures[month], figures[day]), rest.IsEmpty ? time.Trim() : rest, date);
    }

    private Parsed<Happened> In(LocalDate day, ReadOnlySpan<char> time, ReadOnlySpan<char> typed)
    {
        Happened happened;
        if (time.IsEmpty)
        {
            happened = Happened.Between(
                _zone.AtStartOfDay(day).ToInstant(),
                _zone.AtStartOfDay(day.PlusDays(1)).ToInstant() - Duration.FromSeconds(1)
            );
            // Today is known as far as it has come.
            if (happened.Earliest <= _now && happened.Latest > _now)
            {
                happened = Happened.Between(happened.Earliest, _now);
            }
        }
        else if (TimeOf(time) is { } clock)
        {
            var mapped = _zone.MapLocal(day + clock);
            if (mapped.Count == 0)
            {
                return No("notes-time-skipped", typed);
            }

            happened = Happened.Between(mapped.First().ToInstant(), mapped.Last().ToInstant());
        }
        else
        {
            return No("notes-time-unreadable", time);
        }

        return happened.Earliest > _now ? No("notes-date-ahead", typed) : Parsed<Happened>.Of(happened);
    }

    private static LocalTime? TimeOf(ReadOnlySpan<char> text)
    {
        var isPm = text.EndsWith("pm", StringComparison.OrdinalIgnoreCase);
        var isAm = text.EndsWith("am", StringComparison.OrdinalIgnoreCase);
        text = isPm || isAm ? text[..^2].TrimEnd() : text;
        // Fractions of seconds of a logger tell nothing more.
        var dot = text.IndexOf('.');
        text = dot > 0 ? text[..dot] : text;
        var colon = text.IndexOf(':');
        if (colon is < 1 or > 2 || !Figures(text[..colon], out var hour))
        {
            return null;
        }

        var rest = text[(colon + 1)..];
        var seconds = 0;
        if (rest.IndexOf(':') is var second and >= 0)
        {
            if (!Figures(rest[(second + 1)..], out seconds))
            {
                return null;
            }

            rest = rest[..second];
        }

        if (!Figures(rest, out var minutes) || minutes > 59 || seconds > 59)
        {
            return null;
        }

        if (isPm || isAm)
        {
            if (hour is < 1 or > 12)
            {
                return null;
            }

            hour = (hour % 12) + (isPm ? 12 : 0);
        }

        return hour > 23 ? null : new LocalTime(hour, minutes, seconds);
    }

    private static bool Figures(ReadOnlySpan<char> text, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && text.Length <= 2;

    private static Parsed<Happened> No(string code, ReadOnlySpan<char> typed) =>
        Parsed<Happened>.No(
            code,
            new Argument("typed", typed.Length > 40 ? typed[..40].ToString() : typed.ToString())
        );
}
