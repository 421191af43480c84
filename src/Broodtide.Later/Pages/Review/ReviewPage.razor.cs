using Broodtide.Domain;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Parts;
using Broodtide.Workbench.Review;
using Broodtide.Workbench.TideLine;
using Microsoft.AspNetCore.Components;
using NodaTime;

namespace Broodtide.Phone.Pages.Review;

/// <summary>What a run was: one page, made by itself.</summary>
public sealed partial class ReviewPage
{
    private object? _read;
    private RunReview? _review;
    private TideLineRecord? _line;
    private CancellationTokenSource? _stop;
    private bool _working;

    /// <summary>The run.</summary>
    [Parameter]
    public Guid Id { get; set; }

    private RunId Run => new(Id);

    protected override void OnParametersSet()
    {
        _read = null;
        DeskChanged();
    }

    protected override void DeskChanged()
    {
        if (Outlook is not { } outlook || ReferenceEquals(_read, outlook))
        {
            return;
        }

        _read = outlook;
        _stop?.Cancel();
        _review = outlook.ReviewAtHand(Run);
        Draw(outlook);
        if (_review is not { IsWhole: true })
        {
            _stop = new();
            _working = outlook.House.Run(Run).Brood is not null;
            _ = WorkOutAsync(outlook, _stop.Token);
        }
    }

    public override void Dispose()
    {
        _stop?.Cancel();
        base.Dispose();
        GC.SuppressFinalize(this);
    }

    private void Draw(Workbench.Outlook outlook) =>
        _line = outlook.House.Run(Run) is { Brood: { } brood }
            ? TideLineOf.Run(outlook, Run, Desk.EstimateOf(brood))
            : null;

    // What was written stands there at once; what is worked out comes part by part.
    private async Task WorkOutAsync(Workbench.Outlook outlook, CancellationToken stop)
    {
        using var working = Work.Begin();
        try
        {
            await foreach (var step in Slicer.Slice(outlook.ReviewSteps(Run), stop))
            {
                step();
                if (!ReferenceEquals(outlook.ReviewAtHand(Run), _review))
                {
                    _review = outlook.ReviewAtHand(Run);
                    Draw(outlook);
                    StateHasChanged();
                }
            }

            stop.ThrowIfCancellationRequested();
            _working = false;
            StateHasChanged();
        }
        catch (OperationCanceledException)
        {
            // The page went on.
        }
    }

    private string? Last(Chapter chapter) =>
        chapter.Until is { } until && Day(until) != Day(chapter.From) ? Day(until) : null;

    private string Day(Instant instant) => Formats.Day(Zone.Here(instant).Date);

    private string Spoken(PhaseLoss phase) =>
        phase.LostShare is { } share
            ? Words["review.spoken", Words[$"review.phase.{phase.Phase}"], Formats.Spoken(share.Scaled(100))]
            : Words["review.spoken", Words[$"review.phase.{phase.Phase}"], Words["review.untold"]];

    private string Came(ForecastOutcome outcome) =>
        outcome.To is { } to ? Words["review.came", Day(to)]
        : _review is { IsSoFar: true } ? Words["review.came.notYet"]
        : Words["review.came.never"];

    private static Firm FirmOf(AdviceBasis basis) =>
        basis switch
        {
            AdviceBasis.Measured => Firm.Read,
            AdviceBasis.Pooled => Firm.WorkedOut,
            _ => Firm.Practice,
        };
}
