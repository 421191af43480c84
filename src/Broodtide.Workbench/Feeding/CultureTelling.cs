using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Feeding;

/// <summary>Works out how one culture stands.</summary>
internal sealed class CultureTelling(CultureLog log, VesselLedger? ledger, Instant now)
{
    // A count is trusted so long; the first ones tell most. Practice, no source.
    private static readonly Duration CountEvery = Duration.FromDays(3);
    private static readonly Duration CountEarly = Duration.FromDays(2);
    private const int Few = 3;

    private const double AheadDays = 14;
    private const double LookAheadDays = 60;

    // Half of a culture at most in one day, however fast it grows. Practice, no source.
    private const double MostShare = 0.5;

    /// <summary>The culture in pieces: nothing in each but the last.</summary>
    public IEnumerable<CultureState?> InPieces()
    {
        var day = Math.Max(
            log.Happenings.Count > 0 ? log.Happenings[^1].Day : 0,
            Math.Max(0, (now - log.Started).TotalDays)
        );
        var belief = CultureGrowth.After(log.Prior, log.Happenings, day, Math.Max(0.5, day / 60));
        yield return null;
        var wanted = CultureKnown.Ready(log.Described.Alga);
        var ready = ReadyOf(belief, wanted);
        yield return null;
        var warnings = CultureWarnings.Of(log, belief, now);
        var state = new CultureState
        {
            Vessel = log.Vessel,
            Described = log.Described,
            Started = log.Started,
            AgeDays = day,
            Water = ledger is null ? null : Volume.FromLitres(Math.Max(0, ledger.Litres.Middle)),
            Density = belief.Density,
            RatePerDay = belief.RatePerDay,
            Capacity = belief.Capacity,
            Counts = [.. log.Counts.Select(count => new CultureCount(count.At, count.Density))],
            Fits = belief.Counts,
            Track =
            [
                .. belief.Track.Select(point => new CulturePointAt(At(point.Day), point.Density)),
                .. Enumerable
                    .Range(1, 7)
                    .Select(step => step * AheadDays / 7)
                    .Select(days => new CulturePointAt(now + Days(days), belief.Ahead(days).Density)),
            ],
            Ready = ready,
            NextCount = NextCount(),
            Warnings = warnings,
            Remarks = [.. RemarksOf()],
        };
        yield return null;
        yield return state with
        {
            Harvest = HarvestOf(belief, wanted, warnings),
        };
    }

    private Instant At(double day) => log.Started + Days(day);

    private static Duration Days(double days) => Duration.FromSeconds(Math.Round(days * 86400));

    private CultureReady ReadyOf(CultureGrowthBelief belief, double wanted)
    {
        var days = belief.DaysToReach(wanted, LookAheadDays);
        Instant? When(double? ahead) => ahead is { } so ? now + Days(so) : null;
        return new(
            wanted,
            belief.AtLeast(wanted).Value >= 0.5,
            When(days.Earliest),
            When(days.Middle),
            When(days.Latest)
        );
    }

    private CultureHarvest? HarvestOf(
        CultureGrowthBelief belief,
        double wanted,
        IReadOnlyList<Remark> warnings
    )
    {
        if (
            log.Described.Alga is CultureKind.FilmDiatoms
            || ledger is null
            || log.Counts.Count == 0
            || warnings.Any(warning => CultureWarnings.ForbidsHarvest(warning.Code))
            || belief.AtLeast(wanted).Value < 0.5
        )
        {
            return null;
        }

        var lasting = belief.LastingShare(1);
        var share = Math.Min(lasting.Low, MostShare);
        var taken = log.Taken.Where(taken => now - taken.At < Duration.FromHours(20)).Sum(t => t.Litres);
        var today = Math.Max(0, (share * Math.Max(0, ledger.Litres.Middle)) - taken);
        return new(lasting, Volume.FromLitres(today), today * 1000 * belief.Density.Middle);
    }

    private Instant NextCount()
    {
        var last = log.Counts.Count > 0 ? log.Counts[^1].At : log.Started;
        return last
            + (
                log.Described.Alga is CultureKind.FilmDiatoms ? Duration.FromDays(5)
                : log.Counts.Count < Few ? CountEarly
                : CountEvery
            );
    }

    private IEnumerable<Remark> RemarksOf()
    {
        if (log.Counts.Count == 0)
        {
            yield return new Remark("culture-never-counted");
        }
        else if (log.Counts.Count < Few)
        {
            yield return new Remark(
                "culture-growth-mostly-recalled",
                new Argument("counts", log.Counts.Count)
            );
        }

        if (ledger is null && log.Described.Alga is not CultureKind.FilmDiatoms)
        {
            yield return new Remark("culture-volume-not-known");
        }

        if (log.Described.Alga is CultureKind.MixedGreenWater or CultureKind.Chlorella or CultureKind.Other)
        {
            yield return new Remark("culture-kind-not-known");
        }
    }
}
