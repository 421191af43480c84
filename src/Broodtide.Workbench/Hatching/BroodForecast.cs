using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Science.Development;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>
/// When one brood will hatch, in the keeper's nights: what the journal tells of it, through the profile's belief
/// about its eggs. What costs further forecasts (<see cref="Moved"/>, <see cref="WorthOfALook"/>) is worked out when
/// first asked for.
/// </summary>
public sealed class BroodForecast
{
    // Nights outside these shares of the probability are not listed.
    private const double FirstShare = 0.005;
    private const double LastShare = 0.995;
    private const int MostNights = 120;

    // Later than nine broods in ten.
    private const double LateShare = 0.9;

    private readonly DayAxis _axis;
    private readonly Lazy<IReadOnlyList<HatchNight>> _nights;
    private readonly Lazy<IsolationPlan> _isolation;
    private readonly Piecewise<HatchMove> _moved;
    private readonly Piecewise<LookWorth> _look;

    private BroodForecast(
        Brood brood,
        BroodKnown known,
        SpeciesProfile profile,
        EmbryoPrior prior,
        HatchPosterior posterior,
        Func<BroodEvidence?> yesterday
    )
    {
        Brood = brood.Id;
        Now = known.Now;
        Zone = known.Zone;
        SeenHatching = brood.FirstLarvae;
        _axis = known.Axis;
        Posterior = posterior;
        Warmth = new(
            known.WarmthSource,
            known.Evidence.Assumption.Mean,
            known.Evidence.Assumption.Sd,
            known.Evidence.Temperatures.Count,
            Posterior.Temperature
        );
        Since = DayAxis.Noon(Now.InZone(Zone).Date.PlusDays(-1), Zone);
        Remarks =
        [
            .. known.Remarks,
            .. Doubts(),
            .. BorrowedNumbers.Of(profile, BorrowedNumbers.OfEggs),
            .. TestedTemperatures.OfEggs(
                known
                    .Evidence.Temperatures.Select(reading => reading.Temperature.Celsius)
                    .DefaultIfEmpty(known.Evidence.Assumption.Mean.Celsius)
                    .Min(),
                prior.ReferenceTemperature
            ),
        ];
        _nights = new(ListNights);
        _isolation = new(() => IsolationEvenings.Of(Posterior, known.Evidence.Facts, _axis, Now, Zone));
        _moved = new(() => ForecastComparing.Moved(prior, yesterday(), known, Since));
        _look = new(() => ForecastComparing.WorthOfALook(prior, known, Posterior));
    }

    /// <summary>The brood.</summary>
    public BroodId Brood { get; }

    /// <summary>The instant it was made for.</summary>
    public Instant Now { get; }

    /// <summary>The zone whose nights it speaks of.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The distribution, on its own axis of days.</summary>
    public HatchPosterior Posterior { get; }

    /// <summary>The nights that hold 99 % of the probability, one after the other without gaps.</summary>
    public IReadOnlyList<HatchNight> Nights => _nights.Value;

    /// <summary>As likely before as after.</summary>
    public Instant Median => _axis.InstantOf(Posterior.Median);

    /// <summary>The middle half.</summary>
    public HatchWindow Window50 => Window(Posterior.Window50);

    /// <summary>The middle nine tenths.</summary>
    public HatchWindow Window90 => Window(Posterior.Window90);

    /// <summary>The 5, 50 and 95 % points of the spawning.</summary>
    public (Instant Early, Instant Middle, Instant Late) Spawning =>
        (
            _axis.InstantOf(Posterior.SpawningDays.Low),
            _axis.InstantOf(Posterior.SpawningDays.Middle),
            _axis.InstantOf(Posterior.SpawningDays.High)
        );

    /// <summary>Chance that the first larvae are out already, looked for or not.</summary>
    public Probability OutAlready => Posterior.ProbabilityBy(_axis.DayOf(Now));

    /// <summary>When larvae were first seen; then this is no forecast any more.</summary>
    public Happened? SeenHatching { get; }

    /// <summary>Both risks evening by evening, and what is recommended.</summary>
    public IsolationPlan Isolation => _isolation.Value;

    /// <summary>The temperatures it rests on.</summary>
    public WarmthUsed Warmth { get; }

    /// <summary>Yesterday's noon, with which <see cref="Moved"/> compares.</summary>
    public Instant Since { get; }

    /// <summary>What moved since yesterday's noon; none if the brood was not known then. Costs further forecasts.</summary>
    public HatchMove? Moved => _moved.Value;

    /// <summary>What a look for eyed eggs would tell now; none once larvae or a drop were seen. Costs two forecasts.</summary>
    public LookWorth? WorthOfALook => _look.Value;

