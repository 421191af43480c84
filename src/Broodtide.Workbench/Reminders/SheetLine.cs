using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Reminders;

/// <summary>What a line of the bench sheet leaves blank, to be filled by hand.</summary>
public enum SheetBlank
{
    /// <summary>Nothing but that it is done.</summary>
    Done,

    /// <summary>What the salinity instrument shows.</summary>
    Salinity,

    /// <summary>What the thermometer shows.</summary>
    Temperature,

    /// <summary>How much was poured.</summary>
    Poured,

    /// <summary>How much food was given.</summary>
    Fed,

    /// <summary>Larvae seen in water of a volume.</summary>
    Counted,

    /// <summary>Whether the eggs are eyed.</summary>
    Eggs,

    /// <summary>Whether larvae were seen.</summary>
    Hatching,

    /// <summary>How many larvae were gathered.</summary>
    Gathered,

    /// <summary>How many post-larvae were seen.</summary>
    Settled,
}

/// <summary>One step of the day.</summary>
/// <param name="Action">What, why, how much, what to mind.</param>
/// <param name="At">When on that day; none where any time of it does.</param>
/// <param name="IsForSpareTime">Whether it has more days than this one.</param>
/// <param name="Blank">What is left blank.</param>
public sealed record SheetLine(PlannedAction Action, Instant? At, bool IsForSpareTime, SheetBlank Blank);

/// <summary>
/// What is expected of a line, for the back page: read first, compare after. One of value and chance is there.
/// </summary>
/// <param name="What">What is read: its unit is ppt, degrees Celsius or larvae.</param>
/// <param name="About">Of which thing.</param>
/// <param name="At">For which instant.</param>
/// <param name="Value">The 5, 50 and 95 % points.</param>
/// <param name="Chance">The chance that it is seen.</param>
public sealed record SheetExpected(
    SheetBlank What,
    Subject About,
    Instant At,
    Interval? Value,
    Probability? Chance
);
