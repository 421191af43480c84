using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

// What the estimate says, told of the vessels, cohorts and stages of the house.
public sealed partial class LarvalPopulation
{
    private const double FarthestDay = 4000;

    private List<ulong> Sets() =>
        [
            .. Enumerable.Range(0, Vessels.Count).Select(Run.InVessel),
            .. BroodCells.Of(Run, Cohorts).SelectMany(brood => brood.Sets),
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

    // Beyond what the clock holds there is nothing to tell apart.
    private double DayAsked(Instant at) => Math.Clamp(Clock.DayOf(at), -FarthestDay, FarthestDay);

    private PopulationEstimate Told(
        LarvalEstimate told,
        IReadOnlyList<Instant> asked,
        IReadOnlyList<HelpfulObservation> helps
    )
    {
        var now = told.Days[0];
        var track = told.Days.Skip(1 + asked.Count).ToList();
        var cohorts = ToldCohorts();
        var firstCohort = now.Sets.Length - cohorts.Count;
        var all = Point(now.Day, now.All);
        IReadOnlyList<AlivePoint> allTrack = [.. track.Select(day => Point(day.Day, day.All))];
        IReadOnlyList<AlivePart<VesselId>> vessels = [.. Vessels.Select((id, set) => Part(id, set))];
        return new()
        {
            Now = Now,
            All = all,
            Track = allTrack,
            Vessels = vessels,
            // Cohorts are told for now: one by one along all days they would take longer than all else together.
            Cohorts =
            [
                .. cohorts.Select(
                    (cohort, number) => new AlivePart<CohortId>(cohort.Id, NowOf(firstCohort + number), [])
                ),
            ],
            Broods = [.. ToldBroods()],
            Stages = InStages(now.All),
            SurvivedShare = now.Survived,
            Asked = [.. asked.Select((at, place) => Moment(at, told.Days[1 + place], cohorts))],
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
            Learned = told,
        };

        AlivePart<TId> Part<TId>(TId id, int set) => new(id, NowOf(set), TrackOf(set));

        AlivePoint NowOf(int set) => Point(now.Day, now.Sets[set]);

        IReadOnlyList<AlivePoint> TrackOf(int set) => [.. track.Select(day => Point(day.Day, day.Sets[set]))];

        IEnumerable<AliveOfBrood> ToldBroods()
        {
            var several = BroodCells.Of(Run, Cohorts);
            if (several.Count == 0 && Cohorts[0].Brood is { } only)
            {
                yield return new(
                    only,
                    all,
                    allTrack,
                    [
                        .. vessels.Select(vessel => new AliveOfBroodIn(
                            vessel.Id,
                            vessel.Now,
                            vessel.Track,
                            null
                        )),
                    ]
                );
            }

            var set = Vessels.Count;
            foreach (var brood in several)
            {
                var whole = set++;
                var there = new List<AliveOfBroodIn>();
                foreach (var cells in brood.Vessels)
                {
                    var own = set++;
                    there.Add(
                        new(
                            Vessels[cells.Vessel],
                            NowOf(own),
                            TrackOf(own),
                            cells.Others == 0 ? null : NowOf(set++)
                        )
                    );
                }

                yield return new(brood.Brood, NowOf(whole), TrackOf(whole), there);
            }
        }
    }

    private PopulationMoment Moment(Instant at, LarvalDay day, List<(CohortId Id, ulong Cells)> cohorts)
    {
        return new(
            at,
            Of(day.All),
            [.. Vessels.Select((id, set) => new AliveIn<VesselId>(id, Of(day.Sets[set])))],
            [
                .. cohorts.Select(
                    (cohort, number) =>
                        new AliveIn<CohortId>(
                            cohort.Id,
                            Of(day.Sets[day.Sets.Length - cohorts.Count + number])
                        )
                ),
            ],
            InStages(day.All),
            day.Survived
        );

        AlivePoint Of(LarvalNumbers numbers) => new(at, numbers.Alive, numbers.StageShares);
    }

    private List<AliveInStage> InStages(LarvalNumbers numbers) =>
        [
            .. _profile.Stages.Select(
                (stage, place) =>
                    new AliveInStage(
                        stage.Code,
                        place < numbers.Stages.Length ? numbers.Stages[place] : Interval.Exactly(0),
                        place < numbers.StageShares.Length ? numbers.StageShares[place] : 0
                    )
            ),
        ];

    private IEnumerable<Remark> Remarks(LarvalEstimate told)
    {
        if (told.Days[0].All.Alive.High < 1)
        {
            var takenOut = Run.Events.Any(happened => happened is Removed { Number: null });
            yield return new Remark(takenOut ? "alive-none-left" : "alive-none-found");
            if (takenOut)
            {
                yield break;
            }
        }

        if (told.IsRough)
        {
            yield return new Remark("alive-rough");
        }

        foreach (var borrowed in BorrowedNumbers.Of(_profile, BorrowedNumbers.OfLarvae))
        {
            yield return borrowed;
        }

        if (!_courses.Value.KnewWarmth)
        {
            yield return new Remark("alive-temperature-unknown");
        }

        if (_courses.Value.Felt is { } felt)
        {
            foreach (var beyond in TestedTemperatures.OfLarvae(_profile, felt.Lowest, felt.Highest))
            {
                yield return beyond;
            }
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
