using Broodtide.Domain;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Review;

/// <summary>One stretch of a run's story.</summary>
/// <param name="Code">Which stretch.</param>
/// <param name="From">When it began.</param>
/// <param name="Until">When it was over; none where it is one moment or goes on.</param>
/// <param name="Lines">What happened, in plain words.</param>
public sealed record Chapter(ChapterCode Code, Instant From, Instant? Until, IReadOnlyList<Remark> Lines);

/// <summary>The stretches of a run's story.</summary>
public enum ChapterCode
{
    /// <summary>Eggs, until the first larvae or until they were dropped.</summary>
    Eggs,

    /// <summary>Larvae hatched and were gathered.</summary>
    Hatching,

    /// <summary>They crossed into the sea.</summary>
    Crossing,

    /// <summary>They lived in the sea.</summary>
    Sea,

    /// <summary>They settled and came home.</summary>
    Settling,

    /// <summary>The keeper ended the run.</summary>
    End,
}

/// <summary>A review of one run: what happened, what was lost when, and what the record can tell about why.</summary>
public sealed record RunReview
{
    /// <summary>The run.</summary>
    public required RunId Run { get; init; }

    /// <summary>Its brood.</summary>
    public required BroodId Brood { get; init; }

    /// <summary>How the keeper ended it; none while it goes on: then this is the review so far.</summary>
    public required RunEnd? End { get; init; }

    /// <summary>From when it is told.</summary>
    public required Instant From { get; init; }

    /// <summary>Until when: its end, or now.</summary>
    public required Instant Until { get; init; }

    /// <summary>Whether all parts are there; those that take long are left empty until they are.</summary>
    public required bool IsWhole { get; init; }

    /// <summary>What happened, oldest first.</summary>
    public required IReadOnlyList<Chapter> Chapters { get; init; }

    /// <summary>What was lost in each phase, in their order.</summary>
    public required IReadOnlyList<PhaseLoss> Phases { get; init; }

    /// <summary>What was read of the water, by vessel and quantity.</summary>
    public required IReadOnlyList<ReviewedWater> Water { get; init; }

    /// <summary>What was fed, by vessel.</summary>
    public required IReadOnlyList<ReviewedFood> Food { get; init; }

    /// <summary>What was foretold, and what came of it.</summary>
    public required IReadOnlyList<ForecastOutcome> Forecasts { get; init; }

    /// <summary>What the record says of each cause that can be thought of.</summary>
    public required IReadOnlyList<CauseFinding> Causes { get; init; }

    /// <summary>Causes that came together, so that the record cannot tell them apart.</summary>
    public required IReadOnlyList<TiedCauses> Tied { get; init; }

    /// <summary>What to do otherwise, three at most.</summary>
    public required IReadOnlyList<DoDifferently> Differently { get; init; }

    /// <summary>What a reader should know of all this.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>Whether the run goes on.</summary>
    public bool IsSoFar => End is null;
}

/// <summary>Phases in which larvae are lost.</summary>
public enum LossPhase
{
    /// <summary>From hatching until they crossed.</summary>
    FreshWater,

    /// <summary>From the first crossing until two days after the last.</summary>
    Crossing,

    /// <summary>The first third of the zoeal stages.</summary>
    Early,

    /// <summary>The second third.</summary>
    Middle,

    /// <summary>The last third, until nine in ten have settled.</summary>
    Metamorphosis,

    /// <summary>From the first return to the last count of the nursery.</summary>
    Return,
}

/// <summary>How well a loss is known.</summary>
public enum LossKnown
{
    /// <summary>The run did not come so far.</summary>
    NotReached,

    /// <summary>Nothing that was counted speaks of it.</summary>
    CannotBeTold,

    /// <summary>Counts speak of it, but none lies within: it is parted from its neighbours by what is usual.</summary>
    BetweenCounts,

    /// <summary>A count lies within or shortly after.</summary>
    Counted,
}

/// <summary>What was lost in one phase.</summary>
/// <param name="Phase">Which.</param>
/// <param name="From">When it began; none where it was not reached.</param>
/// <param name="Until">When it was over, at the latest the end of the run.</param>
/// <param name="Known">How well it is known.</param>
/// <param name="Came">Those that entered the phase, larvae; none where it cannot be told.</param>
/// <param name="Lost">Those of them that were lost, larvae.</param>
/// <param name="LostShare">The same as a share, 0 to 1.</param>
/// <param name="Why">What it rests on, or why it cannot be told.</param>
public sealed record PhaseLoss(
    LossPhase Phase,
    Instant? From,
    Instant? Until,
    LossKnown Known,
    Interval? Came,
    Interval? Lost,
    Interval? LostShare,
    Remark Why
);

/// <summary>What a forecast was about.</summary>
public enum ForecastSubject
{
    /// <summary>The first larvae of a brood.</summary>
    FirstLarvae,

    /// <summary>The first that settled.</summary>
    FirstSettled,
}

/// <summary>One forecast and what came of it.</summary>
/// <param name="Subject">About what.</param>
/// <param name="MadeOn">For which instant it was made, with what was written down by then.</param>
/// <param name="IsIssued">Whether it was written into the journal then; reckoned again from what was known otherwise.</param>
/// <param name="Early">5 % point.</param>
/// <param name="Middle">Median.</param>
/// <param name="Late">95 % point.</param>
/// <param name="From">The earliest at which it came true; none where it did not.</param>
/// <param name="To">The latest.</param>
public sealed record ForecastOutcome(
    ForecastSubject Subject,
    Instant MadeOn,
    bool IsIssued,
    Instant Early,
    Instant Middle,
    Instant Late,
    Instant? From,
    Instant? To
)
{
    /// <summary>Whether it came true within the 90 % interval; none where nothing came.</summary>
    public bool? IsInside => From is { } from && To is { } to ? from <= Late && to >= Early : null;

    /// <summary>Days by which the middle came too early (above 0) or too late; none where nothing came.</summary>
    public double? DaysOff =>
        From is { } from && To is { } to
            ? Middle < from
                ? (from - Middle).TotalDays
                : Middle > to
                    ? (to - Middle).TotalDays
                    : 0
            : null;
}

/// <summary>On what advice rests.</summary>
public enum AdviceBasis
{
    /// <summary>Readings of this run lay beyond a limit, on two days or more.</summary>
    Measured,

    /// <summary>The same was read in two or more runs.</summary>
    Pooled,

    /// <summary>What keepers do; nobody measured it here.</summary>
    Practice,
}

/// <summary>One thing to do otherwise. No size of an effect is ever said: that takes four vessels of each kind.</summary>
/// <param name="Change">What.</param>
/// <param name="Basis">On what it rests.</param>
/// <param name="Why">What the record shows, or lacks.</param>
/// <param name="Runs">In how many runs the same was read; 1 where it was this one alone, 0 for practice.</param>
public sealed record DoDifferently(Remark Change, AdviceBasis Basis, Remark Why, int Runs);
