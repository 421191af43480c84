using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>The bounds between fresh, brackish and sea water, in ppt.</summary>
/// <param name="FreshBelowPpt">Water under this counts as fresh.</param>
/// <param name="SeaFromPpt">The lowest salinity in which larvae complete.</param>
public sealed record TideZones(double FreshBelowPpt, double SeaFromPpt);

/// <summary>An uncertain number at an instant; its unit stands where the row is held.</summary>
public sealed record TideRow(Instant At, Interval Value);

/// <summary>An uncertain day: its 5, 50 and 95 % points.</summary>
public sealed record TideDays(Instant Early, Instant Middle, Instant Late);

/// <summary>The brood while it is carried in fresh water.</summary>
public sealed record TideBrood
{
    /// <summary>When the female was first seen berried; absent when the run began with larvae.</summary>
    public Instant? FirstSeenBerried { get; init; }

    /// <summary>When she was last seen carrying; absent while she carries, or when nobody looked.</summary>
    public Instant? LastSeenCarrying { get; init; }

    /// <summary>What was seen or done while she carried, each with its day.</summary>
    public IReadOnlyList<TideMark> Marks { get; init; } = [];

    /// <summary>Whether she has carried longer than nine broods in ten, and no hatch was seen.</summary>
    public bool LaterThanNineInTen { get; init; }
}

/// <summary>What a mark on the brood's line stands for.</summary>
public enum TideMarkKind
{
    /// <summary>First seen with eggs.</summary>
    Berried,

    /// <summary>Eggs pale.</summary>
    Pale,

    /// <summary>Eyes seen in the eggs.</summary>
    Eyed,

    /// <summary>A new saddle behind the head.</summary>
    Saddle,

    /// <summary>Moved to a place of her own.</summary>
    Isolated,

    /// <summary>Eggs dropped.</summary>
    Dropped,

    /// <summary>Seen still carrying.</summary>
    StillCarried,
}

/// <summary>Something seen or done on a day.</summary>
/// <param name="Kind">What it was.</param>
/// <param name="From">The earliest instant at which it may have happened.</param>
/// <param name="To">The latest; equal to <paramref name="From"/> when it is known.</param>
/// <param name="EntryId">The entry that says so.</param>
public sealed record TideMark(TideMarkKind Kind, Instant From, Instant To, Guid EntryId);

/// <summary>One night of hatching, named by the day of its evening.</summary>
/// <param name="Evening">The day on whose evening the night begins.</param>
/// <param name="Chance">The probability that the brood hatched or hatches in this night, 0 to 1.</param>
/// <param name="Collected">How many larvae were collected; absent when the night was not seen.</param>
public sealed record TideNight(LocalDate Evening, double Chance, int? Collected);

/// <summary>Larvae moved from fresh to salt water.</summary>
/// <param name="At">When.</param>
/// <param name="Larvae">How many.</param>
/// <param name="VesselId">Into which vessel.</param>
/// <param name="CohortId">The cohort they form.</param>
/// <param name="EntryId">The entry that says so.</param>
/// <param name="Corrected">Whether that entry replaces an older one.</param>
public sealed record TideCrossing(
    Instant At,
    Interval Larvae,
    Guid VesselId,
    Guid CohortId,
    Guid EntryId,
    bool Corrected = false
);

