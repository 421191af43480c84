using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Keeping;
using Broodtide.Phone.Language;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Mixing;
using Microsoft.AspNetCore.Components;

namespace Broodtide.Phone.AtTheBench;

/// <summary>What the tools at the bench share: the journal open, its waters, and entries written with their undo.</summary>
public abstract class BenchTool : ComponentBase, IDisposable
{
    [Inject]
    private protected Desk Desk { get; set; } = default!;

    [Inject]
    private protected PhoneClock Clock { get; set; } = default!;

    [Inject]
    private protected StandingWater Waters { get; set; } = default!;

    [Inject]
    private protected Preferences Preferences { get; set; } = default!;

    private bool _isBare;

    /// <summary>The entries written last on this page; none once they are undone.</summary>
    private protected IReadOnlyList<Entry> Written { get; private set; } = [];

    private protected HouseProfiles Profiles => Waters.Profiles;

    protected override void OnInitialized()
    {
        Desk.Changed += Again;
        Preferences.Changed += Again;
        Begin();
    }

    protected override async Task OnInitializedAsync()
    {
        await Desk.OpenAsync();
        _isBare = !Desk.House.Vessels.Any();
        Opened();
    }

    public void Dispose()
    {
        Desk.Changed -= Again;
        Preferences.Changed -= Again;
        Left();
        GC.SuppressFinalize(this);
    }

    /// <summary>Before the journal is read: the fields, empty or with what is customary.</summary>
    private protected virtual void Begin() { }

    /// <summary>Once the journal is read: the fields with what is written.</summary>
    private protected virtual void Opened() { }

    private protected async Task WriteAsync(params IReadOnlyList<Draft> drafts) =>
        Written = await Desk.WriteAsync(drafts);

    /// <summary>What was written is done with here; its undo is given up.</summary>
    private protected void ClearWritten() => Written = [];

    private protected async Task UndoAsync()
    {
        var keeper = Desk.Keeper;
        var written = Written;
        Written = [];
        await Desk.WriteAsync([.. written.Reverse().Select(entry => keeper.TakeBack(entry))]);
        Undone();
    }

    /// <summary>The keeper went to another page.</summary>
    private protected virtual void Left() { }

    /// <summary>What was written was taken back.</summary>
    private protected virtual void Undone() { }

    private protected static TypedNumber Litres(Volume volume) =>
        TypedNumber.Of(Math.Round(volume.Litres, 4), "L");

    private protected static TypedNumber Ppt(Salinity salinity) =>
        TypedNumber.Of(Math.Round(salinity.Practical, 2), UnitCode.PracticalSalinity);

    private protected static TypedNumber Celsius(Temperature temperature) =>
        TypedNumber.Of(Math.Round(temperature.Celsius, 1), "Cel");

    private protected static T? Found<T>(MixingAnswer<T>? answer)
        where T : class => (answer as MixingAnswer<T>.Found)?.Value;

    private protected static MixingRefusal? Refused<T>(MixingAnswer<T>? answer) =>
        (answer as MixingAnswer<T>.Refused)?.Refusal;

    // What comes from the server to an empty phone fills the fields as if it had been there from the start.
    private void Again() =>
        _ = InvokeAsync(() =>
        {
            if (_isBare && Desk.House.Vessels.Any())
            {
                _isBare = false;
                Opened();
            }

            StateHasChanged();
        });
}
