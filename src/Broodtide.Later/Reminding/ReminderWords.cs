using Broodtide.Domain;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Reminders;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Phone.Reminding;

/// <summary>What reminders say, in this keeper's words, units and hours.</summary>
internal sealed class ReminderWords(
    Words words,
    Formats formats,
    Naming naming,
    ActionWords actions,
    House house,
    Instant now
) : IReminderWords
{
    public string CalendarName => words["remind.calendar"];

    public string Nothing => words["remind.nothing"];

    public string Summary(Reminder reminder)
    {
        var said = reminder.Action is { } action
            ? actions.Deed(action, house)
            : words[
                reminder.Alarm is { Kind: var kind }
                    ? kind switch
                    {
                        AlarmKind.TooLow => "remind.Alarm.low",
                        AlarmKind.TooHigh => "remind.Alarm.high",
                        _ => "remind.Alarm.silent",
                    }
                    : $"remind.{reminder.Kind}",
                reminder.Alarm is { Vessel: null } alarm
                    ? alarm.Sensor.ToString()
                    : naming.Of(house, reminder.About)
            ];
        return reminder.IsOverdue ? words["remind.overdue", said] : said;
    }

    public IEnumerable<string> Lines(Reminder reminder)
    {
        if (reminder.Action is { } action)
        {
            return
            [
                Span(action),
                Sayings.Plain(actions.Why(action, house, now)),
                .. actions.Amounts(action, house).Select(Sayings.Plain),
                .. actions.Slip(action, house) is { } slip ? [Sayings.Plain(slip)] : Array.Empty<string>(),
                .. action.Cautions.Select(caution => words[$"care.{caution}"]),
                words["remind.wake"],
            ];
        }

        return reminder.Gathering is { } gathering
                ?
                [
                    words[
                        "remind.gathering.brings",
                        formats.Number(gathering.Larvae.Middle, 0),
                        formats.Number(gathering.LostIfSkipped.Middle, 0)
                    ],
                    words["remind.wake"],
                ]
            : reminder.Alarm is not null ? [words["remind.Alarm.look"], words["care.MainsBesideSaltWater"]]
            : [words["remind.foretold"]];
    }

    /// <summary>From when to when, and until when it may slip.</summary>
    public string Span(PlannedAction action) =>
        words[
            action.MaySlip ? "remind.span.slips" : "remind.span",
            formats.Moment(action.From),
            formats.Moment(action.By),
            action.SlipsUntil is { } until ? formats.Moment(until) : ""
        ];
}