/// <summary>A vessel in which larvae of this run live or lived.</summary>
public sealed record TideVessel
{
    /// <summary>Its identity.</summary>
    public required Guid Id { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Salinity in ppt, past and forecast; empty when none was ever read.</summary>
    public IReadOnlyList<TideRow> Salinity { get; init; } = [];

    /// <summary>How many larvae of this run live in it.</summary>
    public IReadOnlyList<TideRow> Alive { get; init; } = [];

    /// <summary>Whether <see cref="Alive"/> rests on too little for a middle.</summary>
    public bool AliveIsRough { get; init; }

    /// <summary>How many larvae of another run share its water; absent when none do.</summary>
    public Interval? OfOtherRuns { get; init; }

    /// <summary>The readings of its salinity.</summary>
    public IReadOnlyList<TideReading> Readings { get; init; } = [];

    /// <summary>Fresh water poured in.</summary>
    public IReadOnlyList<TideTopUp> TopUps { get; init; } = [];

    /// <summary>The vessel its larvae were poured out of when it began, if it began so.</summary>
    public TideLink? SplitFrom { get; init; }

    /// <summary>The vessel its larvae were poured into when it ended, if it ended so.</summary>
    public TideLink? JoinedInto { get; init; }
}

/// <summary>Where and when two vessels touch.</summary>
public sealed record TideLink(Instant At, Guid VesselId);

/// <summary>A salinity that was read, already corrected for its instrument, in ppt.</summary>
/// <param name="At">When.</param>
/// <param name="Ppt">What it means.</param>
/// <param name="Fits">Whether the ledger agrees.</param>
public sealed record TideReading(Instant At, Interval Ppt, bool Fits);

/// <summary>Fresh water poured into a vessel, in millilitres.</summary>
public sealed record TideTopUp(Instant At, double Millilitres);

/// <summary>A count of larvae.</summary>
public sealed record TideCount(Instant At, Interval Larvae, Guid VesselId, Guid EntryId);

/// <summary>A larval stage.</summary>
/// <param name="Name">As it is called, such as Z4.</param>
/// <param name="Short">As it is called where room is scarce, such as 4.</param>
/// <param name="BottomLiving">Whether it is the stage after settlement.</param>
public sealed record TideStage(string Name, string Short, bool BottomLiving);

/// <summary>The share of larvae in each stage, in the order of the stage names; they sum to one.</summary>
public sealed record TideStageRow(Instant At, IReadOnlyList<double> Shares);

/// <summary>When larvae become bottom-living, as estimated.</summary>
/// <param name="First">The first one.</param>
/// <param name="Half">Half of those that settle.</param>
/// <param name="NineTenths">Nine in ten of them.</param>
public sealed record TideSettlement(TideDays First, TideDays Half, TideDays NineTenths);

/// <summary>The return to fresh water.</summary>
public sealed record TideReturn
{
    /// <summary>The days on which juveniles were moved.</summary>
    public IReadOnlyList<Instant> Seen { get; init; } = [];

    /// <summary>When they settle; absent without an estimate.</summary>
    public TideSettlement? Settlement { get; init; }

    /// <summary>
    /// The forecast of the return, while it is to come: the day by which half have settled, or without an estimate
    /// what the species profile says of the larval days.
    /// </summary>
    public TideDays? Forecast { get; init; }

    /// <summary>How many juveniles live in fresh water.</summary>
    public IReadOnlyList<TideRow> Juveniles { get; init; } = [];
}

/// <summary>How a run ends.</summary>
public enum TideEndKind
{
    /// <summary>Juveniles came back to fresh water.</summary>
    Home,

    /// <summary>The keeper ended it: the vessel was emptied, or the brood was lost in fresh water.</summary>
    GivenUp,
}

/// <summary>The end of a run.</summary>
/// <param name="Kind">How.</param>
/// <param name="At">When.</param>
/// <param name="LastSeenAlive">When any was last seen alive, when that is known.</param>
/// <param name="FirstSeenNone">When none was seen for the first time, when that is known.</param>
public sealed record TideEnd(
    TideEndKind Kind,
    Instant At,
    Instant? LastSeenAlive = null,
    Instant? FirstSeenNone = null
);

/// <summary>A limit that the forecast passes.</summary>
/// <param name="At">The median instant.</param>
/// <param name="VesselId">In which vessel.</param>
/// <param name="LimitPpt">The limit, in ppt.</param>
/// <param name="TooSalt">Whether the water becomes saltier than the limit; otherwise fresher.</param>
public sealed record TideBreach(Instant At, Guid VesselId, double LimitPpt, bool TooSalt);
