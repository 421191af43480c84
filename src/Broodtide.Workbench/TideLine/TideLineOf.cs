using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>
/// The record of a tide line from an outlook: what was seen, what the ledgers and the forecast say. How many are
/// alive, their stages and when they settle are in it when the outlook has their estimate at hand; nothing is worked
/// out for it, so that a page may draw at once and again when it is there (<see cref="Outlook.StepsOf"/>), and who
/// can wait asks for it first (<see cref="Outlook.EstimateOf"/>).
/// </summary>
public static class TideLineOf
{
    private const double NineInTen = 0.9;
    private static readonly Duration BreachWithin = Duration.FromDays(2);

    /// <summary>The tide line of a run; none while the run has no brood.</summary>
    /// <param name="outlook">What is known and worked out.</param>
    /// <param name="run">The run.</param>
    /// <param name="lately">An estimate of a moment before, shown until a new one is at hand.</param>
    public static TideLineRecord? Run(Outlook outlook, RunId run, PopulationEstimate? lately = null) =>
        outlook.House.Run(run) is { Brood: { } brood } view
            ? Of(outlook, outlook.House.Brood(brood), view, lately)
            : null;

    /// <summary>The tide line of a brood, whether or not a run was begun for it.</summary>
    /// <param name="outlook">What is known and worked out.</param>
    /// <param name="brood">The brood.</param>
    /// <param name="lately">An estimate of a moment before, shown until a new one is at hand.</param>
    public static TideLineRecord Brood(Outlook outlook, BroodId brood, PopulationEstimate? lately = null) =>
        Of(outlook, outlook.House.Brood(brood), outlook.House.RunOf(brood), lately);

    private static TideLineRecord Of(Outlook outlook, Brood brood, Run? run, PopulationEstimate? lately)
    {
        var house = outlook.House;
        var profile = outlook.Profiles.Of(brood.Id);
        var cohorts = house.Cohorts.Where(cohort => cohort.Brood == brood.Id).ToList();
        var vessels = house.VesselsOf(brood.Id).ToList();
        // Once larvae were gathered, what was foretold of the nights is not drawn any more.
        var isHatched = brood.FirstLarvae is not null && brood.Gatherings.Count > 0;
        var forecast = isHatched ? null : outlook.ForecastOf(brood.Id);
        var since = cohorts
            .SelectMany(cohort => cohort.Groups)
            .Select(group => group.Since.Earliest)
            .DefaultIfEmpty(Instant.MaxValue)
            .Min();
        var ended = run?.Ended is { } end && end.When.Middle <= outlook.Now ? run.Ended : null;
        var inVessels = vessels
            .SelectMany(vessel => house.Account.AboutSince(Subject.Of(vessel.Id), since))
            .Where(occurrence => ended is not { } over || occurrence.Happened.Earliest <= over.When.Latest)
            .ToList();
        var breach = vessels
            .Select(vessel => (vessel.Id, outlook.LedgerOf(vessel.Id)?.Leaving))
            .Where(pair => pair.Leaving is not null)
            .Select(pair => new TideBreach(
                pair.Leaving!.Middle ?? pair.Leaving.Earliest,
                pair.Id.Value,
                pair.Leaving.LimitPpt,
                pair.Leaving.TooSalty
            ))
            .Where(breach => breach.At <= outlook.Now + BreachWithin)
            .MinBy(breach => breach.At);
        var larvae = brood.FirstLarvae is not null;
        var counted = inVessels.Where(occurrence => occurrence.Fact is CountMade).ToList();
        var alive = TideAliveOf.Of(outlook.EstimateAtHand(brood.Id) ?? lately, brood.Id);
        IReadOnlyList<TideStage> stages =
        [
            .. profile.Stages.Select(stage => new TideStage(
                stage.Code,
                stage.Code.StartsWith('Z') ? stage.Code[1..] : stage.Code,
                string.Equals(stage.Code, "PL", StringComparison.Ordinal)
            )),
        ];
        return new TideLineRecord
        {
            Name = run?.Name ?? brood.Name ?? "",
            Now = outlook.Now,
            Zone = outlook.Zone,
            MadeAt = outlook.Now,
            Zones = new(
                profile.BrackishSalinity.Low.Practical,
                Math.Max(
                    profile.BrackishSalinity.Low.Practical,
                    profile.LarvalSalinityCompleting.Low.Practical
                )
            ),
            PlannedPpt = profile.LarvalSalinityTarget.Practical,
            Brood = new TideBrood
            {
                FirstSeenBerried = brood.FirstSeenBerried?.Middle,
                LastSeenCarrying = larvae || brood.Dropped is not null ? brood.LastSeenCarried : null,
                Marks = Marks(house, brood),
                LaterThanNineInTen = !larvae && forecast?.OutAlready.Value > NineInTen,
            },
            Nights = TideNightsOf.Nights(brood, forecast, outlook.Zone),
            Hatch =
                larvae || forecast is null
                    ? null
                    : new(forecast.Window90.From, forecast.Median, forecast.Window90.To),
            Crossings = Crossings(outlook, brood),
            Vessels =
            [
                .. vessels
                    .Select(vessel => TideVesselsOf.Of(outlook, vessel.Id, cohorts))
                    .Select(vessel => alive?.Put(vessel) ?? vessel),
            ],
            Alive = alive?.Rows ?? [],
            AliveIsRough = alive?.IsRough ?? false,
            Counts = Counts(outlook, counted),
            StageNames = stages,
            Stages = alive?.Stages(stages) ?? Staged(inVessels, [.. stages.Select(stage => stage.Name)]),
            Return = Return(outlook, brood, cohorts, inVessels, alive),
            Ends = ended is { } how ? [End(how, counted)] : [],
            NoneSeenSince = ended is null ? NoneSeenSince(counted) : null,
            Breach = ended is null ? breach : null,
            Entries = TideEntriesOf.Told([
                .. house.Account.About(Subject.Of(brood.Id)),
                .. run is null ? [] : house.Account.About(Subject.Of(run.Id)),
                .. cohorts.SelectMany(cohort => house.Account.About(Subject.Of(cohort.Id))),
                .. inVessels,
            ]),
        };
    }