    /// <summary>What does not agree, what could not be used, what makes it rough.</summary>
    public IReadOnlyList<Remark> Remarks { get; }

    /// <summary>
    /// The instant by which the larvae are out with a probability, if none are out now: what a plan is made by. Never
    /// before now.
    /// </summary>
    /// <param name="probability">0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or outside 0 to 1.</exception>
    public Instant StillToCome(double probability)
    {
        Finite.Within(probability, 0, 1);
        var by = OutAlready.Value;
        return Instant.Max(
            Now,
            _axis.InstantOf(Posterior.Quantile(Math.Min(1, by + ((1 - by) * probability))))
        );
    }

    /// <summary>Chance that the first larvae are out by an instant, looked for or not.</summary>
    internal Probability ChanceBy(Instant instant) => Posterior.ProbabilityBy(_axis.DayOf(instant));

    /// <summary>The forecast of a brood.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="brood">The brood.</param>
    /// <param name="profile">The species, the keeper's choices included.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <param name="asKnownYesterday">
    /// The house as it was known at yesterday's noon in the zone; made from the account if left out.
    /// </param>
    /// <returns>The forecast; none where neither eggs nor larvae were ever seen.</returns>
    public static BroodForecast? Of(
        House house,
        Brood brood,
        SpeciesProfile profile,
        Instant now,
        DateTimeZone zone,
        Func<House>? asKnownYesterday = null
    ) => InPieces(house, brood, profile, now, zone, asKnownYesterday).LastOrDefault();

    /// <summary>The same forecast in small pieces: nothing until the last, none at all where there is no forecast.</summary>
    internal static IEnumerable<BroodForecast?> InPieces(
        House house,
        Brood brood,
        SpeciesProfile profile,
        Instant now,
        DateTimeZone zone,
        Func<House>? asKnownYesterday
    )
    {
        if (BroodKnown.Of(house, brood, now, zone) is not { } known)
        {
            yield break;
        }

        var prior = EmbryoPriors.Of(profile);
        foreach (var piece in HatchForecast.InPieces(prior, known.Evidence))
        {
            yield return piece is null
                ? null
                : new BroodForecast(
                    brood,
                    known,
                    profile,
                    prior,
                    piece,
                    () =>
                    {
                        var then = asKnownYesterday is null ? AsKnown(house, now, zone) : asKnownYesterday();
                        return BroodKnown.Of(then, then.Brood(brood.Id), now, zone, known.Axis)?.Evidence;
                    }
                );
        }
    }

    /// <summary>What is still to be worked out for <see cref="WorthOfALook"/>, piece by piece.</summary>
    internal Piecewise<LookWorth> LookInPieces => _look;

    /// <summary>What is still to be worked out for <see cref="Moved"/>, piece by piece.</summary>
    internal Piecewise<HatchMove> MoveInPieces => _moved;

    /// <summary>The house as it was known at the noon before an instant's day.</summary>
    internal static House AsKnown(House house, Instant now, DateTimeZone zone) =>
        new(Account.Of(house.Account.Entries, KnownUntil(now, zone)));

    /// <summary>The noon before an instant's day.</summary>
    internal static Instant KnownUntil(Instant now, DateTimeZone zone) =>
        DayAxis.Noon(now.InZone(zone).Date.PlusDays(-1), zone);

    private HatchWindow Window(DayWindow days) =>
        new(_axis.InstantOf(days.FromDay), _axis.InstantOf(days.ToDay));

    private IEnumerable<Remark> Doubts()
    {
        if (Posterior.IsContradictory)
        {
            yield return new Remark(
                "hatch-looks-contradict",
                new Argument("chanceOfWrongLook", Posterior.WrongLook.Value)
            );
        }

        if (Posterior.IsRough)
        {
            yield return new Remark("hatch-forecast-rough");
        }

        if (SeenHatching is null && OutAlready.Value > LateShare)
        {
            yield return new Remark(
                "hatch-later-than-nine-in-ten",
                new Argument("outAlready", OutAlready.Value)
            );
        }
    }

    private List<HatchNight> ListNights()
    {
        var evening = DayAxis.EveningOf(_axis.InstantOf(Posterior.Quantile(FirstShare)), Zone);
        var last = DayAxis.EveningOf(_axis.InstantOf(Posterior.Quantile(LastShare)), Zone);
        var nights = new List<HatchNight>();
        for (; evening <= last && nights.Count < MostNights; evening = evening.PlusDays(1))
        {
            var from = DayAxis.Noon(evening, Zone);
            var to = DayAxis.Noon(evening.PlusDays(1), Zone);
            nights.Add(
                new(evening, from, to, Posterior.ProbabilityBetween(_axis.DayOf(from), _axis.DayOf(to)))
            );
        }

        return nights;
    }
}
