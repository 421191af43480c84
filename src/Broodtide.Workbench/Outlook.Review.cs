using Broodtide.Domain;
using Broodtide.Workbench.Review;

namespace Broodtide.Workbench;

public sealed partial class Outlook
{
    private readonly Dictionary<RunId, Piecewise<RunReview>> _reviews = [];

    /// <summary>The review of a run that is over, or of one that goes on as far as it came; none where it has no brood.</summary>
    public RunReview? ReviewOf(RunId run) => Reviewing(run).Value;

    /// <summary>The same as far as it is worked out: for who may not wait.</summary>
    public RunReview? ReviewAtHand(RunId run) => Reviewing(run).SoFar;

    /// <summary>The pieces of a review.</summary>
    public IEnumerable<Action> ReviewSteps(RunId run) => InPieces(Reviewing(run));

    /// <summary>The pieces of the forecast of a brood.</summary>
    internal IEnumerable<Action> ForecastSteps(BroodId brood) => InPieces(Forecasting(brood));

    private Piecewise<RunReview> Reviewing(RunId run)
    {
        if (!_reviews.TryGetValue(run, out var work))
        {
            _reviews[run] = work = new(() => ReviewTelling.InPieces(this, run));
        }

        return work;
    }
}
