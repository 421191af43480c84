using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>A dose to put ready, the same for every day of an absence.</summary>
/// <param name="Food">What kind.</param>
/// <param name="Name">Name of the feed or of the culture; none where it has none.</param>
/// <param name="DryMilligrams">Dry food a day, mg; none where it is green water.</param>
/// <param name="Millilitres">Green water a day, mL, in place of as much of the vessel's; none where it is dry food.</param>
public sealed record AwayPortion(FoodKind Food, string? Name, double? DryMilligrams, double? Millilitres);

/// <summary>One vessel during an absence.</summary>
public sealed record AwayVessel
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>Fresh water to put ready for each day, mL; 0 where next to nothing evaporates.</summary>
    public required double TopUpMillilitresPerDay { get; init; }

    /// <summary>When its salinity leaves its band if nobody tops up; none if it stays in it.</summary>
    public Instant? LeavesBand { get; init; }

    /// <summary>Doses of every day; none where the vessel is not fed, or is better left.</summary>
    public required ImmutableArray<AwayPortion> Portions { get; init; }

    /// <summary>Whether somebody has to feed it although nothing was worked out: the keeper portions by hand.</summary>
    public bool FoodNotKnown { get; init; }

    /// <summary>Larvae alive at the end with these doses; none where none live there.</summary>
    public Interval? AliveTended { get; init; }

    /// <summary>Larvae alive at the end if nobody comes.</summary>
    public Interval? AliveLeft { get; init; }

    /// <summary>Chance that ammonia passes its limit with these doses.</summary>
    public Probability? FoulsTended { get; init; }

    /// <summary>Chance that oxygen falls below its limit with these doses.</summary>
    public Probability? ChokesTended { get; init; }

    /// <summary>What is to be said of it.</summary>
    public required ImmutableArray<Remark> Remarks { get; init; }
}

/// <summary>A brood that may hatch meanwhile.</summary>
/// <param name="Brood">The brood.</param>
/// <param name="Chance">Chance that its first larvae come while nobody is there.</param>
/// <param name="OutBefore">Chance that they are out before.</param>
public sealed record AwayHatch(BroodId Brood, Probability Chance, Probability OutBefore);

/// <summary>An absence: what cannot slip, what must be done before, what can wait, and doses for a helper.</summary>
public sealed record AwayPlan
{
    /// <summary>The instant it was made for.</summary>
    public required Instant Now { get; init; }

    /// <summary>The first day of the absence.</summary>
    public required LocalDate From { get; init; }

    /// <summary>The day of the return.</summary>
    public required LocalDate Until { get; init; }

    /// <summary>Days on which nobody of the house is there.</summary>
    public required int Days { get; init; }

    /// <summary>What to do, first things first.</summary>
    public required ImmutableArray<Remark> First { get; init; }

    /// <summary>What to mind.</summary>
    public required ImmutableArray<CautionCode> Cautions { get; init; }

    /// <summary>Broods that may hatch meanwhile: these cannot slip.</summary>
    public required ImmutableArray<AwayHatch> Hatches { get; init; }

    /// <summary>Actions whose time ends in the absence and that can be done before it.</summary>
    public required ImmutableArray<PlannedAction> Before { get; init; }

    /// <summary>Actions that begin and end in the absence: a helper does them, or they are lost.</summary>
    public required ImmutableArray<PlannedAction> Cannot { get; init; }

    /// <summary>Actions that can wait for the return.</summary>
    public required ImmutableArray<PlannedAction> CanWait { get; init; }

    /// <summary>The vessels that want a helper, and those that want none.</summary>
    public required ImmutableArray<AwayVessel> Vessels { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }
}
