using Broodtide.Domain;
using Broodtide.Domain.Keeping;
using Broodtide.Units;

namespace Broodtide.Workbench.Review;

/// <summary>Makes the review of a run, in pieces: what was written at once, what takes long after it.</summary>
internal static class ReviewTelling
{
    /// <summary>Reviews that become more whole; the last is the whole one. None where the run has no brood.</summary>
    public static IEnumerable<RunReview?> InPieces(Outlook outlook, RunId id)
    {
        if (ReviewSpan.Of(outlook, id) is not { } span)
        {
            yield break;
        }

        foreach (var step in outlook.LedgerSteps())
        {
            step();
            yield return null;
        }

        var readings = new ReviewReadings(span);
        var review = new RunReview
        {
            Run = id,
            Brood = span.Brood.Id,
            End = span.Run.Ended is { } ended && ended.When.Earliest <= outlook.Now ? ended.How.End : null,
            From = span.From,
            Until = span.Until,
            IsWhole = false,
            Chapters = ReviewChapters.Of(span),
            Phases = [],
            Water = [.. readings.ByVessel()],
            Food = readings.Food,
            Forecasts = [],
            Causes = [],
            Tied = [],
            Differently = [],
            Remarks = [],
        };
        yield return review;
        IReadOnlyList<PhaseLoss> phases = [];
        foreach (var some in new ReviewPhases(span).InPieces())
        {
            phases = some ?? phases;
            yield return review;
        }

        var causes = new ReviewCauses(span, readings, phases);
        review = review with
        {
            Phases = phases,
            Causes = causes.Findings,
            Tied = causes.Tied,
            Differently = ReviewChanges.Of(span, causes),
            Remarks = [.. RemarksOf(span, review, phases, causes)],
        };
        yield return review;
        foreach (var some in ReviewForecasts.InPieces(span))
        {
            review = some is null ? review : review with { Forecasts = some, IsWhole = true };
            yield return review;
        }
    }

    private static IEnumerable<Remark> RemarksOf(
        ReviewSpan span,
        RunReview review,
        IReadOnlyList<PhaseLoss> phases,
        ReviewCauses causes
    )
    {
        if (review.IsSoFar)
        {
            yield return new Remark("review-so-far");
        }

        if (review.End is RunEnd.GivenUp)
        {
            yield return new Remark("review-not-all-dead");
        }

        if (causes.Findings.Count == 0)
        {
            yield return new Remark("review-no-larvae");
        }
        else if (!causes.KnowsWhen)
        {
            yield return new Remark(
                phases.All(phase => phase.LostShare is null)
                    ? "review-loss-has-no-day"
                    : "review-no-sure-loss"
            );
        }

        if (span.Vessels.Any(vessel => span.House.IsMixed(vessel.Id)))
        {
            yield return new Remark("review-mixed");
        }
    }
}
