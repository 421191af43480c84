using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Reminders;

/// <summary>How a calendar is handed over.</summary>
public enum CalendarUse
{
    /// <summary>
    /// An address that a calendar asks now and then. What is not in it any more vanishes from the calendar, so what was
    /// done is left out.
    /// </summary>
    Feed,

    /// <summary>
    /// A file that is taken in once, and perhaps a newer one later. What a newer one leaves out would stay, so what was
    /// done or left out is told as cancelled.
    /// </summary>
    File,
}

/// <summary>
/// A calendar as RFC 5545 writes it, with the names of RFC 7986. Instants stand in UTC, so no zone need be described;
/// days stand as dates, the day after the last one as the end.
/// </summary>
public static class CalendarText
{
    /// <summary>The media type of the text.</summary>
    public const string MediaType = "text/calendar";

    // A revision has a number that grows: minutes since then. Two doors without a common memory agree on it.
    private static readonly Instant FirstRevision = Instant.FromUtc(2025, 1, 1, 0, 0);

    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture(
        "uuuuMMdd'T'HHmmss'Z'"
    );
    private static readonly LocalDatePattern Date = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd");

    // A quarter of an hour to find torch and cup; the evening before a day; our choices.
    private const string BeforeHours = "-PT15M";
    private const string BeforeDays = "-PT6H";
    private const string AskAgainAfter = "PT1H";

    /// <summary>The calendar as one text, lines ended by CR LF.</summary>
    /// <param name="list">What belongs into it.</param>
    /// <param name="words">What it says.</param>
    /// <param name="use">How it is handed over.</param>
    /// <param name="written">When it is written: a later one moves what an earlier one holds.</param>
    public static string Write(ReminderList list, IReminderWords words, CalendarUse use, Instant written)
    {
        ArgumentNullException.ThrowIfNull(list);
        ArgumentNullException.ThrowIfNull(words);
        var lines = new CalendarLines();
        lines.Add("BEGIN", "VCALENDAR");
        lines.Add("VERSION", "2.0");
        lines.Add("PRODID", "-//Broodtide//Broodtide//EN");
        lines.Add("CALSCALE", "GREGORIAN");
        lines.Add("METHOD", "PUBLISH");
        // The first of each pair is RFC 7986; the second is what older calendars read.
        lines.AddText("NAME", words.CalendarName);
        lines.AddText("X-WR-CALNAME", words.CalendarName);
        lines.Add("REFRESH-INTERVAL;VALUE=DURATION", AskAgainAfter);
        lines.Add("X-PUBLISHED-TTL", AskAgainAfter);
        var told = list.Items.Where(item => use is CalendarUse.File || !item.IsOff).ToList();
        foreach (var reminder in told)
        {
            Event(lines, reminder, words, written);
        }

        if (told.Count == 0)
        {
            Nothing(lines, list, words, written);
        }

        lines.Add("END", "VCALENDAR");
        return lines.ToString();
    }

    private static void Event(CalendarLines lines, Reminder reminder, IReminderWords words, Instant written)
    {
        var summary = words.Summary(reminder);
        Begin(lines, reminder.Uid, written);
        Time(lines, reminder.Time);
        lines.AddText("SUMMARY", summary);
        lines.AddText("DESCRIPTION", string.Join('\n', words.Lines(reminder)));
        lines.Add(
            "STATUS",
            reminder.IsOff ? "CANCELLED"
                : reminder.IsForetold ? "TENTATIVE"
                : "CONFIRMED"
        );
        lines.Add("TRANSP", reminder.KeepsYou && !reminder.IsOff ? "OPAQUE" : "TRANSPARENT");
        if (reminder is { Matters: true, IsOverdue: false, IsOff: false })
        {
            lines.Add("BEGIN", "VALARM");
            lines.Add("ACTION", "DISPLAY");
            lines.AddText("DESCRIPTION", summary);
            lines.Add("TRIGGER", reminder.Time is ReminderTime.Hours ? BeforeHours : BeforeDays);
            lines.Add("END", "VALARM");
        }

        lines.Add("END", "VEVENT");
    }

    // A calendar without anything in it is not valid: RFC 5545, section 3.6.
    private static void Nothing(CalendarLines lines, ReminderList list, IReminderWords words, Instant written)
    {
        var today = list.Now.InZone(list.Zone).Date;
        Begin(lines, "nothing-due@broodtide", written);
        Time(lines, new ReminderTime.Days(today, today));
        lines.AddText("SUMMARY", words.Nothing);
        lines.Add("TRANSP", "TRANSPARENT");
        lines.Add("END", "VEVENT");
    }

    private static void Begin(CalendarLines lines, string uid, Instant written)
    {
        lines.Add("BEGIN", "VEVENT");
        lines.Add("UID", uid);
        lines.Add("DTSTAMP", Utc.Format(written));
        lines.Add("LAST-MODIFIED", Utc.Format(written));
        lines.Add("SEQUENCE", $"{Math.Max(0, (long)(written - FirstRevision).TotalMinutes)}");
    }

    private static void Time(CalendarLines lines, ReminderTime time)
    {
        switch (time)
        {
            case ReminderTime.Hours hours:
                lines.Add("DTSTART", Utc.Format(hours.From));
                lines.Add("DTEND", Utc.Format(hours.To));
                break;
            case ReminderTime.Days days:
                lines.Add("DTSTART;VALUE=DATE", Date.Format(days.First));
                lines.Add("DTEND;VALUE=DATE", Date.Format(days.Last.PlusDays(1)));
                break;
        }
    }
}
