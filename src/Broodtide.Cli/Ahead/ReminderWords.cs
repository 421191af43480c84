using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Workbench.Reminders;

namespace Broodtide.Cli.Ahead;

/// <summary>What reminders say when the command line writes them.</summary>
internal sealed class ReminderWords(Saying saying, House house) : IReminderWords
{
    private readonly ActionWords _actions = new(saying, house);
    private readonly Naming _naming = new(house);

    public string CalendarName => Sentence("reminder-calendar");

    public string Nothing => Sentence("reminder-nothing");

    public string Summary(Reminder reminder)
    {
        var said = reminder switch
        {
            { Action: { } action } => _actions.Words(action),
            { Kind: ReminderKind.Gathering } => Sentence("reminder-gather", About(reminder)),
            { Alarm: not null } => Sentence("reminder-alarm", About(reminder)),
            { Kind: ReminderKind.HatchWindow } => Sentence("reminder-hatching", About(reminder)),
            _ => Sentence("reminder-settling", About(reminder)),
        };
        return reminder.IsOverdue
            ? Sentence("reminder-overdue", new Argument("deed", said))
            : $"{said}{Where(reminder)}";
    }

    public IEnumerable<string> Lines(Reminder reminder)
    {
        if (reminder.Action is { } action)
        {
            var told = _actions.Json(action);
            return
            [
                _actions.When(action) + ".",
                told.Reason,
                .. told.Amounts.Select(amount => amount.Words),
                .. told.IfItSlips is { } slips ? [slips] : Array.Empty<string>(),
                .. told.Cautions,
                Sentence("reminder-cannot-wake"),
            ];
        }

        return reminder.Gathering is { } gathering
                ?
                [
                    Sentence(
                        "reminder-gather-brings",
                        new("larvae", Math.Round(gathering.Larvae.Middle)),
                        new("lost", Math.Round(gathering.LostIfSkipped.Middle))
                    ),
                    Sentence("reminder-cannot-wake"),
                ]
            : reminder.Alarm is not null ? [Sentence("reminder-alarm-look")]
            : [Sentence("reminder-foretold")];
    }

    // Words of an action that do not name its thing are followed by it.
    private string Where(Reminder reminder) =>
        reminder.Action is { } action
        && Sentences.Find($"action.{action.Code}")?.Contains("{about}", StringComparison.Ordinal) != true
            ? $" ({_naming.NameOf(reminder.About)})"
            : "";

    private static Argument About(Reminder reminder) => new("about", reminder.About);

    private string Sentence(string code, params IReadOnlyList<Argument> arguments) =>
        saying.Of(code, arguments);
}
