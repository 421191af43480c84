using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>A cohort in a vessel: the smallest part of a run whose number is followed.</summary>
/// <param name="Vessel">Number of the vessel, from 0.</param>
/// <param name="Cohort">Number of the cohort, from 0.</param>
public sealed record LarvalCell(int Vessel, int Cohort);

/// <summary>All that is known of the larvae of a run, or of runs whose larvae share vessels.</summary>
public sealed record LarvalRun
{
    /// <summary>Most cells of one run: bits of a mask, with room for two unknowns beside them.</summary>
    public const int MostCells = 62;

    /// <summary>The cells.</summary>
    public required IReadOnlyList<LarvalCell> Cells { get; init; }

    /// <summary>What each vessel does to larvae, by its number.</summary>
    public required IReadOnlyList<VesselCourse> Courses { get; init; }

    /// <summary>The stages of the species.</summary>
    public required LarvalStages Stages { get; init; }

    /// <summary>What is believed beforehand.</summary>
    public LarvalPriors Priors { get; init; } = new();

    /// <summary>What happened and was seen, in any order.</summary>
    public required IReadOnlyList<LarvalEvent> Events { get; init; }

    /// <summary>The day up to which temperatures are known; later ones are a plan with an error.</summary>
    public required double Now { get; init; }

    /// <summary>Bits of the cells of a vessel.</summary>
    public ulong InVessel(int vessel) => Where(cell => cell.Vessel == vessel);

    /// <summary>Bits of the cells of a cohort.</summary>
    public ulong OfCohort(int cohort) => Where(cell => cell.Cohort == cohort);

    /// <summary>Bits of all cells.</summary>
    public ulong All => Where(_ => true);

    /// <summary>Refuses what cannot be computed.</summary>
    /// <exception cref="ArgumentException">Too many cells or unknowns, or a cell in a vessel without a course.</exception>
    internal static void Check(LarvalRun run)
    {
        if (run.Cells.Count is < 1 or > MostCells)
        {
            throw new ArgumentException(
                $"A run has 1 to {MostCells} cells; this one has {run.Cells.Count}.",
                nameof(run)
            );
        }

        var unknowns = run.Priors.Detection.Count + LarvalPoint.PlainUnknowns;
        if (unknowns > Statistics.SobolPoints.MostDimensions)
        {
            throw new ArgumentException(
                $"{run.Priors.Detection.Count} detection classes are too many; allowed are "
                    + $"{Statistics.SobolPoints.MostDimensions - LarvalPoint.PlainUnknowns}.",
                nameof(run)
            );
        }

        if (run.Cells.Any(cell => cell.Vessel < 0 || cell.Vessel >= run.Courses.Count))
        {
            throw new ArgumentException("Every cell stands in a vessel that has a course.", nameof(run));
        }

        Finite.Required(run.Now, nameof(run));
        foreach (var happened in run.Events)
        {
            Finite.Required(happened.Day, nameof(run));
            if ((CellsOf(run, happened) & ~run.All) != 0)
            {
                throw new ArgumentException(
                    $"{happened.GetType().Name} on day {happened.Day} names a cell that the run does not have.",
                    nameof(run)
                );
            }
        }
    }

    private static ulong CellsOf(LarvalRun run, LarvalEvent happened)
    {
        return happened switch
        {
            Arrived arrived => Bit(arrived.Cell),
            Moved moved => Bit(moved.From) | Bit(moved.To),
            Removed removed => removed.Cells,
            Counted counted => counted.Cells,
            Staged staged => staged.Cells,
            SettledSeen seen => seen.Cells,
            _ => 0,
        };

        ulong Bit(int cell) => cell >= 0 && cell < run.Cells.Count ? 1UL << cell : ~run.All;
    }

    private ulong Where(Func<LarvalCell, bool> which)
    {
        ulong bits = 0;
        for (var i = 0; i < Cells.Count; i++)
        {
            bits |= which(Cells[i]) ? 1UL << i : 0;
        }

        return bits;
    }
}
