using System.Numerics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The steps that an event is made of.</summary>
internal static class LarvalSteps
{
    // How long after a stage sample it still tells whether larvae are drawn to light: an assumption.
    private const double SampleHoldsDays = 4;

    // From this share of larvae past the attraction to light a look no longer counts them: an assumption.
    private const double FadedShare = 0.1;

    private const int LeastStagedForHold = 8;

    internal static IEnumerable<LarvalStep> Of(LarvalRun run, LarvalEvent happened)
    {
        switch (happened)
        {
            case Arrived arrived:
                yield return new(StepKind.Arrive, arrived.Day)
                {
                    Tag = arrived.Tag,
                    To = arrived.Cell,
                    Number = Units.Finite.NotNegative(arrived.Number),
                    ErrorCv = Units.Finite.NotNegative(arrived.ErrorCv),
                    SharedErrorCv = Units.Finite.NotNegative(arrived.SharedErrorCv),
                    Age = Units.Finite.NotNegative(arrived.AgeDays),
                    Strain = Units.Finite.NotNegative(arrived.Strain),
                };
                break;
            case Moved { From: var from, To: var to } when from == to:
                break;
            case Moved { Number: { } number } moved:
                yield return new(StepKind.MoveNumber, moved.Day)
                {
                    Tag = moved.Tag,
                    From = moved.From,
                    To = moved.To,
                    Number = Units.Finite.NotNegative(number),
                    // So many at least were there before they went: told with the move, never after it.
                    Cells = 1UL << moved.From,
                    Term = AtLeast(number),
                };
                break;
            case Moved moved:
                yield return new(StepKind.MoveShare, moved.Day)
                {
                    Tag = moved.Tag,
                    From = moved.From,
                    To = moved.To,
                    Share = Units.Finite.Within(moved.Share ?? 1, 0, 1),
                };
                break;
            case Removed { Number: { } number } removed:
                yield return new(StepKind.Count, removed.Day)
                {
                    Tag = removed.Tag,
                    Cells = removed.Cells,
                    Term = AtLeast(number),
                };
                yield return new(StepKind.RemoveNumber, removed.Day)
                {
                    Tag = removed.Tag,
                    Cells = removed.Cells,
                    Number = Units.Finite.NotNegative(number),
                    Settled = removed.Settled,
                };
                break;
            case Removed removed:
                yield return new(StepKind.RemoveAll, removed.Day)
                {
                    Tag = removed.Tag,
                    Cells = removed.Cells,
                    Settled = removed.Settled,
                };
                break;
            case Counted counted:
                var told = Told(run, counted);
                yield return new(StepKind.Count, counted.Day)
                {
                    Tag = counted.Tag,
                    Cells = counted.Cells,
                    Term = CountTerm.Of(told),
                    OnlyRaises = told is AtLeastEvidence,
                };
                break;
            case Staged staged when staged.Tallies.Sum() > 0:
                yield return new(StepKind.Stage, staged.Day)
                {
                    Tag = staged.Tag,
                    Cells = staged.Cells,
                    Tallies = [.. staged.Tallies],
                };
                break;
            case SettledSeen seen:
                yield return new(StepKind.SettledSeen, seen.Day)
                {
                    Tag = seen.Tag,
                    Cells = seen.Cells,
                    Number = Math.Max(1, seen.AtLeast),
                };
                break;
            case DeadFound dead when dead.Number > 0:
                yield return new(StepKind.DeadFound, dead.Day) { Tag = dead.Tag, Number = dead.Number };
                break;
            default:
                break;
        }
    }

    private static CountTerm AtLeast(double number) =>
        CountTerm.Of(new AtLeastEvidence((int)Math.Min(1e6, number)));

    /// <summary>
    /// Past the stage where the attraction to light fades, a look that gathers by light says how many are there at
    /// least, and no more.
    /// </summary>
    private static CountEvidence Told(LarvalRun run, Counted counted) =>
        counted.Evidence is LookEvidence { FadesWithLight: true } look && HasFaded(run, counted)
            ? new AtLeastEvidence(look.Seen)
            : counted.Evidence;

    private static bool HasFaded(LarvalRun run, Counted counted)
    {
        var fades = run.Stages.LightFadesFrom;
        if (fades >= run.Stages.Count)
        {
            return false;
        }

        var samples = run
            .Events.OfType<Staged>()
            .Where(staged => staged.Day <= counted.Day && (staged.Cells & counted.Cells) != 0)
            .ToList();
        if (samples.Any(staged => staged.Tallies.Skip(fades).Sum() > FadedShare * staged.Tallies.Sum()))
        {
            return true;
        }

        var fresh = samples.Where(staged => counted.Day - staged.Day <= SampleHoldsDays);
        return fresh.Sum(staged => staged.Tallies.Sum()) < LeastStagedForHold && CouldHaveFaded(run, counted);
    }

    // By the clock alone: the oldest larvae counted could, with quick development, be past it.
    private static bool CouldHaveFaded(LarvalRun run, Counted counted)
    {
        var priors = run.Priors;
        var quick =
            priors.DevelopmentDays.Median
            * Math.Exp(-priors.DevelopmentDays.LogSd)
            * (1 - (1.2816 * priors.DevelopmentCv.Median));
        var begins = run.Stages.LightFadesFrom == 0 ? 0 : run.Stages.Ends[run.Stages.LightFadesFrom - 1];
        return run
            .Events.OfType<Arrived>()
            .Where(arrived => arrived.Day <= counted.Day && SameWater(run, arrived, counted))
            .Any(arrived =>
            {
                var course = run.Courses[run.Cells[arrived.Cell].Vessel];
                var age =
                    arrived.AgeDays + course.DevelopmentAt(counted.Day) - course.DevelopmentAt(arrived.Day);
                return age >= begins * quick;
            });
    }

    private static bool SameWater(LarvalRun run, Arrived arrived, Counted counted)
    {
        for (var left = counted.Cells; left != 0; left &= left - 1)
        {
            if (run.Cells[BitOperations.TrailingZeroCount(left)].Cohort == run.Cells[arrived.Cell].Cohort)
            {
                return true;
            }
        }

        return false;
    }
}
