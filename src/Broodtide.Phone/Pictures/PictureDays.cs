using Broodtide.Phone.Language;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>Days as the pictures write them: without weekday and year where they go without saying.</summary>
internal sealed class PictureDays(Words words)
{
    public string Month(LocalDate date) => words["month." + date.Month];

    /// <summary>20 May.</summary>
    public string Date(LocalDate date) => words["date.day", date.Day, Month(date)];

    /// <summary>20 May 2026.</summary>
    public string DateWithYear(LocalDate date) => words["date.year", date.Day, Month(date), date.Year];

    /// <summary>Wed 20 May.</summary>
    public string WithWeekday(LocalDate date) =>
        words["date.short", words["day." + (int)date.DayOfWeek], date.Day, Month(date)];

    /// <summary>20 May, the month spelled out.</summary>
    public string Long(LocalDate date) => words["date.day", date.Day, words["month.long." + date.Month]];

    /// <summary>20–23 May: the month once when it is the same.</summary>
    public string Range(LocalDate from, LocalDate to) =>
        from == to ? Date(from)
        : from.Month == to.Month && from.Year == to.Year ? words["date.days", from.Day, to.Day, Month(to)]
        : $"{Date(from)}–{Date(to)}";
}
