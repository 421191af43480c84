using NodaTime;

namespace Broodtide.Workbench.Reminders;

/// <summary>When a reminder stands: between two instants, or on civil days of the keeper's zone.</summary>
public abstract record ReminderTime
{
    private ReminderTime() { }

    /// <summary>Between two instants.</summary>
    /// <param name="From">The first.</param>
    /// <param name="To">The last; after the first.</param>
    public sealed record Hours(Instant From, Instant To) : ReminderTime;

    /// <summary>On whole days.</summary>
    /// <param name="First">The first day.</param>
    /// <param name="Last">The last day, in it; not before the first.</param>
    public sealed record Days(LocalDate First, LocalDate Last) : ReminderTime;
}
