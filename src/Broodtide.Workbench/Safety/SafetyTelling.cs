using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>Tells the safety of one vessel in pieces.</summary>
internal static class SafetyTelling
{
    // A thermometer read to half a degree, and what a room does in two days without anybody looking: practice.
    private const double WarmthSdNow = 0.3;
    private const double WarmthSdAhead = 0.8;

    // Below this salinity the carbonate balance of sea salt says nothing.
    private const double LeastSalinity = 5;

    /// <summary>
    /// Above this salinity (half as salt again as the formulas are published for) nothing is told: it is brine, or a slip of
    /// the pen that the ledger points out.
    /// </summary>
    internal const double MostSalinity = 60;

    /// <summary>Whether a vessel's water is told at all: it stands, and its ledger is known.</summary>
    public static bool IsTold(Vessel vessel, VesselLedger? ledger) =>
        vessel.Standing is not null
        && ledger is { SalinityPpt.Middle: >= LeastSalinity and <= MostSalinity, Litres.Middle: > 0.05 }
        && vessel.Role is not VesselRole.Store;

    /// <summary>The stage whose limits hold in a vessel; none for a culture.</summary>
    public static LifeStage? StageOf(Vessel vessel, SpeciesProfile profile, PopulationEstimate? estimate)
    {
        if (WayHome.Began(vessel) is not null)
        {
            return LifeStage.Settled;
        }

        switch (vessel.Role)
        {
            case VesselRole.AlgaeCulture or VesselRole.Store:
                return null;
            case VesselRole.Nursery:
                return LifeStage.Settled;
            case VesselRole.BroodTank or VesselRole.HatchingBox:
                return LifeStage.Adult;
            default:
                // The most tender that more than a few are in: one in twenty.
                var shares = estimate?.Vessels.FirstOrDefault(part => part.Id == vessel.Id)?.Now.StageShares;
                var youngest =
                    shares?.Select((share, at) => (share, at)).FirstOrDefault(it => it.share >= 0.05)
                    ?? default;
                return youngest.share > 0 ? profile.LifeStageOf(youngest.at + 1) : LifeStage.EarlyZoea;
        }
    }

    /// <summary>The safety of a vessel: nothing in each piece but the last.</summary>
    public static IEnumerable<VesselSafety?> InPieces(
        TwinsKept twins,
        VesselStory story,
        VesselLedger ledger,
        LifeStage? stage,
        SpeciesProfile profile,
        Instant now
    )
    {
        VesselRun? run = null;
        foreach (var piece in twins.InPieces(story))
        {
            run = piece;
            yield return null;
        }

        var limits = stage is { } lives ? profile.LimitsFor(lives) : [];
        var odd = OddNumber.Newest(run!);
        var ahead = new List<LimitAhead>();
        foreach (var limit in limits)
        {
            ahead.Add(Heard(Ahead(limit, limits, run!, ledger, now), limits, odd, run!));
            yield return null;
        }

        Causes? causes = null;
        if (ahead.Any(limit => limit.Level > SafetyLevel.Calm && IsOfTwin(limit)))
        {
            causes = new(run!);
            foreach (var _ in causes.InPieces())
            {
                yield return null;
            }
        }

        yield return new VesselSafety
        {
            Vessel = story.Vessel,
            Now = now,
            Stage = stage,
            Limits =
            [
                .. ahead
                    .Select(limit => limit with { Cause = limit.Cause ?? CauseOf(limit, causes, ledger) })
                    .OrderByDescending(limit => limit.Level)
                    .ThenByDescending(limit => limit.CrossedAhead.Value),
            ],
            Remarks = story.Assumes,
            Run = run,
        };
    }

    private static LimitAhead Ahead(
        LifeLimit limit,
        ImmutableArray<LifeLimit> limits,
        VesselRun run,
        VesselLedger ledger,
        Instant now
    )
    {
        var hasDanger = limits.Any(other =>
            other.IsDanger && other.Quantity == limit.Quantity && other.IsUpper == limit.IsUpper
        );
        if (CrossingOfLimits.QuantityOf(limit.Quantity) is { } quantity)
        {
            var soon = CrossingOfLimits.For(run.Ahead, quantity, limit, 0, CrossingOfLimits.SoonHours);
            var within = CrossingOfLimits.For(run.Ahead, quantity, limit, 0, run.Ahead.Hours);
            return new(
                limit,
                run.Ahead.Quantiles(quantity, 0),
                CrossingOfLimits.At(run.Ahead, quantity, limit, 0),
                soon,
                within,
                CrossingOfLimits.LikelyFrom(run, quantity, limit),
                CrossingOfLimits.Level(limit, hasDanger, soon, within),
                null
            );
        }

        return limit.Quantity is LimitedQuantity.Salinity
            ? OfLedger(limit, hasDanger, ledger, now)
            : OfWarmth(limit, hasDanger, run, now);
    }

