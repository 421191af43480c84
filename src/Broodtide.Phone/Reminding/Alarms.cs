using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Reminders;
using NodaTime;

namespace Broodtide.Phone.Reminding;

/// <summary>One alarm for the phone's own clock.</summary>
internal sealed record Alarm(Instant At, Reminder Of);

/// <summary>What is worth an alarm: what may not slip, and what comes at night.</summary>
internal static class Alarms
{
    private static readonly LocalTime NightFrom = new(22, 0);
    private static readonly LocalTime NightTo = new(7, 0);

    // A clock knows hours and weekdays, not dates: further ahead an alarm cannot be set without a mistake.
    private static readonly Duration Ahead = Duration.FromDays(6);

    public static IReadOnlyList<Alarm> Of(ReminderList list) =>
        [
            .. list
                .Items.Where(item => item is { IsOff: false, IsForetold: false })
                .Select(item => item.Time is ReminderTime.Hours hours ? new Alarm(hours.From, item) : null)
                .OfType<Alarm>()
                .Where(alarm => alarm.At > list.Now && alarm.At <= list.Now + Ahead)
                .Where(alarm => alarm.Of.Matters || IsAtNight(alarm.At.InZone(list.Zone).TimeOfDay))
                .OrderBy(alarm => alarm.At),
        ];

    private static bool IsAtNight(LocalTime time) => time >= NightFrom || time < NightTo;

    /// <summary>The instant of one action's alarm; none where its time has come, or it is a matter of days.</summary>
    public static Instant? Of(PlannedAction action, Instant now) =>
        action.From > now && action.From <= now + Ahead && action.By - action.From <= Duration.FromHours(16)
            ? action.From
            : null;
}
