using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Comparing;

/// <summary>What is compared of a vessel.</summary>
/// <param name="Day">Alive on this day after its first crossing; settled ones brought home or seen if none is said.</param>
public sealed record Measure(double? Day)
{
    /// <summary>Settled ones.</summary>
    public static Measure Settled { get; } = new((double?)null);
}

/// <summary>One vessel of the journal as far as it can be compared.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Run">The run its larvae belong to; none where they have none.</param>
/// <param name="Treatment">Under which name it is compared.</param>
/// <param name="Started">How many crossed into it, as written; none where that was not counted.</param>
/// <param name="Alive">How many of them are compared: 5, 50 and 95 %; exact where it was written.</param>
/// <param name="IsEstimated">Whether that is an estimate.</param>
/// <param name="SettledAfterDays">Days from its first crossing to the first settled one seen; none where none was.</param>
/// <param name="IsMixed">Whether it ever held larvae of several broods.</param>
/// <param name="Curve">Share alive by days after the first crossing, with limits, as far as known.</param>
/// <param name="LeftOut">Why it is left out; none where it is compared.</param>
public sealed record ComparedVessel(
    VesselId Vessel,
    RunId? Run,
    string Treatment,
    int? Started,
    Interval? Alive,
    bool IsEstimated,
    double? SettledAfterDays,
    bool IsMixed,
    IReadOnlyList<(double Day, Interval Share)> Curve,
    Remark? LeftOut
);

/// <summary>Vessels of the journal compared.</summary>
/// <param name="Vessels">The vessels, also those left out.</param>
/// <param name="Compared">What comes of it; none where no vessel can be compared.</param>
/// <param name="Measure">What was compared.</param>
public sealed record VesselsCompared(
    IReadOnlyList<ComparedVessel> Vessels,
    TreatmentsCompared? Compared,
    Measure Measure
);

/// <summary>Compares vessels of the journal by what was written of them.</summary>
public static class JournalVessels
{
    /// <summary>The vessels a run's larvae lived in, each under the run's name.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="run">The run.</param>
    /// <param name="treatment">Under which name.</param>
    public static IEnumerable<(VesselId Vessel, string Treatment)> Of(
        Outlook outlook,
        RunId run,
        string treatment
    ) =>
        outlook.House.Run(run).Brood is { } brood
            ? outlook.House.VesselsOf(brood).Select(vessel => (vessel.Id, treatment))
            : [];

    /// <summary>The comparison in pieces: none at each pause, the answer last.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessels">The vessels with their treatments; a vessel that stood for two runs is compared for the last.</param>
    /// <param name="measure">What is compared.</param>
    /// <param name="withMixed">Whether vessels that held two broods are compared too.</param>
    /// <param name="blocks">The blocks within which treatments were dealt; all in one if none are said.</param>
    public static IEnumerable<VesselsCompared?> InPieces(
        Outlook outlook,
        IReadOnlyList<(VesselId Vessel, string Treatment)> vessels,
        Measure measure,
        bool withMixed = false,
        IReadOnlyDictionary<VesselId, int>? blocks = null
    )
    {
        var told = new List<ComparedVessel>();
        foreach (var (vessel, treatment) in vessels.DistinctBy(it => it.Vessel))
        {
            var population = outlook.PopulationIn(vessel);
            if (population is not null)
            {
                foreach (var step in outlook.StepsOf(population))
                {
                    step();
                    yield return null;
                }
            }

            told.Add(Told(outlook, vessel, treatment, measure, population, withMixed));
        }

        var rows = told.Where(vessel => vessel.LeftOut is null)
            .Select(vessel => new TableVessel(
                [vessel.Treatment],
                vessel.Vessel.Value.ToString(),
                (int)Math.Clamp(Math.Round(vessel.Alive!.Value.Middle), 0, vessel.Started!.Value),
                vessel.Started!.Value,
                blocks?.GetValueOrDefault(vessel.Vessel, 1) ?? 1
            ))
            .ToList();
        yield return new(
            told,
            rows.Count == 0
                ? null
                : TreatmentsCompared.Of(rows, ["treatment"], shareOf: row => OwnShare(told, row)),
            measure
        );
    }

    private static Interval? OwnShare(List<ComparedVessel> told, TableVessel row) =>
        told.FirstOrDefault(vessel => vessel.Vessel.Value.ToString() == row.Vessel)
            is { IsEstimated: true, Alive: { } alive, Started: > 0 and var started }
            ? Interval.FromPoints(
                Math.Min(1, alive.Low / started),
                Math.Min(1, alive.Middle / started),
                Math.Min(1, alive.High / started)
            )
            : null;

