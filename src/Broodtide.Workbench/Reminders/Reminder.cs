using Broodtide.Domain.Journal;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Workbench.Reminders;

/// <summary>What a reminder is about.</summary>
public enum ReminderKind
{
    /// <summary>A due or planned action.</summary>
    Action,

    /// <summary>One of the best times to gather larvae in the night at hand.</summary>
    Gathering,

    /// <summary>The days on which a brood most likely hatches.</summary>
    HatchWindow,

    /// <summary>The days on which larvae most likely settle.</summary>
    SettlementWindow,

    /// <summary>An alarm of a sensor that lasts and that nobody has seen.</summary>
    Alarm,
}

/// <summary>One thing for a calendar, without words.</summary>
public sealed record Reminder
{
    /// <summary>
    /// The same for as long as it is the same thing, whenever it is planned: a calendar moves it and does not double it.
    /// </summary>
    public required string Uid { get; init; }

    /// <summary>What it is about.</summary>
    public required ReminderKind Kind { get; init; }

    /// <summary>When it stands.</summary>
    public required ReminderTime Time { get; init; }

    /// <summary>The thing it is for; of settling larvae the vessel they live in.</summary>
    public required Subject About { get; init; }

    /// <summary>The action; none unless it is one.</summary>
    public PlannedAction? Action { get; init; }

    /// <summary>The gathering; none unless it is one.</summary>
    public TimedGathering? Gathering { get; init; }

    /// <summary>The alarm; none unless it is one.</summary>
    public AlarmSpan? Alarm { get; init; }

    /// <summary>Whether it may not slip: worth an alarm.</summary>
    public bool Matters { get; init; }

    /// <summary>Whether its time has passed and it still stands open; its time is then today.</summary>
    public bool IsOverdue { get; init; }

    /// <summary>Whether it was done or left out.</summary>
    public bool IsOff { get; init; }

    /// <summary>Whether it keeps a person at the bench all the while.</summary>
    public bool KeepsYou => Kind is ReminderKind.Gathering || Action?.Code is ActionCodes.CrossLarvae;

    /// <summary>Whether it is foretold, not planned.</summary>
    public bool IsForetold => Kind is ReminderKind.HatchWindow or ReminderKind.SettlementWindow;
}
