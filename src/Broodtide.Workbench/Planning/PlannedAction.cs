using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>What a keeper should mind for people and nature; the words and the local law come with the doors.</summary>
public enum CautionCode
{
    /// <summary>Mains electricity beside salt water.</summary>
    MainsBesideSaltWater,

    /// <summary>Bleach with acids or ammonia; fumes, eyes, children.</summary>
    BleachAndAcids,

    /// <summary>Wet salty hands and a charging phone.</summary>
    WetHandsChargingPhone,

    /// <summary>No animal and no water of the house into nature.</summary>
    NoRelease,

    /// <summary>Rules on collecting from nature.</summary>
    CollectingRules,

    /// <summary>Glass that is heavy, wet or warmed.</summary>
    Glass,

    /// <summary>Copper and insecticides: plant food, medicine, pipes, spot-on drops of pets.</summary>
    Copper,

    /// <summary>Disease that comes in with animals: who to ask and what the law says.</summary>
    Disease,
}

/// <summary>The screen or command that does an action.</summary>
public enum DoorCode
{
    /// <summary>Mark the action as done: nothing else is written of it.</summary>
    MarkDone,

    /// <summary>Write a reading of the vessel.</summary>
    WriteReading,

    /// <summary>Write a move of water into the vessel.</summary>
    WriteWaterMove,

    /// <summary>Write what was seen of the eggs.</summary>
    WriteEggs,

    /// <summary>Write that the female was put alone.</summary>
    WriteIsolated,

    /// <summary>Write that larvae were seen or gathered.</summary>
    WriteLarvae,

    /// <summary>Write a feeding of the vessel.</summary>
    WriteFed,

    /// <summary>Write a count of the vessel.</summary>
    WriteCount,

    /// <summary>Write that settlement was seen.</summary>
    WriteSettlement,

    /// <summary>Write a check of the instrument.</summary>
    WriteCalibration,

    /// <summary>Write that a vessel was disinfected and what the test showed.</summary>
    WriteDisinfected,

    /// <summary>Write a filling.</summary>
    WriteFilling,

    /// <summary>Work out sea water to make.</summary>
    MakeWater,

    /// <summary>Work out the correction of the vessel.</summary>
    CorrectWater,

    /// <summary>The crossing bench.</summary>
    Crossing,

    /// <summary>The way back to fresh water.</summary>
    Return,

    /// <summary>The juveniles of a nursery.</summary>
    Nursery,

    /// <summary>Write cells counted, or a look at a film.</summary>
    WriteCells,

    /// <summary>The culture of the vessel.</summary>
    Culture,

    /// <summary>The adults: sexing, buying, histories.</summary>
    Adults,

    /// <summary>Write that a female carries, or that she was seen empty.</summary>
    WriteBerried,

    /// <summary>Write that a female went back to the others.</summary>
    WriteReturned,

    /// <summary>What to do after a loss.</summary>
    AfterLoss,

    /// <summary>The review of a run that is over.</summary>
    Review,

    /// <summary>What to do on a bad day: heat, no mains, an absence.</summary>
    BadDay,

    /// <summary>The sensors: alarms, what does not look right, where one stands.</summary>
    Sensors,
}

/// <summary>Where an action is done.</summary>
/// <param name="Code">The screen or command.</param>
/// <param name="About">What it is opened with.</param>
public readonly record struct DueDoor(DoorCode Code, Subject About);

/// <summary>How an action stands.</summary>
public enum ActionState
{
    /// <summary>To be done.</summary>
    Open,

    /// <summary>To be done, once others are done.</summary>
    Waits,

    /// <summary>Done, by its own entry or by what else was written.</summary>
    Done,

    /// <summary>Left out on purpose, for good or until an instant.</summary>
    Skipped,
}

/// <summary>One dated action, with why, how long it may slip, and what must be done before.</summary>
public sealed record PlannedAction
{
    /// <summary>Its stable key: what, for which thing, for which occasion. Entries of done and skipped name it.</summary>
    public required string Key { get; init; }

    /// <summary>One of <see cref="ActionCodes"/>.</summary>
    public required string Code { get; init; }

    /// <summary>The vessel, animal, brood, cohort, run or instrument it is for.</summary>
    public required Subject About { get; init; }

    /// <summary>Not sensible before.</summary>
    public required Instant From { get; init; }

    /// <summary>Best done by.</summary>
    public required Instant By { get; init; }

    /// <summary>Until when it may slip; none if it may not.</summary>
    public Instant? SlipsUntil { get; init; }

    /// <summary>Why.</summary>
    public required Remark Reason { get; init; }

    /// <summary>What follows if it slips; none where it may not.</summary>
    public Remark? IfItSlips { get; init; }

    /// <summary>How much of what.</summary>
    public IReadOnlyList<Remark> Amounts { get; init; } = [];

    /// <summary>Keys of the actions that must be done before.</summary>
    public IReadOnlyList<string> After { get; init; } = [];

    /// <summary>What to mind for people and nature.</summary>
    public IReadOnlyList<CautionCode> Cautions { get; init; } = [];

    /// <summary>Where it is done.</summary>
    public required DueDoor Door { get; init; }

    /// <summary>How it stands.</summary>
    public ActionState State { get; init; }

    /// <summary>When it was done, or until when it is left out; none where there is nothing to tell.</summary>
    public Instant? StateSince { get; init; }

    /// <summary>Whether it may slip.</summary>
    public bool MaySlip => SlipsUntil is not null;

    /// <summary>Time between best done by and too late.</summary>
    public Duration Slack => SlipsUntil is { } until && until > By ? until - By : Duration.Zero;

    /// <summary>Whether it is still asked for.</summary>
    public bool IsOpen => State is ActionState.Open or ActionState.Waits;
}

/// <summary>Makes keys.</summary>
public static class ActionKey
{
    /// <summary>The key of what, for which thing, for which occasion.</summary>
    /// <param name="code">One of <see cref="ActionCodes"/>.</param>
    /// <param name="about">The thing.</param>
    /// <param name="occasion">The occasion: a running number, a date, an entry; never a forecast.</param>
    public static string Of(string code, Subject about, string occasion = "1") =>
        $"{code}/{about.Id:N}/{occasion}";
}
