using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench;

/// <summary>
/// All that is computed from a journal for one instant, put together once: every door calls this and nothing beside
/// it. Each part is worked out when first asked for and kept. Where no page may wait for the whole, run
/// <see cref="Steps"/> one by one first; every part is then there at once.
/// </summary>
/// <remarks>Not safe for several threads.</remarks>
public sealed partial class Outlook
{
    private readonly PlanWishes _wishes;
    private readonly Lazy<House> _yesterday;
    private readonly OutlookKept _kept;
    private readonly Lazy<IReadOnlyList<WaterMean>> _means;
    private readonly Piecewise<AccountThen> _thenInPieces;
    private readonly Lazy<IReadOnlyList<Brood>> _underWay;
    private readonly Dictionary<BroodId, Piecewise<BroodForecast>> _forecasts = [];
    private readonly Dictionary<BroodId, BackwardPlan> _plans = [];
    private readonly Lazy<DueList> _due;
    private readonly Lazy<IReadOnlyList<Remark>> _conflicts;
    private readonly Lazy<CultureBench> _cultures;
    private readonly Lazy<LarvalPopulations> _populations;
    private readonly Dictionary<LarvalPopulation, Piecewise<PopulationEstimate>> _estimates = [];

    private readonly Dictionary<VesselId, Piecewise<VesselSafety>?> _safety = [];

    private Outlook(
        House house,
        Instant now,
        DateTimeZone zone,
        PlanWishes wishes,
        OutlookKept kept,
        SensorsSeen? sensors
    )
    {
        Now = now;
        Sensors = sensors;
        _means = new(() => WaterMean.Of(Sensors));
        Zone = zone;
        _wishes = wishes;
        _kept = kept;
        House = house;
        Profiles = new HouseProfiles(House, now);
        Meaning = WaterMeanings.Of(House, wishes.Product);
        _thenInPieces = new(() => _kept.ThenInPieces(House.Account, BroodForecast.KnownUntil(Now, Zone)));
        _yesterday = new(() => _kept.HouseOf(_thenInPieces.Value!.Account));
        _ledgerGroups = new(LedgerGroupsOf);
        _ledgers = new(() => InOrder(group => group.Whole));
        _standing = new(() => InOrder(group => group.Standing));
        _standingOf = new(() => Ledger.Standing(StandingLedgers));
        _waterThen = new(() => new(Ledgers));
        _underWay = new(() => [.. Planning.UnderWay.Of(House, Now, Zone)]);
        _cultures = new(() => new CultureBench(this));
        _due = new(() =>
            DueList.Of(
                House,
                Profiles.Of,
                StandingLedgers,
                Forecasts,
                Now,
                Zone,
                Plans,
                Cultures,
                more:
                [
                    .. Adults.AdultsDue.Of(House, Profiles, ForecastOf, Rests, Now, Zone),
                    .. Losses.LossesDue.Of(this),
                    .. Review.ReviewDue.Of(this),
                    .. DueFromBadDays.Of(this),
                    .. DueFromSensors.Of(Sensors, Now),
                ],
                means: WaterMean.Of(Sensors)
            )
        );
        _populations = new(() =>
            new(
                House,
                brood => brood is { } known ? Profiles.Of(known) : Profiles.Of((string?)null),
                () => WaterThen,
                Now
            )
        );
        _conflicts = new(() =>
            [
                .. House.Conflicts(),
                .. Profiles.Conflicts(),
                .. Populations.SelectMany(population => population.Conflicts),
            ]
        );
    }

    /// <summary>The instant it is told for.</summary>
    public Instant Now { get; }

    /// <summary>The keeper's zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>What was told of the sensors of the house; none where nothing was.</summary>
    public SensorsSeen? Sensors { get; }

    /// <summary>Who, where, which water.</summary>
    public House House { get; }

    /// <summary>Whose numbers apply to what.</summary>
    public HouseProfiles Profiles { get; }

    /// <summary>What numbers of the journal mean as salinity.</summary>
    public WaterMeaning Meaning { get; }

    /// <summary>The broods for which there is still something to do, first mentioned first.</summary>
    public IReadOnlyList<Brood> BroodsUnderWay => _underWay.Value;

