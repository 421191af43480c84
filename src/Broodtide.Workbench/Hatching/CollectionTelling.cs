using Broodtide.Domain.Broods;
using Broodtide.Science.Development.Collecting;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Hatching;

/// <summary>From the journal's gatherings and the forecast to the best times.</summary>
internal static class CollectionTelling
{
    private const double SlotHours = 0.5;

    // Up to this hour the night that began yesterday still counts as the one at hand.
    private const int SmallHours = 6;

    // Below this chance a keeper is told that nothing is due yet.
    private const double HardlyDue = 0.05;

    private static readonly Duration Slot = Duration.FromHours(SlotHours);

    /// <summary>Nothing in each piece but the last.</summary>
    public static IEnumerable<CollectionTimes?> InPieces(
        Brood brood,
        IEnumerable<Brood> others,
        SpeciesProfile profile,
        BroodForecast? forecast,
        CollectingKeeper keeper,
        Instant now,
        DateTimeZone zone
    )
    {
        var evening = EveningAtHand(now, zone);
        var noon = DayAxis.Noon(evening, zone);
        var until = DayAxis.Noon(evening.PlusDays(1), zone);
        var start = NextHalfHour(now, zone);
        var moments = Enumerable
            .Range(0, Math.Max(2, (int)((until - start).TotalHours / SlotHours) + 1))
            .Select(i => start + (i * Slot))
            .ToArray();
        var known = GatheringNights.Of([brood, .. others], now, zone);
        HatchingRhythm? rhythm = null;
        foreach (var piece in HatchingRhythm.InPieces(RhythmOfSpecies.Of(profile), known.Nights))
        {
            rhythm = piece;
            yield return null;
        }

        var nights = Nights(brood, profile, noon, now, zone);
        CollectingScene? scene = null;
        foreach (
            var piece in CollectingAhead.InPieces(
                rhythm!,
                nights,
                (start - noon).TotalHours,
                SlotHours,
                [.. moments.Select(moment => Able(keeper, moment, zone))],
                worthOfThoseLeft: 1
            )
        )
        {
            scene = piece;
            yield return null;
        }

        CollectionPlan? plan = null;
        var cost = Math.Clamp(keeper.WorthShare, 0, 1) * nights.LarvaeOfNight.Middle;
        foreach (var piece in CollectionPlanning.InPieces(scene!, keeper.Most, cost))
        {
            plan = piece;
            yield return null;
        }

        yield return Told(brood, evening, moments, known, rhythm!, scene!, plan!, forecast, keeper, now);
    }

    private static CollectionTimes Told(
        Brood brood,
        LocalDate evening,
        Instant[] moments,
        GatheringNights known,
        HatchingRhythm rhythm,
        CollectingScene scene,
        CollectionPlan plan,
        BroodForecast? forecast,
        CollectingKeeper keeper,
        Instant now
    )
    {
        var chance =
            brood.FirstLarvae is null && forecast is { } ahead
                ? ahead.ChanceBy(moments[^1])
                : Probability.FromFraction(1);
        return new CollectionTimes
        {
            Brood = brood.Id,
            Now = now,
            Evening = evening,
            Until = moments[^1],
            Chance = chance,
            Gatherings =
            [
                .. plan.Gatherings.Select(gathering => new TimedGathering(
                    moments[gathering.Moment],
                    gathering.Larvae,
                    gathering.LostIfSkipped
                )),
            ],
            Larvae = plan.Larvae,
            Share = plan.Share,
            Left = plan.Left,
            PeakHoursAfterNoon = rhythm.PeakHoursAfterNoon,
            LostPerHour = Lost(rhythm.LossPerHour),
            NightsLearnedFrom = known.Telling,
            Remarks = [.. Remarks(known, rhythm, chance, scene, keeper, moments[0])],
        };
    }

    /// <summary>The day on whose evening the night at hand begins: in the small hours the one that runs.</summary>
    private static LocalDate EveningAtHand(Instant now, DateTimeZone zone)
    {
        var local = now.InZone(zone).LocalDateTime;
        return local.Hour < SmallHours ? local.Date.PlusDays(-1) : local.Date;
    }

