using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Losses;

namespace Broodtide.Workbench.Review;

/// <summary>What to do otherwise: three things at most, those with readings first, no size of an effect.</summary>
internal static class ReviewChanges
{
    private const int Most = 3;

    public static IReadOnlyList<DoDifferently> Of(ReviewSpan span, ReviewCauses causes)
    {
        var all = new List<DoDifferently>();
        foreach (var finding in causes.Findings.Where(it => it.Verdict is CauseVerdict.SpokenFor))
        {
            if (ChangeFor(finding) is not { } change)
            {
                continue;
            }

            var runs = 1 + OtherRuns(span, finding.Cause);
            all.Add(
                finding.Observations >= 2 && finding.Cause is not LossCause.FoodMissing
                    ? new(change, runs > 1 ? AdviceBasis.Pooled : AdviceBasis.Measured, finding.For[0], runs)
                    : new(
                        change,
                        runs > 1 ? AdviceBasis.Pooled : AdviceBasis.Practice,
                        finding.For[0],
                        runs > 1 ? runs : 0
                    )
            );
        }

        // What was never known comes after what was read.
        foreach (var finding in causes.Findings.Where(it => it.Verdict is CauseVerdict.CannotBeTold))
        {
            if (ReadFor(finding) is { } change)
            {
                all.Add(new(change, AdviceBasis.Practice, finding.Lacks[0], 0));
            }
        }

        if (!causes.KnowsWhen && causes.Phases.Any(phase => phase is LossPhase.Crossing))
        {
            all.Add(
                new(new Remark("change-count-every-week"), AdviceBasis.Practice, new Remark("lack-when"), 0)
            );
        }

        return
        [
            .. all.DistinctBy(it => it.Change.Code)
                .OrderBy(it => it.Basis is AdviceBasis.Practice)
                .ThenBy(it => !causes.KnowsWhen && it.Change.Code is not "change-count-every-week")
                .Take(Most),
        ];
    }

    private static Remark? ChangeFor(CauseFinding finding) =>
        finding.Cause switch
        {
            LossCause.FreshWaterDelay => new("change-sea-water-ready-before"),
            LossCause.BrackishDelay => new("change-pour-by-the-clock"),
            LossCause.Salinity when finding.For.Any(it => it.Code is "for-salinity-above") => new(
                "change-top-up-every-day"
            ),
            LossCause.Salinity => new("change-hold-the-band"),
            LossCause.Warmth when finding.For.Any(it => it.Code is "for-temperature-above") => new(
                "change-cooler-place"
            ),
            LossCause.Warmth => new("change-steady-warmth"),
            LossCause.AmmoniaNitrite or LossCause.FoodTooMuch => new("change-feed-less-and-change-water"),
            LossCause.Oxygen => new("change-gentle-air"),
            LossCause.FoodMissing when finding.For.Any(it => it.Code is "for-no-food-written") => new(
                "change-food-ready-before"
            ),
            LossCause.FoodMissing => new("change-feed-little-every-day"),
            LossCause.Crowding => new("change-fewer-in-a-vessel"),
            _ => null,
        };

    private static Remark? ReadFor(CauseFinding finding) =>
        finding.Cause switch
        {
            LossCause.AmmoniaNitrite => new("change-measure-ammonia"),
            LossCause.Salinity => new("change-read-salt-daily"),
            LossCause.Warmth => new("change-read-warmth-daily"),
            LossCause.FreshWaterDelay or LossCause.BrackishDelay => new("change-write-crossing-times"),
            LossCause.Crowding => new("change-count-every-week"),
            _ => null,
        };

    // The same beyond its limit in other runs of the species that are over.
    private static int OtherRuns(ReviewSpan span, LossCause cause)
    {
        string[] codes = cause switch
        {
            LossCause.FreshWaterDelay => ["loss-crossed-late", "loss-never-crossed"],
            LossCause.BrackishDelay => ["loss-long-brackish"],
            LossCause.Salinity => ["loss-salinity-outside"],
            LossCause.Warmth => ["loss-too-warm", "loss-too-cold"],
            LossCause.AmmoniaNitrite or LossCause.FoodTooMuch => ["loss-ammonia"],
            LossCause.FoodMissing => ["loss-no-food-written", "loss-food-late", "loss-food-gap"],
            _ => [],
        };
        return codes.Length == 0
            ? 0
            : span.House.Runs.Count(run =>
                run.Id != span.Run.Id
                && run is { Ended.How.End: RunEnd.GivenUp, Brood: { } id }
                && span.Outlook.Profiles.Of(id).Code == span.Profile.Code
                && LossSuspects
                    .Of(span.Outlook, run, span.House.Brood(id), span.Profile)
                    .Any(suspect => suspect.IsShown && codes.Contains(suspect.Shown.Code))
            );
    }
}
