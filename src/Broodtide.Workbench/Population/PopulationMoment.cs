using Broodtide.Domain;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

/// <summary>A part of a population at one instant.</summary>
/// <typeparam name="TId">Which part it is.</typeparam>
/// <param name="Id">Its identity.</param>
/// <param name="Point">How many live there then.</param>
public sealed record AliveIn<TId>(TId Id, AlivePoint Point);

/// <summary>
/// A population at an instant somebody asked for, past or future, as all that is known now tells it: what was seen
/// later speaks of what was before.
/// </summary>
/// <param name="At">The instant.</param>
/// <param name="All">All of the population.</param>
/// <param name="Vessels">By vessel.</param>
/// <param name="Cohorts">By cohort, joined ones under the name they bear.</param>
/// <param name="Stages">By stage.</param>
/// <param name="SurvivedShare">Share alive of all that had crossed by then, 0 to 1.</param>
public sealed record PopulationMoment(
    Instant At,
    AlivePoint All,
    IReadOnlyList<AliveIn<VesselId>> Vessels,
    IReadOnlyList<AliveIn<CohortId>> Cohorts,
    IReadOnlyList<AliveInStage> Stages,
    Interval SurvivedShare
);