    private static Instant NextHalfHour(Instant now, DateTimeZone zone)
    {
        var local = now.InZone(zone).LocalDateTime;
        var past = Duration.FromTicks(local.TickOfDay % Slot.BclCompatibleTicks);
        return past == Duration.Zero ? now : now + Slot - past;
    }

    private static bool Able(CollectingKeeper keeper, Instant moment, DateTimeZone zone) =>
        (keeper.AwayUntil is not { } away || moment >= away)
        && keeper.Hours.Able(moment.InZone(zone).TimeOfDay);

    private static CollectingNights Nights(
        Brood brood,
        SpeciesProfile profile,
        Instant noon,
        Instant now,
        DateTimeZone zone
    )
    {
        var share = RhythmOfSpecies.ShareOfNight(profile);
        var evening = noon.InZone(zone).Date;
        var first = brood.FirstLarvae is { } seen
            ? Math.Min(0, Period.DaysBetween(evening, DayAxis.EveningOf(seen.Latest, zone)))
            : 0;
        var done = brood.Gatherings.Where(gathering => gathering.When.Latest <= now).ToArray();
        var earlier = done.Where(gathering => gathering.When.Latest < noon);
        return new()
        {
            LarvaeOfNight = Larvae(
                earlier.Sum(gathering => (double)(gathering.Made.Number ?? 0)),
                -first,
                share,
                RhythmOfSpecies.LarvaePerBrood(profile)
            ),
            ShareOfNight = share,
            FirstNight = first,
            GatheredTonight = GatheringNights.Tonight(done, noon),
            EmptiedHours =
                done.Length > 0 ? (done.Max(gathering => gathering.When.Latest) - noon).TotalHours : null,
        };
    }

    // Each night takes a share s of what is left: after n nights the larvae gathered stand to those of the next as
    // 1 - (1 - s)^n to s (1 - s)^n. Without numbers the brood's larvae by the profile take their place.
    private static Interval Larvae(double gathered, int nights, Interval share, Interval brood)
    {
        double Next(double s) => s * Math.Pow(1 - s, nights);
        double Of(double s, double whole) =>
            nights > 0 && gathered > 0 ? gathered * Next(s) / (1 - Math.Pow(1 - s, nights)) : whole * Next(s);
        double[] points =
        [
            Of(share.High, brood.Low),
            Of(share.Middle, brood.Middle),
            Of(share.Low, brood.High),
        ];
        if (nights == 0)
        {
            points = [Of(share.Low, brood.Low), Of(share.Middle, brood.Middle), Of(share.High, brood.High)];
        }

        Array.Sort(points);
        return Interval.FromPoints(points[0], points[1], points[2]).AtLeast(0.1);
    }

    private static Interval Lost(Interval hazard) =>
        Interval.FromPoints(
            1 - Math.Exp(-hazard.Low),
            1 - Math.Exp(-hazard.Middle),
            1 - Math.Exp(-hazard.High)
        );

    private static IEnumerable<Remark> Remarks(
        GatheringNights known,
        HatchingRhythm rhythm,
        Probability chance,
        CollectingScene scene,
        CollectingKeeper keeper,
        Instant start
    )
    {
        if (chance.Value < HardlyDue)
        {
            yield return new Remark("collect-hardly-due", new Argument("chance", chance.Value));
        }

        yield return known.Telling > 0
            ? new Remark("collect-hours-learned", new Argument("nights", known.Telling))
            : new Remark("collect-hours-assumed");
        yield return new Remark("collect-loss-assumed");
        if (known.Unnumbered > 0)
        {
            yield return new Remark("collect-numbers-missing", new Argument("count", known.Unnumbered));
        }

        if (rhythm.IsRough)
        {
            yield return new Remark("collect-rough");
        }

        if (keeper.AwayUntil is { } away && away > start)
        {
            yield return away == Instant.MaxValue
                ? new Remark("collect-away-open")
                : new Remark("collect-away", new Argument("until", away));
        }

        if (!scene.MayGather.Any(may => may))
        {
            yield return new Remark("collect-nobody-can");
        }
    }
}
