using Broodtide.Phone.Keeping;
using Broodtide.Workbench;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Phone.Pages;

/// <summary>A page that shows what lies on the desk and is drawn again when that changes.</summary>
public abstract class DeskPage : ComponentBase, IDisposable
{
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

    private void Redraw() =>
        _ = InvokeAsync(() =>
        {
            DeskChanged();
            StateHasChanged();
        });
}