    /// <summary>The forecasts of the broods under way that are still carried or whose eggs lie somewhere.</summary>
    public IReadOnlyList<BroodForecast> Forecasts =>
        [
            .. BroodsUnderWay
                .Where(brood => brood.FirstLarvae is null)
                .Select(brood => ForecastOf(brood.Id))
                .OfType<BroodForecast>(),
        ];

    /// <summary>The plans of the broods under way.</summary>
    public IReadOnlyList<BackwardPlan> Plans => [.. BroodsUnderWay.Select(brood => PlanOf(brood.Id))];

    /// <summary>The cultures: vessels whose culture was described and whose water stands, first mentioned first.</summary>
    public IReadOnlyList<CultureState> Cultures => _cultures.Value.All;

    /// <summary>What is due.</summary>
    public DueList Due => _due.Value;

    /// <summary>Whether <see cref="Due"/> and all it rests on are worked out already.</summary>
    public bool KnowsDue => _due.IsValueCreated;

    /// <summary>Everything that does not agree.</summary>
    public IReadOnlyList<Remark> Conflicts => _conflicts.Value;

    /// <summary>The larvae of the house, those that are estimated together as one, first crossed first.</summary>
    public IReadOnlyList<LarvalPopulation> Populations => _populations.Value.All;

    /// <summary>The outlook of an account.</summary>
    /// <param name="account">What is known. Do not add to it while the outlook is used; make a new one then.</param>
    /// <param name="now">The instant to tell it for.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <param name="wishes">What the keeper wishes of plans.</param>
    /// <param name="sensors">What is told of the sensors of the house; none for the journal alone.</param>
    /// <param name="kept">
    /// What <see cref="TakeCheckpoint"/> gave at an earlier opening; what of it does not fit is passed over. It changes nothing but the
    /// time.
    /// </param>
    public static Outlook Of(
        Account account,
        Instant now,
        DateTimeZone zone,
        PlanWishes? wishes = null,
        SensorsSeen? sensors = null,
        IReadOnlyList<Checkpoint>? kept = null
    )
    {
        var outlook = new Outlook(
            new House(account),
            now,
            zone,
            wishes ?? new PlanWishes(),
            new OutlookKept(),
            sensors
        );
        if (outlook.MayKeep)
        {
            outlook._kept.Ledgers.Offer(kept ?? []);
        }

        return outlook;
    }

    /// <summary>
    /// The outlook of the same account at a later instant or with more in it: the same as made anew, but what did not
    /// change is kept. The one before is left as it is.
    /// </summary>
    /// <param name="now">The instant to tell it for.</param>
    /// <param name="house">The house as it is told now, if somebody has it already.</param>
    /// <param name="sensors">What is told of its sensors now; what was told before if left out.</param>
    public Outlook Renewed(Instant now, House? house = null, SensorsSeen? sensors = null) =>
        new(
            house is not null && ReferenceEquals(house.Account, House.Account) ? house : House.Renewed(),
            now,
            Zone,
            _wishes,
            _kept,
            sensors ?? Sensors
        );

    /// <summary>The forecast of any brood; none where neither eggs nor larvae were ever seen.</summary>
    public BroodForecast? ForecastOf(BroodId brood) => Forecasting(brood).Value;

    /// <summary>The plan of any brood.</summary>
    public BackwardPlan PlanOf(BroodId brood)
    {
        if (!_plans.TryGetValue(brood, out var plan))
        {
            var view = House.Brood(brood);
            _plans[brood] = plan = BackwardPlan.Of(
                House,
                view,
                Profiles.Of(brood),
                view.FirstLarvae is null ? ForecastOf(brood) : null,
                Now,
                Zone,
                _wishes,
                Cultures,
                vessel => LedgerOf(vessel)?.SalinityPpt.Middle
            );
        }

        return plan;
    }

