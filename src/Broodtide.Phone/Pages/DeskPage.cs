using Broodtide.Phone.Keeping;
using Broodtide.Workbench;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Phone.Pages;

/// <summary>A page that shows what lies on the desk and is drawn again when that changes.</summary>
public abstract class DeskPage : ComponentBase, IDisposable
{
    private (bool, Outlook?, Outlook?, bool, int) _shown;

    [Inject]
    internal Desk Desk { get; set; } = default!;

    /// <summary>What is computed; none while the first is being worked out.</summary>
    internal Outlook? Outlook => Desk.Outlook;

    protected override void OnInitialized()
    {
        Desk.Changed += Redraw;
        _ = Desk.OpenAsync();
    }

    public virtual void Dispose()
    {
        Desk.Changed -= Redraw;
        GC.SuppressFinalize(this);
    }

    /// <summary>The outlook or the waiting entries are not what they were.</summary>
    protected virtual void DeskChanged() { }

    // The desk tells of much that a page does not show: drawing again is the dearest part of it.
    private void Redraw() =>
        _ = InvokeAsync(() =>
        {
            var lies = (Desk.IsOpen, Outlook, Desk.DueOutlook, Desk.KnowsWhatMoved, Desk.Waiting);
            if (lies == _shown)
            {
                return;
            }

            _shown = lies;
            DeskChanged();
            StateHasChanged();
        });
}
