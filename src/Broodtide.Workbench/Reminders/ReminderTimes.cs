using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Reminders;

/// <summary>
/// Where an action stands in a calendar. A stretch of hours that may not slip stands by its hours; what has a day or
/// more to be done in stands on days, at most the last three; what is overdue stands on today, where it is seen.
/// </summary>
internal static class ReminderTimes
{
    // Choices of ours, no source: longer stretches of hours fill a calendar's page and say no more than the day.
    private static readonly Duration LongestFirm = Duration.FromHours(16);
    private static readonly Duration LongestSlipping = Duration.FromHours(4);
    private static readonly Duration Shortest = Duration.FromMinutes(15);
    private const int MostDays = 3;

    public static bool IsOverdue(PlannedAction action, Instant now) => action.By <= now;

    public static ReminderTime Of(PlannedAction action, Instant now, DateTimeZone zone)
    {
        if (action.IsOpen && IsOverdue(action, now))
        {
            var today = now.InZone(zone).Date;
            return new ReminderTime.Days(today, today);
        }

        var by = Instant.Max(action.By, action.From + Shortest);
        return by - action.From <= (action.MaySlip ? LongestSlipping : LongestFirm)
            ? new ReminderTime.Hours(action.From, by)
            : Days(action.From, by, zone, MostDays);
    }

    /// <summary>The days from one instant to another, of which at most the last ones.</summary>
    public static ReminderTime.Days Days(Instant from, Instant to, DateTimeZone zone, int most = int.MaxValue)
    {
        var first = from.InZone(zone).Date;
        // What ends at midnight has nothing of the day that begins then.
        var last = LocalDate.Max(first, (to - Duration.Epsilon).InZone(zone).Date);
        return Period.DaysBetween(first, last) >= most
            ? new(last.PlusDays(1 - most), last)
            : new ReminderTime.Days(first, last);
    }
}