    private static List<TideMark> Marks(House house, Brood brood)
    {
        var marks = new List<TideMark>();
        var berried = false;
        foreach (var occurrence in house.Account.About(Subject.Of(brood.Id)))
        {
            TideMarkKind? kind = occurrence.Fact switch
            {
                AnimalSeenBerried => berried ? TideMarkKind.StillCarried : TideMarkKind.Berried,
                EggsObserved { Colour: EggColour.Pale } => TideMarkKind.Pale,
                EggsObserved { Saddle: true } => TideMarkKind.Saddle,
                EggsObserved { Eyed: true } => TideMarkKind.Eyed,
                EggsObserved { Carried: not false } => TideMarkKind.StillCarried,
                AnimalIsolated => TideMarkKind.Isolated,
                EggsDropped => TideMarkKind.Dropped,
                _ => null,
            };
            berried |= occurrence.Fact is AnimalSeenBerried;
            if (kind is { } mark)
            {
                marks.Add(
                    new(mark, occurrence.Happened.Earliest, occurrence.Happened.Latest, occurrence.Id.Value)
                );
            }
        }

        return marks;
    }

    private static IReadOnlyList<TideCrossing> Crossings(Outlook outlook, Brood brood)
    {
        // A number nobody said lies somewhere in what one brood gives.
        var reported = outlook.Profiles.Of(brood.Id).Quantity(Species.QuantityCodes.LarvaePerBrood);
        var (low, high) = (reported.Low!.Value, reported.High!.Value);
        var unsaid = Interval.FromPoints(0, Math.Min(high, Math.Sqrt(Math.Max(0, low * high))), high);
        return
        [
            .. outlook
                .House.Account.About(Subject.Of(brood.Id))
                .Where(occurrence => occurrence.Fact is CrossingMade)
                .Select(occurrence => (occurrence, Made: (CrossingMade)occurrence.Fact))
                .Select(pair => new TideCrossing(
                    pair.occurrence.Happened.Middle,
                    pair.Made.Number is { } number ? SaidNumber.Of(number, pair.Made.Method) : unsaid,
                    pair.Made.To.Value,
                    pair.Made.Cohort.Value,
                    pair.occurrence.Id.Value,
                    pair.occurrence.IsCorrected
                ))
                .OrderBy(crossing => crossing.At),
        ];
    }

