using Broodtide.Phone.Keeping;
using Broodtide.Phone.People;
using Broodtide.Workbench.People;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Phone.Pages.People;

/// <summary>A page by which somebody comes in; afterwards the journal is shared at once.</summary>
public abstract class EntrancePage : ComponentBase, IDisposable
{
    [Inject]
    internal Entrance Entrance { get; set; } = default!;

    [Inject]
    internal SignedIn Who { get; set; } = default!;

    [Inject]
    internal Desk Desk { get; set; } = default!;

    [Inject]
    internal NavigationManager Navigation { get; set; } = default!;

    /// <summary>Why it was not done.</summary>
    internal Refused? No { get; private set; }

    /// <summary>Whether the server is being asked.</summary>
    internal bool IsAsking { get; private set; }

    /// <summary>The code that came with the address; it never leaves the phone by itself.</summary>
    internal string CodeOfAddress
    {
        get
        {
            var fragment = new Uri(Navigation.Uri).Fragment;
            return fragment.Length > 1 ? Uri.UnescapeDataString(fragment[1..]) : "";
        }
    }

    public virtual void Dispose()
    {
        Who.Changed -= Redraw;
        GC.SuppressFinalize(this);
    }

    protected override void OnInitialized() => Who.Changed += Redraw;

    protected override async Task OnInitializedAsync()
    {
        // The store gets its name before anything is said of it.
        await Desk.OpenAsync();
    }

    /// <summary>Asks one thing at a time; what it answers is shown.</summary>
    internal async Task<bool> TryAsync(Func<Task<Refused?>> ask)
    {
        if (IsAsking)
        {
            return false;
        }

        (IsAsking, No) = (true, null);
        StateHasChanged();
        No = await ask();
        IsAsking = false;
        StateHasChanged();
        return No is null;
    }

    /// <summary>Somebody is in: what was written meanwhile goes to the server, and the day's work is shown.</summary>
    internal void GoIn()
    {
        _ = Desk.MeetAsync();
        Navigation.NavigateTo("", replace: true);
    }

    private void Redraw() => _ = InvokeAsync(StateHasChanged);
}
