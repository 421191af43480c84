using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>Forecasts with other evidence, compared: yesterday's, and after a look that was not made yet.</summary>
internal static class ForecastComparing
{
    // Coarser than the forecast itself: only differences are told, and each costs a forecast.
    private const double StepDays = 0.2;

    public static HatchMove? Moved(EmbryoPrior prior, BroodEvidence? then, BroodKnown known, Instant since)
    {
        if (then is null)
        {
            return null;
        }

        if (Same(then, known.Evidence))
        {
            return new(since, 0, 0, []);
        }

        var change = ForecastChange.Between(prior, then, known.Evidence, StepDays);
        return new(
            since,
            change.MedianShiftDays,
            change.NarrowedDays,
            [
                .. change.Reasons.Select(reason => new HatchMoveReason(
                    reason.Code,
                    known.Axis.InstantOf(reason.Day),
                    reason.ShiftDays,
                    reason.NarrowedDays
                )),
            ]
        );
    }

    public static LookWorth? WorthOfALook(EmbryoPrior prior, BroodKnown known, HatchPosterior posterior)
    {
        if (known.Evidence.Facts.Any(fact => fact is BroodFact.FirstLarvae or BroodFact.Dropped))
        {
            return null;
        }

        var eyed = After(prior, known, true);
        var not = After(prior, known, false);
        // How likely each answer is, by Bayes: what the evidence weighs with it.
        var odds = Math.Exp(Math.Clamp(not.LogEvidence - eyed.LogEvidence, -50, 50));
        return new(
            Probability.FromFraction(1 / (1 + odds)),
            posterior.Window90.Days,
            eyed.Window90.Days,
            not.Window90.Days
        );
    }

    private static HatchPosterior After(EmbryoPrior prior, BroodKnown known, bool eyed) =>
        HatchForecast.From(
            prior,
            known.Evidence with
            {
                Facts =
                [
                    .. known.Evidence.Facts,
                    new BroodFact.EggsLookedAt(known.Axis.DayOf(known.Now), eyed, null),
                ],
            },
            StepDays
        );

    private static bool Same(BroodEvidence left, BroodEvidence right) =>
        left.AgeUnknown == right.AgeUnknown
        && left.Assumption == right.Assumption
        && left.Facts.SequenceEqual(right.Facts)
        && left.Temperatures.SequenceEqual(right.Temperatures);
}
