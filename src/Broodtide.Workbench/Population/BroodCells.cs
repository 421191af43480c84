using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Workbench.Population;

/// <summary>Which cells of a run belong to one brood, where several share water.</summary>
/// <param name="Brood">The brood.</param>
/// <param name="All">Its cells, as bits.</param>
/// <param name="Vessels">The same by vessel.</param>
internal sealed record BroodCells(BroodId Brood, ulong All, IReadOnlyList<BroodCells.InVessel> Vessels)
{
    /// <summary>Cells of one vessel, as bits.</summary>
    /// <param name="Vessel">Number of the vessel in the run.</param>
    /// <param name="Own">Those of the brood.</param>
    /// <param name="Others">All others; 0 where there are none.</param>
    internal sealed record InVessel(int Vessel, ulong Own, ulong Others);

    /// <summary>The sets to ask the estimator for, in the order in which they are read back.</summary>
    internal IEnumerable<ulong> Sets =>
        [
            All,
            .. Vessels.SelectMany(there =>
                there.Others == 0 ? (ulong[])[there.Own] : [there.Own, there.Others]
            ),
        ];

    /// <summary>The broods of a run; none where all larvae are of one, who need no sets of their own.</summary>
    internal static IReadOnlyList<BroodCells> Of(LarvalRun run, IReadOnlyList<Cohort> cohorts)
    {
        var owners = cohorts.Select(cohort => cohort.Brood).Distinct().ToList();
        return owners.Count < 2 ? [] : [.. owners.OfType<BroodId>().Select(brood => Of(run, cohorts, brood))];
    }

    private static BroodCells Of(LarvalRun run, IReadOnlyList<Cohort> cohorts, BroodId brood)
    {
        ulong own = 0;
        for (var number = 0; number < cohorts.Count; number++)
        {
            own |= cohorts[number].Brood == brood ? run.OfCohort(number) : 0;
        }

        return new(
            brood,
            own,
            [
                .. Enumerable
                    .Range(0, run.Courses.Count)
                    .Select(vessel => new InVessel(
                        vessel,
                        run.InVessel(vessel) & own,
                        run.InVessel(vessel) & ~own
                    ))
                    .Where(there => there.Own != 0),
            ]
        );
    }
}