    private static IReadOnlyList<TideCount> Counts(Outlook outlook, IEnumerable<Occurrence> counted) =>
        [
            .. counted
                .Select(occurrence => (occurrence, Count: (CountMade)occurrence.Fact))
                .Select(pair =>
                    (
                        pair.occurrence,
                        pair.Count.Vessel,
                        outlook
                            .CountsMeant.Of(
                                pair.occurrence,
                                Litres(outlook, pair.Count.Vessel, pair.occurrence.Happened.Middle)
                            )
                            .Larvae
                    )
                )
                .Where(count => count.Larvae is not null)
                .Select(count => new TideCount(
                    count.occurrence.Happened.Middle,
                    count.Larvae!.Value,
                    count.Vessel.Value,
                    count.occurrence.Id.Value
                ))
                .OrderBy(count => count.At),
        ];

    private static Volume? Litres(Outlook outlook, VesselId vessel, Instant at) =>
        outlook.WaterThen.Then(vessel, at) is { } litres
            ? Volume.FromLitres(Math.Max(0, litres.Middle))
            : null;

    private static IReadOnlyList<TideStageRow> Staged(IEnumerable<Occurrence> told, string[] names) =>
        [
            .. told.Where(occurrence => occurrence.Fact is StageSampleTaken)
                .OrderBy(occurrence => occurrence.Happened.Middle)
                .Select(occurrence =>
                    (
                        occurrence.Happened.Middle,
                        Shares: names
                            .Select(name =>
                                ((StageSampleTaken)occurrence.Fact)
                                    .Stages.Where(tally =>
                                        string.Equals(tally.Stage, name, StringComparison.OrdinalIgnoreCase)
                                    )
                                    .Sum(tally => (double)tally.Number)
                            )
                            .ToList()
                    )
                )
                .Where(row => row.Shares.Sum() > 0)
                .Select(row => new TideStageRow(
                    row.Middle,
                    [.. row.Shares.Select(share => share / row.Shares.Sum())]
                )),
        ];

    private static TideReturn? Return(
        Outlook outlook,
        Brood brood,
        List<Cohort> cohorts,
        IEnumerable<Occurrence> told,
        TideAliveOf? alive
    )
    {
        var began = cohorts.Select(cohort => cohort.Crossed).OfType<Happened>().ToList();
        if (began.Count == 0)
        {
            return null;
        }

        var returned = told.Where(occurrence => occurrence.Fact is JuvenilesReturned)
            .DistinctBy(occurrence => occurrence.Id)
            .OrderBy(occurrence => occurrence.Happened.Middle)
            .ToList();
        var profile = outlook.Profiles.Of(brood.Id);
        var from = began.Min(crossed => crossed.Middle);
        var (low, high) = (profile.LarvalDaysLow, profile.LarvalDaysHigh);
        var total = 0.0;
        var juveniles = new List<TideRow>();
        foreach (var occurrence in returned)
        {
            total += ((JuvenilesReturned)occurrence.Fact).Number ?? 0;
            juveniles.Add(new(occurrence.Happened.Middle, Interval.Exactly(total)));
        }

        return new TideReturn
        {
            Seen = [.. returned.Select(occurrence => occurrence.Happened.Middle)],
            Settlement = alive?.Settlement,
            Forecast =
                returned.Count > 0 ? null
                : alive is not null ? alive.Settlement.Half
                : high > 1000 ? null
                : new(
                    from + Duration.FromDays(low),
                    from + Duration.FromDays((low + high) / 2),
                    from + Duration.FromDays(high)
                ),
            Juveniles =
                total > 0 ? juveniles
                : returned.Count == 0 && alive is not null ? alive.Juveniles
                : [],
        };
    }

    private static TideEnd End((Happened When, RunEnded How) ended, IReadOnlyList<Occurrence> counted) =>
        new(
            ended.How.End is RunEnd.Home ? TideEndKind.Home : TideEndKind.GivenUp,
            ended.When.Middle,
            LastAlive(counted),
            NoneSeenSince(counted)
        );

    private static Instant? LastAlive(IEnumerable<Occurrence> counted) =>
        counted
            .Where(occurrence => Seen(occurrence) > 0)
            .Select(occurrence => (Instant?)occurrence.Happened.Middle)
            .Max();

    private static Instant? NoneSeenSince(IReadOnlyList<Occurrence> counted)
    {
        var last = LastAlive(counted) ?? Instant.MinValue;
        return counted
            .Where(occurrence => Seen(occurrence) == 0 && occurrence.Happened.Middle > last)
            .Select(occurrence => (Instant?)occurrence.Happened.Middle)
            .Min();
    }

    private static long Seen(Occurrence occurrence) =>
        ((CountMade)occurrence.Fact).Samples.Sum(sample => (long)sample.Seen);
}
