using System.Globalization;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Trials;

namespace Broodtide.Phone.Pages.Trials;

/// <summary>A trial: asked for, worked out in slices, laid out in one step.</summary>
public sealed partial class TrialPage
{
    private const int MostTreatments = 6;
    private static readonly int[] Blocks = [1, 2, 3, 4];
    private static readonly int[] Shares = [5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95];

    private readonly List<string> _treatments = ["", ""];
    private string _vessels = "8";
    private string _larvae = "240";
    private int _blocks = 1;
    private int _usual = 30;
    private int _wished = 60;
    private string _varied = "";
    private string _name = "";
    private string _compared = "";
    private string _said = "";
    private bool _isWorking;
    private int _seed;
    private Remark? _problem;
    private TrialProposal? _proposal;
    private IReadOnlyList<LaidVessel> _laid = [];
    private CancellationTokenSource _stop = new();

    private string Percent(int share) => Formats.Share(Probability.FromPercent(share));

    private protected override void Left() => _stop.Cancel();

    private protected override void Undone() => _laid = [];

    // An answer to other numbers is no answer.
    private void Changed(Action change)
    {
        change();
        _proposal = null;
        _problem = null;
    }

    private async Task WorkOutAsync()
    {
        await _stop.CancelAsync();
        _stop = new();
        if (Whole(_vessels, "vessels") is not { } vessels || Whole(_larvae, "larvae") is not { } larvae)
        {
            return;
        }

        _seed = Math.Abs(Guid.CreateVersion7().GetHashCode() % 1_000_000);
        var wishes = new TrialWishes
        {
            Vessels = vessels,
            Larvae = larvae,
            Treatments = _treatments.Count,
            Blocks = _blocks,
            Usual = Probability.FromPercent(_usual),
            Wished = Probability.FromPercent(_wished),
            Seed = _seed,
        };
        if (wishes.Impossible() is { } no)
        {
            _problem = no;
            return;
        }

        using var working = Work.Begin();
        _isWorking = true;
        try
        {
            _proposal = await Slicer.Last(
                TrialPlanning.InPieces(wishes, Profiles.Of((string?)null)),
                _stop.Token
            );
        }
        catch (OperationCanceledException)
        {
            // The page went on.
        }
        finally
        {
            _isWorking = false;
        }
    }

    private async Task LayOutAsync()
    {
        var name = _name.Trim();
        var named = _treatments.Select(text => text.Trim()).ToList();
        _problem =
            name.Length == 0 ? new Remark("trial-name-needed")
            : named.Any(text => text.Length == 0) ? new Remark("trial-treatments-unnamed")
            : TrialBook.Find(Desk.House, name) is not null
                ? new Remark("trial-name-taken", new Argument("name", name))
            : null;
        if (_problem is not null || _proposal is not { } proposal)
        {
            return;
        }

        var laid = TrialLayingOut.Of(
            Desk.House,
            proposal,
            new(
                name,
                _varied.Trim().Length > 0 ? _varied.Trim() : Words["trial.varied.unsaid"],
                [.. named.Select((text, at) => Treatment(text) with { Control = at == 0 ? true : null })],
                _compared.Trim().Length > 0 ? _compared.Trim() : null,
                null,
                null,
                []
            ),
            Desk.Keeper,
            Guid.CreateVersion7,
            Clock.GetCurrentInstant()
        );
        _said = Words["trial.written", name, laid.Vessels.Count];
        await WriteAsync(laid.Drafts);
        _laid = laid.Vessels;
        _proposal = null;
    }

    private static TrialTreatment Treatment(string text)
    {
        var read = AmountText.Parse(
            text,
            "treatment",
            [
                Dimension.Salinity,
                Dimension.Temperature,
                Dimension.Volume,
                Dimension.Mass,
                Dimension.CellDensity,
            ]
        );
        return new(text, read.Succeeded ? read.Value : null);
    }

    private int? Whole(string text, string field)
    {
        if (
            int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            && number > 0
        )
        {
            return number;
        }

        _problem = new Remark("count-not-whole", new("field", field), new("typed", text));
        return null;
    }
}
