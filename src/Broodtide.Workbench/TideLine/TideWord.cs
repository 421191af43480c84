using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>What a line of the tide line in words says.</summary>
public enum TideWordCode
{
    /// <summary>The mark of <see cref="TideWord.Mark"/> was seen or done.</summary>
    BroodMark,

    /// <summary>She was last seen carrying.</summary>
    LastSeenCarrying,

    /// <summary>A night of hatching, seen; <see cref="TideWord.Number"/> larvae were collected.</summary>
    NightCollected,

    /// <summary>A night in which she may have hatched or may hatch, with <see cref="TideWord.Chance"/>.</summary>
    NightChance,

    /// <summary>A crossing of <see cref="TideWord.Number"/> larvae into <see cref="TideWord.Name"/>.</summary>
    Crossing,

    /// <summary>A count of <see cref="TideWord.Number"/> larvae in <see cref="TideWord.Name"/>.</summary>
    Count,

    /// <summary><see cref="TideWord.Name"/> was poured into <see cref="TideWord.OtherName"/>.</summary>
    Joined,

    /// <summary>Larvae were parted from <see cref="TideWord.OtherName"/> into <see cref="TideWord.Name"/>.</summary>
    Split,

    /// <summary>A reading in <see cref="TideWord.Name"/> of <see cref="TideWord.Number"/> ppt that does not fit.</summary>
    DoesNotFit,

    /// <summary>Juveniles were moved to fresh water.</summary>
    Returned,

    /// <summary>Any was last seen alive.</summary>
    LastSeenAlive,

    /// <summary>None was seen, for the first time.</summary>
    NoneSeen,

    /// <summary>The run came home.</summary>
    EndedHome,

    /// <summary>The keeper ended the run.</summary>
    EndedGivenUp,

    /// <summary>An entry that needs a newer version of the program.</summary>
    NeedsNewerVersion,

    /// <summary>An entry whose instant lies after now.</summary>
    InTheFuture,

    /// <summary>An entry that was corrected, and is told nowhere else in the list.</summary>
    CorrectedEntry,

    /// <summary>Now: still carried.</summary>
    NowCarried,

    /// <summary>Now: carried longer than nine broods in ten.</summary>
    NowLaterThanNineInTen,

    /// <summary>Now: salinity of <see cref="TideWord.Name"/> in ppt; without a number it was never measured.</summary>
    NowSalinity,

    /// <summary>Now: <see cref="TideWord.Number"/> larvae alive in <see cref="TideWord.Name"/>, or in all.</summary>
    NowAlive,

    /// <summary>Now: larvae of another run share the vessel <see cref="TideWord.Name"/>.</summary>
    NowOfOtherRuns,

    /// <summary>Now: the stages of <see cref="TideWord.Stages"/>.</summary>
    NowStages,

    /// <summary>Now: how many entries stand in the picture.</summary>
    NowEntries,

    /// <summary>The hatch, between <see cref="TideWord.Days"/>.</summary>
    HatchExpected,

    /// <summary>The salinity of <see cref="TideWord.Name"/> leaves its limit.</summary>
    BreachExpected,

    /// <summary>The first larva settles, between <see cref="TideWord.Days"/>.</summary>
    SettlementBeginsExpected,

    /// <summary>Half have settled, between <see cref="TideWord.Days"/>.</summary>
    SettlementHalfExpected,

    /// <summary>Nine in ten have settled, between <see cref="TideWord.Days"/>.</summary>
    SettlementEndsExpected,

    /// <summary>The return to fresh water, between <see cref="TideWord.Days"/>.</summary>
    ReturnExpected,

    /// <summary>How many juveniles there will be.</summary>
    JuvenilesExpected,
}

/// <summary>Whether a line tells what was, what is, or what is to come.</summary>
public enum TideTense
{
    /// <summary>What happened.</summary>
    Past,

    /// <summary>What is believed now.</summary>
    Now,

    /// <summary>What is expected.</summary>
    Expected,
}

/// <summary>One line of the tide line in words: a code with its arguments. Doors make the words.</summary>
public sealed record TideWord
{
    /// <summary>What the line says.</summary>
    public required TideWordCode Code { get; init; }

    /// <summary>Whether it was, is, or is expected.</summary>
    public required TideTense Tense { get; init; }

    /// <summary>Its instant; the earliest one where <see cref="Until"/> is given.</summary>
    public required Instant At { get; init; }

    /// <summary>The latest instant at which it may have happened.</summary>
    public Instant? Until { get; init; }

    /// <summary>Civil days since the first crossing; absent before it.</summary>
    public int? SeaDay { get; init; }

    /// <summary>A number with its interval, in the unit the code names.</summary>
    public Interval? Number { get; init; }

    /// <summary>Whether the number has no honest middle.</summary>
    public bool Rough { get; init; }

    /// <summary>A probability, 0 to 1.</summary>
    public double? Chance { get; init; }

    /// <summary>The 5, 50 and 95 % points of a day.</summary>
    public TideDays? Days { get; init; }

    /// <summary>The mark of the brood.</summary>
    public TideMarkKind? Mark { get; init; }

    /// <summary>The vessel.</summary>
    public string? Name { get; init; }

    /// <summary>The other vessel.</summary>
    public string? OtherName { get; init; }

    /// <summary>A limit in ppt.</summary>
    public double? LimitPpt { get; init; }

    /// <summary>Whether the limit is passed to the salty side.</summary>
    public bool TooSalt { get; init; }

    /// <summary>Stages with their shares.</summary>
    public IReadOnlyList<TideStageShare> Stages { get; init; } = [];

    /// <summary>The entry behind the line.</summary>
    public Guid? EntryId { get; init; }

    /// <summary>Whether that entry replaces an older one.</summary>
    public bool Corrected { get; init; }
}
