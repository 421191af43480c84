using Broodtide.Domain;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

/// <summary>How many live at an instant, as believed now, and in which stage.</summary>
/// <param name="At">When.</param>
/// <param name="Alive">Larvae and settled ones together, whole numbers.</param>
/// <param name="StageShares">Share in each stage of the species, sum 1; all 0 where nobody lives.</param>
public sealed record AlivePoint(Instant At, Interval Alive, IReadOnlyList<double> StageShares);

/// <summary>One stage of those alive now.</summary>
/// <param name="Stage">The stage's code.</param>
/// <param name="Number">How many, whole numbers.</param>
/// <param name="Share">Its share, 0 to 1.</param>
public sealed record AliveInStage(string Stage, Interval Number, double Share);

/// <summary>A part of a population: the larvae in one vessel, or of one cohort.</summary>
/// <typeparam name="TId">Which it is.</typeparam>
/// <param name="Id">Its identity.</param>
/// <param name="Now">How many live now.</param>
/// <param name="Track">How many lived and will live, ascending in time; empty for a cohort.</param>
public sealed record AlivePart<TId>(TId Id, AlivePoint Now, IReadOnlyList<AlivePoint> Track);

/// <summary>The larvae of one brood in one vessel.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Now">How many live now.</param>
/// <param name="Track">How many lived and will live, ascending in time.</param>
/// <param name="OthersNow">Larvae that live there now and are not of this brood; none where there never were any.</param>
public sealed record AliveOfBroodIn(
    VesselId Vessel,
    AlivePoint Now,
    IReadOnlyList<AlivePoint> Track,
    AlivePoint? OthersNow
);

/// <summary>The larvae of one brood among those that are estimated together.</summary>
/// <param name="Brood">The brood.</param>
/// <param name="Now">How many live now.</param>
/// <param name="Track">How many lived and will live, ascending in time.</param>
/// <param name="Vessels">The same by vessel, those it ever lived in.</param>
public sealed record AliveOfBrood(
    BroodId Brood,
    AlivePoint Now,
    IReadOnlyList<AlivePoint> Track,
    IReadOnlyList<AliveOfBroodIn> Vessels
);

/// <summary>An uncertain instant: its 5, 50 and 95 % points.</summary>
/// <param name="Early">One chance in twenty that it is earlier.</param>
/// <param name="Middle">As likely before as after.</param>
/// <param name="Late">One chance in twenty that it is later.</param>
public sealed record InstantRange(Instant Early, Instant Middle, Instant Late);

/// <summary>When larvae settle.</summary>
/// <param name="First">The first one.</param>
/// <param name="Tenth">One in ten of those that settle.</param>
/// <param name="Half">Half of them.</param>
/// <param name="NineTenths">Nine in ten of them.</param>
public sealed record SettlementForecast(
    InstantRange First,
    InstantRange Tenth,
    InstantRange Half,
    InstantRange NineTenths
);

/// <summary>One observation a keeper could make, and how much narrower it would leave the answer.</summary>
/// <param name="Kind">Which.</param>
/// <param name="AliveNarrowedShare">Expected share by which the interval of those alive narrows, 0 to 1.</param>
/// <param name="SettlementNarrowedShare">The same of the day by which half have settled.</param>
public sealed record HelpfulLook(
    Science.Estimation.Larvae.HelpfulKind Kind,
    double AliveNarrowedShare,
    double SettlementNarrowedShare
)
{
    // A narrowing below this nobody would notice; a question counts where it narrows half as much as the other.
    private const double LeastWorthSaying = 0.05;

    /// <summary>Which question it narrows.</summary>
    public HelpfulQuestion Narrows =>
        Math.Max(AliveNarrowedShare, SettlementNarrowedShare) < LeastWorthSaying ? HelpfulQuestion.Hardly
        : AliveNarrowedShare < SettlementNarrowedShare / 2 ? HelpfulQuestion.Settlement
        : SettlementNarrowedShare < AliveNarrowedShare / 2 ? HelpfulQuestion.Alive
        : HelpfulQuestion.Both;
}

/// <summary>Which question an observation narrows.</summary>
public enum HelpfulQuestion
{
    /// <summary>How many are alive.</summary>
    Alive,

    /// <summary>When they settle.</summary>
    Settlement,

    /// <summary>Both alike.</summary>
    Both,

    /// <summary>Neither by much.</summary>
    Hardly,
}

/// <summary>How many larvae of a population are alive, in which stage, and when they settle.</summary>
public sealed record PopulationEstimate
{
    /// <summary>The instant it is told for.</summary>
    public required Instant Now { get; init; }

    /// <summary>All of the population.</summary>
    public required AlivePoint All { get; init; }

    /// <summary>How many lived and will live, ascending in time, all together.</summary>
    public required IReadOnlyList<AlivePoint> Track { get; init; }

    /// <summary>By vessel.</summary>
    public required IReadOnlyList<AlivePart<VesselId>> Vessels { get; init; }

    /// <summary>By cohort, as cohorts are told now: joined ones under the name they bear.</summary>
    public required IReadOnlyList<AlivePart<CohortId>> Cohorts { get; init; }

    /// <summary>By brood, each with its own larvae alone where several share water.</summary>
    public required IReadOnlyList<AliveOfBrood> Broods { get; init; }

    /// <summary>By stage.</summary>
    public required IReadOnlyList<AliveInStage> Stages { get; init; }

    /// <summary>Share alive of all that crossed, 0 to 1.</summary>
    public required Interval SurvivedShare { get; init; }

    /// <summary>The instants that were asked for beside now, in the order of asking.</summary>
    public IReadOnlyList<PopulationMoment> Asked { get; init; } = [];

    /// <summary>When they settle.</summary>
    public required SettlementForecast Settlement { get; init; }

    /// <summary>Settled ones to expect on <see cref="JuvenilesOn"/>.</summary>
    public required Interval Juveniles { get; init; }

    /// <summary>The day by which nine in ten have settled, at the middle.</summary>
    public required Instant JuvenilesOn { get; init; }

    /// <summary>Whether the bounds rest on too little to be relied on.</summary>
    public required bool IsRough { get; init; }

    /// <summary>Which single observation would narrow the answer, the most helpful first.</summary>
    public required IReadOnlyList<HelpfulLook> WhatHelps { get; init; }

    /// <summary>What does not agree, and what was left out.</summary>
    public required IReadOnlyList<Remark> Conflicts { get; init; }

    /// <summary>What a reader should know: nothing was measured of temperature, and the like.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>What the larvae are run on from; none where it was told by another sitting.</summary>
    internal Science.Estimation.Larvae.LarvalEstimate? Learned { get; init; }
}
