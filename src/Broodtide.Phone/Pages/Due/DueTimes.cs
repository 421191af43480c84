using Broodtide.Phone.Language;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Phone.Pages.Due;

/// <summary>The times at the left of the tide table: when it begins, and by when.</summary>
internal sealed class DueTimes(Words words, Formats formats, PhoneZone zone, Instant now)
{
    /// <summary>The day under which an action is listed.</summary>
    public LocalDate DayOf(PlannedAction action) => zone.Here(Begins(action)).Date;

    /// <summary>When it begins: now, an hour of its day, or a day.</summary>
    public string Begin(PlannedAction action, bool byDay) =>
        action.From <= now ? words["due.now"]
        : byDay && !zone.IsToday(action.From) ? formats.ShortDay(DayOf(action))
        : formats.Time(zone.Here(action.From).TimeOfDay);

    /// <summary>The latest time under it; none where none is near enough to mean something.</summary>
    public string End(PlannedAction action)
    {
        var by = zone.Here(action.By);
        var code = action.From <= now ? "due.by" : "due.to";
        return action.By <= now
                ? words[
                    "due.was",
                    zone.IsToday(action.By) ? formats.Time(by.TimeOfDay) : formats.ShortDay(by.Date)
                ]
            : by.Date == DayOf(action) ? words[code, formats.Time(by.TimeOfDay)]
            : words[code, formats.ShortDay(by.Date)];
    }

    private Instant Begins(PlannedAction action) => Instant.Max(action.From, now);
}