    private static ComparedVessel Told(
        Outlook outlook,
        VesselId id,
        string treatment,
        Measure measure,
        LarvalPopulation? population,
        bool withMixed
    )
    {
        var house = outlook.House;
        var crossings = house
            .Broods.SelectMany(brood => brood.Crossings)
            .Where(crossing => crossing.Made.To == id)
            .OrderBy(crossing => crossing.When.Middle)
            .ToList();
        var mixed = house.IsMixed(id);
        var run = crossings.Count > 0 ? house.RunOf(crossings[^1].Made.Brood) : null;
        if (crossings.Count == 0)
        {
            return new(
                id,
                null,
                treatment,
                null,
                null,
                false,
                null,
                mixed,
                [],
                new Remark("compare-none-crossed")
            );
        }

        var first = crossings[0].When.Middle;
        int? started = crossings.TrueForAll(crossing => crossing.Made.Number is not null)
            ? crossings.Sum(crossing => crossing.Made.Number!.Value)
            : null;
        var occurrences = house
            .Account.About(Subject.Of(id))
            .Where(it => it.Happened.Middle >= first)
            .ToList();
        var seen = occurrences
            .Where(it => it.Fact is SettlementSeen { Number: null or > 0 })
            .Select(it => (double?)(it.Happened.Middle - first).TotalDays)
            .FirstOrDefault();
        var estimate = population is null ? null : outlook.EstimateAtHand(population);
        var part = estimate?.Vessels.FirstOrDefault(vessel => vessel.Id == id);
        var (alive, estimated) = measure.Day is { } day
            ? (AliveOn(part, first + Duration.FromDays(day), outlook.Now), true)
            : Settled(occurrences, run?.Ended is not null);
        Remark? leftOut =
            mixed && !withMixed ? new Remark("compare-mixed")
            : started is null or 0 ? new Remark("compare-start-uncounted")
            : alive is null
                ? new Remark(measure.Day is null ? "compare-settled-uncounted" : "compare-day-untold")
            : null;
        return new(
            id,
            run?.Id,
            treatment,
            started,
            alive,
            estimated,
            seen,
            mixed,
            Curve(part, crossings[^1].When.Latest, UntilOf(outlook, run, occurrences), started, first),
            leftOut
        );
    }

    // Beyond its end or its emptying nothing of a vessel is told.
    private static Instant UntilOf(Outlook outlook, Run? run, List<Occurrence> told) =>
        told.Where(it => it.Fact is VesselEmptied)
            .Select(it => (Instant?)it.Happened.Earliest)
            .Append(run?.Ended?.When.Earliest)
            .Append(outlook.Now)
            .Min()!
            .Value;

    // Brought home if that was counted; else the most settled ones ever seen; none of a run that is over and saw none.
    private static (Interval? Alive, bool IsEstimated) Settled(List<Occurrence> told, bool isOver)
    {
        var returned = told.Select(it => it.Fact).OfType<JuvenilesReturned>().ToList();
        if (returned.Count > 0)
        {
            return returned.TrueForAll(it => it.Number is not null)
                ? (Interval.Exactly(returned.Sum(it => (double)it.Number!.Value)), false)
                : (null, false);
        }

        var seen = told.Select(it => it.Fact).OfType<SettlementSeen>().ToList();
        return seen.Exists(it => it.Number is not null)
                ? (Interval.Exactly(seen.Max(it => (double)(it.Number ?? 0))), false)
            : seen.Count == 0 && isOver ? (Interval.Exactly(0), false)
            : (null, false);
    }

    private static Interval? AliveOn(AlivePart<VesselId>? part, Instant at, Instant now)
    {
        if (part is null || at > now)
        {
            return null;
        }

        var (before, after) = (
            part.Track.LastOrDefault(point => point.At <= at),
            part.Track.FirstOrDefault(point => point.At >= at)
        );
        if (before is null || after is null)
        {
            return null;
        }

        var span = (after.At - before.At).TotalDays;
        var share = span > 0 ? (at - before.At).TotalDays / span : 0;
        double Of(Func<Interval, double> point) =>
            point(before.Alive) + (share * (point(after.Alive) - point(before.Alive)));
        return Interval.FromPoints(Of(it => it.Low), Of(it => it.Middle), Of(it => it.High));
    }

    private static List<(double Day, Interval Share)> Curve(
        AlivePart<VesselId>? part,
        Instant from,
        Instant until,
        int? started,
        Instant first
    ) =>
        part is null || started is not > 0
            ? []
            :
            [
                .. part
                    .Track.Where(point => point.At >= from && point.At < until)
                    .Select(point =>
                        (
                            (point.At - first).TotalDays,
                            Interval.FromPoints(
                                Math.Min(1, point.Alive.Low / started.Value),
                                Math.Min(1, point.Alive.Middle / started.Value),
                                Math.Min(1, point.Alive.High / started.Value)
                            )
                        )
                    ),
            ];
}