    /// <summary>The best times to gather the larvae of a brood, or why there are none.</summary>
    /// <param name="brood">The brood.</param>
    /// <param name="hours">The hours at which nobody can; asleep from 23 to 7 if left out.</param>
    /// <param name="most">At most so many gatherings.</param>
    public CollectionTimes.Answered CollectionTimesOf(
        BroodId brood,
        KeeperHours? hours = null,
        int most = CollectionTimes.UsualMost
    ) => CollectionTimesInPieces(brood, hours, most).Last()!.Value;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="CollectionTimesOf"/>
    public IEnumerable<CollectionTimes.Answered?> CollectionTimesInPieces(
        BroodId brood,
        KeeperHours? hours = null,
        int most = CollectionTimes.UsualMost
    )
    {
        var view = House.Brood(brood);
        var profile = Profiles.Of(brood);
        return CollectionTimes.InPieces(
            view,
            House.Broods.Where(other => other.Id != brood && Profiles.Of(other.Id).Code == profile.Code),
            profile,
            view.FirstLarvae is null ? ForecastOf(brood) : null,
            new(hours ?? KeeperHours.Usual, PlanHatchNights.AwayUntil(House), most),
            Now,
            Zone
        );
    }

    /// <summary>The culture in a vessel; none where none was described or its water is gone.</summary>
    public CultureState? CultureOf(VesselId vessel) => _cultures.Value.Of(vessel);

    /// <summary>The larvae of a brood, with those that share their water; none before any crossed.</summary>
    public LarvalPopulation? PopulationOf(BroodId brood) => _populations.Value.Of(brood);

    /// <summary>The larvae that live or lived last in a vessel; none where none ever did.</summary>
    public LarvalPopulation? PopulationIn(VesselId vessel) => _populations.Value.In(vessel);

    /// <summary>How many of a population are alive, in which stage, and when they settle.</summary>
    public PopulationEstimate EstimateOf(LarvalPopulation population) => Estimating(population).Value!;

    /// <summary>The same, if it is worked out already: for who may not wait.</summary>
    public PopulationEstimate? EstimateAtHand(LarvalPopulation population) =>
        Estimating(population) is { IsDone: true } done ? done.Value : null;

    /// <summary>
    /// The estimate that the larvae of a brood are part of, if it is worked out already; nothing is worked out for it.
    /// </summary>
    public PopulationEstimate? EstimateAtHand(BroodId brood) =>
        _populations.IsValueCreated && PopulationOf(brood) is { } population
            ? EstimateAtHand(population)
            : null;

    /// <summary>The vessels whose water is told, in the order of the house: sea water that stands and that somebody minds.</summary>
    public IReadOnlyList<VesselId> WatersTold =>
        [
            .. House
                .Vessels.Where(vessel => SafetyTelling.IsTold(vessel, LedgerOf(vessel.Id)))
                .Select(vessel => vessel.Id),
        ];

    /// <summary>
    /// What the water of a vessel does to those that live in it, now and in two days ahead; none where it is empty, fresh
    /// or kept as a store.
    /// </summary>
    public VesselSafety? SafetyOf(VesselId vessel) => Minding(vessel)?.Value;

    /// <summary>The same, if it is worked out already: for who may not wait.</summary>
    public VesselSafety? SafetyAtHand(VesselId vessel) =>
        _safety.GetValueOrDefault(vessel) is { IsDone: true } done ? done.Value : null;

    /// <summary>The pieces of one vessel's safety, for who needs it before all else.</summary>
    public IEnumerable<Action> SafetySteps(VesselId vessel)
    {
        if (Minding(vessel) is not { } work)
        {
            yield break;
        }

        foreach (var step in InPieces(work))
        {
            yield return step;
        }
    }

    /// <summary>Hours that twins of vessels were run so far, over all outlooks that this one went on from.</summary>
    public int TwinHoursRun => _kept.Twins.HoursRun;

    /// <summary>How many estimates are worked out already.</summary>
    public int EstimatesAtHand => _estimates.Values.Count(work => work.IsDone);

    /// <summary>The pieces of one estimate, for who needs it before all else.</summary>
    public IEnumerable<Action> StepsOf(LarvalPopulation population) => InPieces(Estimating(population));

