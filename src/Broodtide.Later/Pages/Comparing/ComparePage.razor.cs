using Broodtide.Domain;
using Broodtide.Workbench.Comparing;
using Broodtide.Workbench.Review;
using Broodtide.Workbench.Trials;

namespace Broodtide.Phone.Pages.Comparing;

/// <summary>Runs compared by their vessels, and the rules of advice looked back on.</summary>
public sealed partial class ComparePage
{
    // Settled ones, or alive after so many days.
    private static readonly IReadOnlyList<int> Measures = [0, 7, 14, 21];

    // No trial is called by nothing.
    private const string Runs = "";

    private readonly HashSet<RunId> _chosen = [];
    private IReadOnlyList<TrialOfHouse> _trials = [];
    private string _trial = Runs;
    private bool _withMixed;
    private IReadOnlyList<RunId> _runs = [];
    private object? _read;
    private int _day = 7;
    private VesselsCompared? _compared;
    private IReadOnlyList<RuleOnTrial>? _rules;
    private CancellationTokenSource? _stop;
    private bool _working;
    private bool _looking;

    protected override void OnInitialized()
    {
        base.OnInitialized();
        DeskChanged();
    }

    protected override void DeskChanged()
    {
        if (Outlook is not { } outlook || ReferenceEquals(_read, outlook))
        {
            return;
        }

        var isFirst = _read is null;
        _read = outlook;
        _runs =
        [
            .. outlook
                .House.Runs.Where(run =>
                    run.Brood is { } brood && outlook.House.Brood(brood).Crossings.Count > 0
                )
                .Select(run => run.Id),
        ];
        _trials = TrialBook.Of(outlook.House);
        if (isFirst)
        {
            _chosen.UnionWith(_runs.TakeLast(2));
        }

        _rules = null;
        Compare();
    }

    public override void Dispose()
    {
        _stop?.Cancel();
        base.Dispose();
        GC.SuppressFinalize(this);
    }

    private void Choose(RunId run, bool isChosen)
    {
        if (isChosen ? _chosen.Add(run) : _chosen.Remove(run))
        {
            Compare();
        }
    }

    private TrialOfHouse? Chosen => _trials.LastOrDefault(trial => trial.Laid.Name == _trial);

    private void Take(string trial)
    {
        _trial = trial;
        Compare();
    }

    private void Mixed(bool isWanted)
    {
        _withMixed = isWanted;
        Compare();
    }

    private void By(int day)
    {
        _day = day;
        Compare();
    }

    private void Compare()
    {
        if (Outlook is not { } outlook)
        {
            return;
        }

        _stop?.Cancel();
        _stop = new();
        _looking = false;
        _working = true;
        _ = CompareAsync(outlook, _stop.Token);
    }

    private async Task CompareAsync(Workbench.Outlook outlook, CancellationToken stop)
    {
        var laid = Chosen?.Laid;
        List<(VesselId Vessel, string Treatment)> vessels = laid is null
            ?
            [
                .. _runs
                    .Where(_chosen.Contains)
                    .SelectMany(run => JournalVessels.Of(outlook, run, Naming.Of(outlook.House.Run(run)))),
            ]
            : [.. laid.Vessels.Select(vessel => (vessel.Vessel, laid.Treatments[vessel.Treatment].Name))];
        VesselsCompared? compared = null;
        await RunAsync(
            JournalVessels.InPieces(
                outlook,
                vessels,
                _day == 0 ? Measure.Settled : new Measure(_day),
                _withMixed,
                laid?.Vessels.ToDictionary(vessel => vessel.Vessel, vessel => vessel.Block)
            ),
            told => compared = told,
            stop
        );
        if (!stop.IsCancellationRequested)
        {
            (_compared, _working) = (compared, false);
            StateHasChanged();
        }
    }

    private async Task LookBack()
    {
        if (Outlook is not { } outlook || _working)
        {
            return;
        }

        _stop?.Cancel();
        _stop = new();
        var stop = _stop.Token;
        _looking = true;
        IReadOnlyList<RuleOnTrial>? rules = null;
        await RunAsync(Hindsight.InPieces(outlook), told => rules = told, stop);
        if (!stop.IsCancellationRequested)
        {
            (_rules, _looking) = (rules, false);
            StateHasChanged();
        }
    }

    // Piece by piece, so that the page stays awake.
    private async Task RunAsync<T>(IEnumerable<T?> pieces, Action<T?> take, CancellationToken stop)
        where T : class
    {
        using var working = Work.Begin();
        try
        {
            await foreach (var step in Slicer.Slice(Steps(), stop))
            {
                step();
            }
        }
        catch (OperationCanceledException)
        {
            // Something else was asked, or the page went on.
        }

        IEnumerable<Action> Steps()
        {
            using var running = pieces.GetEnumerator();
            var more = true;
            while (more)
            {
                yield return () =>
                {
                    more = running.MoveNext();
                    if (more)
                    {
                        take(running.Current);
                    }
                };
            }
        }
    }
}