    // A reading that the twin cannot explain is not believed by it, and yet it may be right: it is told by itself, to be
    // taken again, and never as an alarm.
    private static LimitAhead Heard(
        LimitAhead limit,
        ImmutableArray<LifeLimit> limits,
        IReadOnlyList<OddNumber> odd,
        VesselRun run
    )
    {
        var quantity = CrossingOfLimits.QuantityOf(limit.Limit.Quantity);
        if (odd.FirstOrDefault(it => it.Quantity == quantity) is not { } number)
        {
            return limit;
        }

        var read = CrossingOfLimits.Of(number.Value(run), limit.Limit);
        if (read.Value <= limit.CrossedNow.Value)
        {
            return limit;
        }

        var hasDanger = limits.Any(other =>
            other.IsDanger && other.Quantity == limit.Limit.Quantity && other.IsUpper == limit.Limit.IsUpper
        );
        var level = CrossingOfLimits.Level(limit.Limit, hasDanger, read, read);
        level = level > SafetyLevel.Warning ? SafetyLevel.Warning : level;
        return level <= limit.Level
            ? limit
            : limit with
            {
                Now = number.Value(run),
                CrossedNow = read,
                CrossedSoon = read.Value > limit.CrossedSoon.Value ? read : limit.CrossedSoon,
                CrossedAhead = read.Value > limit.CrossedAhead.Value ? read : limit.CrossedAhead,
                LikelyFrom = read.Value >= 0.5 ? run.Story.At(number.Hour) : limit.LikelyFrom,
                Level = level,
                Cause = new Remark(
                    "safety-cause-odd-reading",
                    new Argument("when", run.Story.At(number.Hour))
                ),
            };
    }

    private static LimitAhead OfLedger(LifeLimit limit, bool hasDanger, VesselLedger ledger, Instant now)
    {
        var crossed = CrossingOfLimits.Of(ledger.SalinityPpt, limit);
        var (soon, within) = (crossed, crossed);
        Instant? from = crossed.Value >= 0.5 ? now : null;
        foreach (
            var point in ledger.Track.Where(it =>
                it.At > now && it.At <= now + Duration.FromHours(VesselStory.HoursAhead)
            )
        )
        {
            var then = CrossingOfLimits.Of(point.SalinityPpt, limit);
            within = then.Value > within.Value ? then : within;
            if (point.At <= now + Duration.FromHours(CrossingOfLimits.SoonHours))
            {
                soon = then.Value > soon.Value ? then : soon;
            }

            from ??= then.Value >= 0.5 ? point.At : null;
        }

        return new(
            limit,
            ledger.SalinityPpt,
            crossed,
            soon,
            within,
            from,
            CrossingOfLimits.Level(limit, hasDanger, soon, within),
            null
        );
    }

    private static LimitAhead OfWarmth(LifeLimit limit, bool hasDanger, VesselRun run, Instant now)
    {
        var read = run.Story.Scene.Hours[run.Story.NowHour].Temperature.Celsius;
        var crossed = CrossingOfLimits.Of(Interval.FromNormal(read, WarmthSdNow), limit);
        var within = CrossingOfLimits.Of(Interval.FromNormal(read, WarmthSdAhead), limit);
        within = within.Value > crossed.Value ? within : crossed;
        return new(
            limit,
            Interval.FromNormal(read, WarmthSdNow),
            crossed,
            crossed,
            within,
            crossed.Value >= 0.5 ? now : null,
            CrossingOfLimits.Level(limit, hasDanger, crossed, within),
            null
        );
    }

    private static Remark? CauseOf(LimitAhead limit, Causes? causes, VesselLedger ledger) =>
        limit.Level is SafetyLevel.Calm ? null
        : CrossingOfLimits.QuantityOf(limit.Limit.Quantity) is { } quantity
            ? causes?.Of(limit.Limit, quantity)
        : limit.Limit.Quantity is LimitedQuantity.Temperature
            ? new Remark("safety-cause-warmth", new Argument("celsius", limit.Now.Middle))
        : limit.Limit.IsUpper
            ? new Remark(
                "safety-cause-evaporation",
                new Argument("millilitresPerDay", ledger.EvaporationMillilitresPerDay.Middle)
            )
        : new Remark("safety-cause-thin", new Argument("ppt", ledger.SalinityPpt.Middle));

    private static bool IsOfTwin(LimitAhead limit) =>
        CrossingOfLimits.QuantityOf(limit.Limit.Quantity) is not null;
}
