namespace Broodtide.Workbench.Reminders;

/// <summary>What reminders say; each door has its own words.</summary>
public interface IReminderWords
{
    /// <summary>What the calendar is called.</summary>
    string CalendarName { get; }

    /// <summary>Said on today where nothing is due, so that a calendar that works can be told from an empty one.</summary>
    string Nothing { get; }

    /// <summary>What is to be done or is to be expected, in one line.</summary>
    /// <param name="reminder">The reminder.</param>
    string Summary(Reminder reminder);

    /// <summary>Why, how much, what to mind: a line each.</summary>
    /// <param name="reminder">The reminder.</param>
    IEnumerable<string> Lines(Reminder reminder);
}
