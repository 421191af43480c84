using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>Once a run is over its review is there to be read.</summary>
internal static class ReviewDue
{
    private static readonly Duration StillShown = Duration.FromDays(14);

    public static IEnumerable<PlannedAction> Of(Outlook outlook)
    {
        foreach (var run in outlook.House.Runs)
        {
            if (
                run is { Ended: { } ended, Brood: not null }
                && ended.When.Latest <= outlook.Now
                && outlook.Now < ended.When.Latest + StillShown
            )
            {
                var (about, at) = (Subject.Of(run.Id), ended.When.Latest);
                yield return new()
                {
                    Key = ActionKey.Of(ActionCodes.ReadReview, about),
                    Code = ActionCodes.ReadReview,
                    About = about,
                    From = at,
                    By = at + Duration.FromDays(7),
                    SlipsUntil = at + StillShown,
                    Reason = new Remark("review-is-there"),
                    IfItSlips = new Remark("slip-the-same-again"),
                    Door = new(DoorCode.Review, about),
                };
            }
        }
    }
}
