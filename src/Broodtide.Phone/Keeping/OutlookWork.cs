using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// Works an outlook out in slices, so that taps and sound come in between. The one shown stays until the next can
/// take its place; a change while it works begins it anew.
/// </summary>
/// <param name="slicer">Makes slices.</param>
/// <param name="painted">Waits until what was drawn is seen.</param>
/// <param name="handsFree">Waits while hands are in the water; nothing that is worked out here is needed at the bench.</param>
internal sealed class OutlookWork(
    Func<Slicer> slicer,
    Func<Task> painted,
    Func<CancellationToken, Task>? handsFree = null
)
{
    private CancellationTokenSource? _running;

    /// <summary>The one begun last, whether it came to its end or not; what it knows the next one keeps.</summary>
    public Outlook? Begun { get; private set; }

    /// <summary>What can be shown without a wait; none before the first is there.</summary>
    public Outlook? Shown { get; private set; }

    /// <summary>
    /// Who knows what is due, of the ledgers perhaps no more than those of the water that stands; none before the first is there.
    /// </summary>
    public Outlook? Due { get; private set; }

    /// <summary>What was kept of the ledgers when the journal was open last; to be set before the first is worked out.</summary>
    public IReadOnlyList<Checkpoint> Kept { get; set; } = [];

    /// <summary>Whether everything of <see cref="Shown"/> is there, what moved since yesterday too.</summary>
    public bool IsWhole { get; private set; }

    /// <summary>Whether another one is being worked out.</summary>
    public bool IsBusy { get; private set; }

    /// <summary>What went wrong; none while nothing did.</summary>
    public Exception? Failure { get; private set; }

    /// <summary>More can be shown.</summary>
    public event Action? Advanced;

    /// <summary>
    /// An outlook of a house that is not open yet, the water that stands in it told: a page that asks of it would else tell ten years
    /// in one piece. It is gone on with once it was handed to <see cref="GoOnFrom"/>.
    /// </summary>
    public async Task<Outlook> PrepareAsync(
        House house,
        Instant now,
        DateTimeZone zone,
        SensorsSeen? sensors = null
    )
    {
        var outlook = Outlook.Of(house.Account, now, zone, sensors: sensors, kept: Kept);
        try
        {
            await foreach (var step in slicer().Slice(outlook.StandingSteps()))
            {
                step();
            }
        }
        catch (Exception)
        {
            // The journal is opened all the same; the work that goes on from here meets it again and tells of it.
        }

        return outlook;
    }

    /// <summary>The next outlook goes on from this one.</summary>
    public void GoOnFrom(Outlook prepared) => Begun = prepared;

    /// <summary>
    /// Works out the outlook of a house for an instant, after what was drawn is seen; returns whether it came to its end.
    /// </summary>
    public async Task<bool> RenewAsync(
        House house,
        Instant now,
        DateTimeZone zone,
        SensorsSeen? sensors = null
    )
    {
        _running?.Cancel();
        var mine = new CancellationTokenSource();
        _running = mine;
        IsBusy = true;
        try
        {
            await painted();
            mine.Token.ThrowIfCancellationRequested();
            var outlook =
                Begun is { } before
                && before.Zone == zone
                && ReferenceEquals(before.House.Account, house.Account)
                    ? before.Renewed(now, house, sensors)
                    : Outlook.Of(house.Account, now, zone, sensors: sensors, kept: Kept);
            Begun = outlook;
            await foreach (var step in slicer().Slice(outlook.Steps(), mine.Token))
            {
                if (handsFree is not null)
                {
                    await handsFree(mine.Token);
                }

                step();
                if (mine.IsCancellationRequested || !outlook.KnowsDue)
                {
                    continue;
                }

                if (outlook.KnowsLedgers && !ReferenceEquals(Shown, outlook))
                {
                    Show(outlook, isWhole: false);
                }
                else if (!ReferenceEquals(Due, outlook))
                {
                    Due = outlook;
                    Advanced?.Invoke();
                }
            }

            IsBusy = false;
            Show(outlook, isWhole: true);
            return true;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
        catch (Exception failure)
        {
            // Nobody waits for this work: whoever shows the next page tells of it.
            Failure = failure;
            Advanced?.Invoke();
            return false;
        }
        finally
        {
            if (ReferenceEquals(_running, mine))
            {
                _running = null;
                IsBusy = false;
            }

            mine.Dispose();
        }
    }

    private void Show(Outlook outlook, bool isWhole)
    {
        (Shown, Due, IsWhole, Failure) = (outlook, outlook, isWhole, null);
        Advanced?.Invoke();
    }
}