    /// <summary>
    /// The pieces in which everything under way is worked out. Each may be run alone, with a pause before the next;
    /// what was worked out already costs nothing. Larvae of runs that are over are estimated when asked for, and what does not agree is looked for then.
    /// </summary>
    public IEnumerable<Action> Steps()
    {
        foreach (var step in StandingSteps())
        {
            yield return step;
        }

        foreach (var _ in House.Broods)
        {
            yield return static () => { };
        }

        yield return () => _ = BroodsUnderWay;

        yield return () => _ = _cultures.Value;
        foreach (var culture in _cultures.Value.Work)
        {
            foreach (var step in InPieces(culture))
            {
                yield return step;
            }
        }

        foreach (var brood in BroodsUnderWay)
        {
            if (brood.FirstLarvae is null)
            {
                foreach (var step in InPieces(Forecasting(brood.Id)))
                {
                    yield return step;
                }

                if (ForecastOf(brood.Id) is { } forecast)
                {
                    yield return () => _ = forecast.Isolation;
                    foreach (var step in InPieces(forecast.LookInPieces))
                    {
                        yield return step;
                    }
                }
            }

            yield return () => PlanOf(brood.Id);
        }

        yield return () => _ = Due;
        foreach (var step in LedgerSteps())
        {
            yield return step;
        }

        yield return () => _ = _populations.Value;
        foreach (var step in InPieces(_thenInPieces))
        {
            yield return step;
        }

        yield return () => _ = _yesterday.Value;
        foreach (var forecast in Forecasts)
        {
            foreach (var step in InPieces(forecast.MoveInPieces))
            {
                yield return step;
            }
        }

        foreach (var population in _populations.Value.With(IsUnderWay))
        {
            foreach (var step in StepsOf(population))
            {
                yield return step;
            }
        }

        foreach (var vessel in WatersTold)
        {
            // What grows in a culture is told when somebody asks.
            if (House.Vessel(vessel).Role is not Domain.Vessels.VesselRole.AlgaeCulture)
            {
                foreach (var step in SafetySteps(vessel))
                {
                    yield return step;
                }
            }
        }
    }

    private Piecewise<VesselSafety>? Minding(VesselId id)
    {
        if (_safety.TryGetValue(id, out var work))
        {
            return work;
        }

        var vessel = House.Vessel(id);
        if (LedgerOf(id) is not { } ledger || !SafetyTelling.IsTold(vessel, ledger))
        {
            return _safety[id] = null;
        }

        return _safety[id] = new(() => SafetyInPieces(vessel, ledger));
    }

    private IEnumerable<VesselSafety?> SafetyInPieces(Domain.Vessels.Vessel vessel, VesselLedger ledger)
    {
        var profile = Profiles.Of(vessel);
        VesselStory? story = null;
        foreach (var told in StoryTelling.InPieces(House, vessel, ledger, profile, Zone, Now, _means.Value))
        {
            story = told;
            yield return null;
        }

        var estimate = PopulationIn(vessel.Id) is { } population ? EstimateOf(population) : null;
        yield return null;
        foreach (
            var told in SafetyTelling.InPieces(
                _kept.Twins,
                story!,
                ledger,
                SafetyTelling.StageOf(vessel, profile, estimate),
                profile,
                Now
            )
        )
        {
            yield return told;
        }
    }

    private bool IsUnderWay(Cohort cohort) =>
        cohort.Brood is { } brood
            ? BroodsUnderWay.Any(other => other.Id == brood)
            : Planning.UnderWay.VesselsOf(House, cohort, Now).Any();

    private static IEnumerable<Action> InPieces<T>(Piecewise<T> work)
        where T : class
    {
        while (!work.IsDone)
        {
            var before = work.Pieces;
            yield return work.Advance;
            if (work.Pieces == before)
            {
                // Whoever took the step and did not run it still comes to an end.
                work.Advance();
            }
        }
    }

    private Piecewise<PopulationEstimate> Estimating(LarvalPopulation population)
    {
        if (!_estimates.TryGetValue(population, out var work))
        {
            _estimates[population] = work = new(() => population.EstimateInPieces());
        }

        return work;
    }

    private Piecewise<BroodForecast> Forecasting(BroodId brood)
    {
        if (!_forecasts.TryGetValue(brood, out var work))
        {
            _forecasts[brood] = work = new(() =>
                BroodForecast.InPieces(
                    House,
                    House.Brood(brood),
                    Profiles.Of(brood),
                    Now,
                    Zone,
                    () => _yesterday.Value
                )
            );
        }

        return work;
    }
}
