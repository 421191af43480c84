using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Larvae that are estimated together: all cohorts of a brood, and those of other broods that ever shared a vessel
/// with them at one time. Computed anew from the entries each time; their order of arrival is without influence.
/// </summary>
public sealed partial class LarvalPopulation
{
    // Days told along the tide line; more would not be seen on a phone.
    private const int MostDays = 44;
    private const double LeastDayStep = 1;
    private const double AStepBefore = 1e-4;

    private readonly LarvalGroup _group;
    private readonly LarvalEntries _entries;
    private readonly SpeciesProfile _profile;
    private readonly Lazy<VesselCourses> _courses;
    private readonly Lazy<LarvalRun> _run;

    private LarvalPopulation(
        LarvalGroup group,
        LarvalEntries entries,
        SpeciesProfile profile,
        LarvalClock clock,
        Func<VesselCourses> courses,
        Instant now
    )
    {
        _group = group;
        _entries = entries;
        _profile = profile;
        _courses = new(courses);
        _run = new(() =>
            new LarvalRun
            {
                Cells = entries.Cells,
                Courses = [.. group.Vessels.Select(_courses.Value.Of)],
                Stages = LarvalBeliefs.Stages(profile),
                Priors = LarvalBeliefs.Priors(profile, entries.Looks),
                Events = entries.Events,
                Now = clock.DayOf(now),
            }
        );
        Clock = clock;
        Now = now;
    }

    /// <summary>The cohorts, first crossed first.</summary>
    public IReadOnlyList<Cohort> Cohorts => _group.Cohorts;

    /// <summary>The vessels they lived in.</summary>
    public IReadOnlyList<VesselId> Vessels => _group.Vessels;

    /// <summary>The broods they hatched from.</summary>
    public IEnumerable<BroodId> Broods => Cohorts.Select(cohort => cohort.Brood).OfType<BroodId>().Distinct();

    /// <summary>Its clock.</summary>
    public LarvalClock Clock { get; }

    /// <summary>What is computed from.</summary>
    public LarvalRun Run => _run.Value;

    /// <summary>The instant it is told for.</summary>
    public Instant Now { get; }

    /// <summary>What does not agree in its entries.</summary>
    public IReadOnlyList<Remark> Conflicts => _entries.Conflicts;

    /// <summary>The estimate, in pieces: none at each pause, the estimate last.</summary>
    /// <param name="alsoAt">Instants to tell exactly beside now, past or future.</param>
    public IEnumerable<PopulationEstimate?> EstimateInPieces(IReadOnlyList<Instant>? alsoAt = null)
    {
        IReadOnlyList<Instant> asked = alsoAt ?? [];
        foreach (var vessel in Vessels)
        {
            // Each takes long where ten years were written of it.
            _ = _courses.Value.Of(vessel);
            yield return null;
        }

        var days = Days();
        var sets = Sets();
        LarvalEstimate? told = null;
        foreach (
            var some in LarvalEstimator.InPieces(
                Run,
                new LarvalQuestion
                {
                    Days = [Run.Now, .. asked.Select(DayAsked), .. days],
                    Sets = sets,
                    SetsOnFirstDays = [.. ToldCohorts().Select(cohort => cohort.Cells)],
                    DaysWithStageNumbers = 1 + asked.Count,
                }
            )
        )
        {
            told = some;
            if (some is null)
            {
                yield return null;
            }
        }

        var helps = new List<HelpfulObservation>();
        foreach (var help in HelpfulObservations.Each(Run, told!))
        {
            helps.Add(help);
            yield return null;
        }

        yield return Told(told!, asked, HelpfulObservations.Ranked(helps));
    }

    /// <summary>The estimate.</summary>
    /// <param name="alsoAt">Instants to tell exactly beside now, past or future.</param>
    public PopulationEstimate Estimate(IReadOnlyList<Instant>? alsoAt = null) =>
        EstimateInPieces(alsoAt).Last()!;

    /// <summary>
    /// How much each entry changed the number alive and the day of settlement, the largest change first. One estimate
    /// an entry, so it takes its time. Crossings are not among them: without one there is nothing to estimate.
    /// </summary>
    /// <param name="estimate">The estimate of this population with all entries.</param>
    /// <param name="at">One of the instants it was also asked for; now if none is said.</param>
    public IReadOnlyList<EntryWeight> WithoutEach(PopulationEstimate estimate, Instant? at = null)
    {
        var alive = estimate.Asked.FirstOrDefault(asked => asked.At == at)?.All.Alive ?? estimate.All.Alive;
        var day = at is { } asked ? DayAsked(asked) : Run.Now;
        return
        [
            .. LarvalEstimator
                .WithoutEach(Run, new LarvalQuestion { Days = [day] })
                .Where(without => without.Tag >= 0)
                .Select(without =>
                {
                    var aliveWithout = without.Without.Days[0].All.Alive;
                    var half = Range(without.Without.Settlement.Half);
                    return new EntryWeight(
                        _entries.Entries[without.Tag],
                        aliveWithout,
                        half,
                        EntryWeight.Of(alive, aliveWithout, estimate.Settlement.Half, half)
                    );
                })
                .OrderByDescending(weight => weight.Weight)
                .ThenBy(weight => weight.Entry, OrderOfTelling.Instance),
        ];
    }

    /// <summary>The larvae of a group; none where none came into a vessel until now.</summary>
    internal static LarvalPopulation? Of(
        House house,
        LarvalGroup group,
        SpeciesProfile profile,
        LedgerWater water,
        Func<VesselId, Instant, bool> othersThere,
        Func<DoubleCounts> doubles,
        Instant now
    )
    {
        var origin = group.Cohorts.SelectMany(cohort => cohort.Groups).Min(part => part.Since.Middle);
        if (origin > now)
        {
            return null;
        }

        var clock = new LarvalClock(origin);
        var entries = new LarvalEntries(house, profile, group, clock, now, water.At, othersThere, doubles);
        if (!entries.Events.Any(happened => happened is Arrived))
        {
            return null;
        }

        // What each vessel did to them takes long and is not wanted of runs that are over.
        return new(
            group,
            entries,
            profile,
            clock,
            () => new VesselCourses(house, water, LarvalBeliefs.Conditions(profile), clock, clock.DayOf(now)),
            now
        );
    }

    // From the first crossing to when the last have settled; closer where numbers step.
    private List<double> Days()
    {
        var last = Math.Max(Run.Now + 3, LastDay());
        var step = Math.Max(LeastDayStep, last / MostDays);
        var days = new List<double>();
        for (var day = 0.0; day < last; day += step)
        {
            days.Add(day);
        }

        days.Add(last);
        days.Add(Run.Now);
        foreach (
            var at in Run
                .Events.Where(happened => happened is Arrived or Moved or Removed)
                .Select(happened => happened.Day)
                .Distinct()
        )
        {
            days.Add(Math.Max(0, at - AStepBefore));
            days.Add(at);
        }

        return [.. days.Where(day => day >= 0).Distinct().Order()];
    }

    private double LastDay()
    {
        const double reach = 1.3;
        var need = Run.Priors.DevelopmentDays.Median * reach;
        var youngest = Run.Events.OfType<Arrived>().Max(arrived => arrived.Day);
        var course = Run.Courses[Run.Cells[^1].Vessel];
        var day = youngest + need;
        for (var i = 0; i < 4; i++)
        {
            var gone = course.DevelopmentAt(day) - course.DevelopmentAt(youngest);
            day = youngest + ((day - youngest) * need / Math.Max(gone, 1));
        }

        return Math.Clamp(day, Run.Now + 3, Run.Now + 120);
    }
}
