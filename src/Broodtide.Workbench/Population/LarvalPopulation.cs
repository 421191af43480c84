using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Larvae that are estimated together: all cohorts of a brood, and those of other broods that ever shared a vessel
/// with them. Computed anew from the entries each time; their order of arrival is without influence.
/// </summary>
public sealed class LarvalPopulation
{
    // Days told along the tide line; more would not be seen on a phone.
    private const int MostDays = 44;
    private const double LeastDayStep = 1;
    private const double AStepBefore = 1e-4;

    private readonly LarvalGroup _group;
    private readonly LarvalEntries _entries;
    private readonly SpeciesProfile _profile;
    private readonly bool _knewWarmth;

    private LarvalPopulation(
        LarvalGroup group,
        LarvalEntries entries,
        SpeciesProfile profile,
        LarvalClock clock,
        LarvalRun run,
        Instant now,
        bool knewWarmth
    )
    {
        _group = group;
        _entries = entries;
        _profile = profile;
        _knewWarmth = knewWarmth;
        Clock = clock;
        Run = run;
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
    public LarvalRun Run { get; }

    /// <summary>The instant it is told for.</summary>
    public Instant Now { get; }

    /// <summary>What does not agree in its entries.</summary>
    public IReadOnlyList<Remark> Conflicts => _entries.Conflicts;

    /// <summary>All populations of a house, first crossed first.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="profileOf">Whose numbers apply to a brood.</param>
    /// <param name="ledgers">The water of all vessels.</param>
    /// <param name="now">The instant to tell them for.</param>
    public static IReadOnlyList<LarvalPopulation> All(
        House house,
        Func<BroodId?, SpeciesProfile> profileOf,
        IReadOnlyList<VesselLedger> ledgers,
        Instant now
    ) =>
        [
            .. LarvalGroup
                .Of(house)
                .Select(group => Of(house, group, profileOf(group.Cohorts[0].Brood), ledgers, now))
                .OfType<LarvalPopulation>(),
        ];

    /// <summary>The estimate, in pieces: none at each pause, the estimate last.</summary>
    public IEnumerable<PopulationEstimate?> EstimateInPieces()
    {
        var days = Days();
        var sets = Sets();
        LarvalEstimate? told = null;
        foreach (
            var some in LarvalEstimator.InPieces(
                Run,
                new LarvalQuestion
                {
                    Days = [Run.Now, .. days],
                    Sets = sets,
                    DaysWithStageNumbers = 1,
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

        yield return Told(told!, HelpfulObservations.Ranked(helps));
    }

    /// <summary>The estimate.</summary>
    public PopulationEstimate Estimate() => EstimateInPieces().Last()!;

    /// <summary>
    /// How much each entry changed the number alive now: without it, how many. One estimate an entry, so it takes its
    /// time.
    /// </summary>
    public IEnumerable<(
        Occurrence Entry,
        Interval AliveWithout,
        InstantRange HalfSettledWithout
    )> WithoutEach() =>
        LarvalEstimator
            .WithoutEach(Run, new LarvalQuestion { Days = [Run.Now] })
            .Where(without => without.Tag >= 0)
            .Select(without =>
                (
                    _entries.Entries[without.Tag],
                    without.Without.Days[0].All.Alive,
                    Range(without.Without.Settlement.Half)
                )
            );

    private static LarvalPopulation? Of(
        House house,
        LarvalGroup group,
        SpeciesProfile profile,
        IReadOnlyList<VesselLedger> ledgers,
        Instant now
    )
    {
        var origin = group.Cohorts.SelectMany(cohort => cohort.Groups).Min(part => part.Since.Middle);
        if (origin > now)
        {
            return null;
        }

        var clock = new LarvalClock(origin);
        var entries = new LarvalEntries(
            house,
            profile,
            group,
            clock,
            now,
            (vessel, at) => Water(ledgers, vessel, at)
        );
        if (!entries.Events.Any(happened => happened is Arrived))
        {
            return null;
        }

        var nowDay = clock.DayOf(now);
        var courses = new VesselCourses(house, ledgers, LarvalBeliefs.Conditions(profile), clock, nowDay);
        var run = new LarvalRun
        {
            Cells = entries.Cells,
            Courses = [.. group.Vessels.Select(courses.Of)],
            Stages = LarvalBeliefs.Stages(profile),
            Priors = LarvalBeliefs.Priors(profile, entries.Looks),
            Events = entries.Events,
            Now = nowDay,
        };
        return new(group, entries, profile, clock, run, now, courses.KnewWarmth);
    }

    private static Volume? Water(IReadOnlyList<VesselLedger> ledgers, VesselId vessel, Instant at)
    {
        LedgerPoint? last = null;
        foreach (
            var point in ledgers.Where(ledger => ledger.Vessel == vessel).SelectMany(ledger => ledger.Track)
        )
        {
            if (point.At <= at && (last is not { } held || point.At >= held.At))
            {
                last = point;
            }
        }

        return last is { } found ? Volume.FromLitres(Math.Max(0, found.Litres.Middle)) : null;
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

    private List<ulong> Sets() =>
        [
            .. Enumerable.Range(0, Vessels.Count).Select(Run.InVessel),
            .. ToldCohorts().Select(cohort => cohort.Cells),
        ];

    // Cohorts joined into another are told under its name.
    private List<(CohortId Id, ulong Cells)> ToldCohorts()
    {
        var told = new List<(CohortId Id, ulong Cells)>();
        for (var number = 0; number < Cohorts.Count; number++)
        {
            var id = Root(Cohorts[number]);
            var place = told.FindIndex(cohort => cohort.Id == id);
            if (place < 0)
            {
                told.Add((id, Run.OfCohort(number)));
            }
            else
            {
                told[place] = (id, told[place].Cells | Run.OfCohort(number));
            }
        }

        return told;
    }

    private CohortId Root(Cohort cohort)
    {
        var seen = new HashSet<CohortId> { cohort.Id };
        var id = cohort.Id;
        while (
            Cohorts.FirstOrDefault(other => other.Id == id)?.MergedInto is { } into
            && seen.Add(into)
            && Cohorts.Any(other => other.Id == into)
        )
        {
            id = into;
        }

        return id;
    }

    private PopulationEstimate Told(LarvalEstimate told, IReadOnlyList<HelpfulObservation> helps)
    {
        var now = told.Days[0];
        var track = told.Days.Skip(1).ToList();
        var cohorts = ToldCohorts();
        return new()
        {
            Now = Now,
            All = Point(now.Day, now.All),
            Track = [.. track.Select(day => Point(day.Day, day.All))],
            Vessels = [.. Vessels.Select((id, set) => Part(id, set))],
            Cohorts = [.. cohorts.Select((cohort, number) => Part(cohort.Id, Vessels.Count + number))],
            Stages =
            [
                .. _profile.Stages.Select(
                    (stage, place) =>
                        new AliveInStage(
                            stage.Code,
                            place < now.All.Stages.Length ? now.All.Stages[place] : Interval.Exactly(0),
                            place < now.All.StageShares.Length ? now.All.StageShares[place] : 0
                        )
                ),
            ],
            SurvivedShare = now.Survived,
            Settlement = new(
                Range(told.Settlement.First),
                Range(told.Settlement.Tenth),
                Range(told.Settlement.Half),
                Range(told.Settlement.NineTenths)
            ),
            Juveniles = told.Juveniles,
            JuvenilesOn = Clock.At(told.JuvenilesDay),
            IsRough = told.IsRough,
            WhatHelps =
            [
                .. helps.Select(help => new HelpfulLook(
                    help.Kind,
                    help.AliveNarrowedShare,
                    help.SettlementNarrowedShare
                )),
            ],
            Conflicts = Conflicts,
            Remarks = [.. Remarks(told)],
        };

        AlivePart<TId> Part<TId>(TId id, int set) =>
            new(id, Point(now.Day, now.Sets[set]), [.. track.Select(day => Point(day.Day, day.Sets[set]))]);
    }

    private IEnumerable<Remark> Remarks(LarvalEstimate told)
    {
        if (told.IsRough)
        {
            yield return new Remark("alive-rough");
        }

        if (!_knewWarmth)
        {
            yield return new Remark("alive-temperature-unknown");
        }

        if (!Run.Events.Any(happened => happened is Counted))
        {
            yield return new Remark("alive-never-counted");
        }

        if (!Run.Events.Any(happened => happened is Staged))
        {
            yield return new Remark("alive-never-staged");
        }
    }

    private AlivePoint Point(double day, LarvalNumbers numbers) =>
        new(Clock.At(day), numbers.Alive, numbers.StageShares);

    private InstantRange Range(Interval days) =>
        new(Clock.At(days.Low), Clock.At(days.Middle), Clock.At(days.High));
}
