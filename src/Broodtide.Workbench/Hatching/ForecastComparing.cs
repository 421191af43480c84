using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>Forecasts with other evidence, compared: yesterday's, and after a look that was not made yet.</summary>
internal static class ForecastComparing
{
    // Coarser than the forecast itself: only differences are told, and each costs a forecast.
    private const double StepDays = 0.2;

    /// <summary>What moved, in pieces: the last one says whether there is anything to tell.</summary>
    public static IEnumerable<HatchMove?> Moved(
        EmbryoPrior prior,
        BroodEvidence? then,
        BroodKnown known,
        Instant since
    )
    {
        if (then is null)
        {
            yield break;
        }

        if (Same(then, known.Evidence))
        {
            yield return new(since, 0, 0, []);
            yield break;
        }

        foreach (var piece in ForecastChange.InPieces(prior, then, known.Evidence, StepDays))
        {
            yield return piece is null
                ? null
                : new HatchMove(
                    since,
                    piece.MedianShiftDays,
                    piece.NarrowedDays,
                    [
                        .. piece.Reasons.Select(reason => new HatchMoveReason(
                            reason.Code,
                            known.Axis.InstantOf(reason.Day),
                            reason.ShiftDays,
                            reason.NarrowedDays
                        )),
                    ]
                );
        }
    }

    /// <summary>What a look would tell, in pieces.</summary>
    public static IEnumerable<LookWorth?> WorthOfALook(
        EmbryoPrior prior,
        BroodKnown known,
        HatchPosterior posterior
    )
    {
        if (known.Evidence.Facts.Any(fact => fact is BroodFact.FirstLarvae or BroodFact.Dropped))
        {
            yield break;
        }

        HatchPosterior? eyed = null;
        foreach (var piece in After(prior, known, true))
        {
            eyed = piece;
            yield return null;
        }

        HatchPosterior? not = null;
        foreach (var piece in After(prior, known, false))
        {
            not = piece;
            yield return null;
        }

        // How likely each answer is, by Bayes: what the evidence weighs with it.
        var odds = Math.Exp(Math.Clamp(not!.LogEvidence - eyed!.LogEvidence, -50, 50));
        yield return new(
            Probability.FromFraction(1 / (1 + odds)),
            posterior.Window90.Days,
            eyed.Window90.Days,
            not.Window90.Days
        );
    }

    private static IEnumerable<HatchPosterior?> After(EmbryoPrior prior, BroodKnown known, bool eyed) =>
        HatchForecast.InPieces(
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
