using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// What lies open on this phone: the account of all entries, told anew whenever one is written or comes. Pages read
/// it and listen; none of them waits for the network.
/// </summary>
internal sealed class Desk(
    PhoneJournal journal,
    ServerExchange exchange,
    BrowserStore store,
    PhoneClock clock,
    Invented invented
)
{
    private Task? _opening;
    private bool _meeting;

    /// <summary>Something was written here, in another tab, or came from the server.</summary>
    public event Action? Changed;

    /// <summary>Everything that is known.</summary>
    public Account Account { get; private set; } = new();

    /// <summary>Everything in the house by name; made anew after each change.</summary>
    public House House { get; private set; } = new(new Account());

    /// <summary>Whether the journal has been read.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Entries that the server has not said it holds.</summary>
    public int Waiting { get; private set; }

    /// <summary>How the last meeting with the server went.</summary>
    public Meeting LastMeeting { get; private set; }

    /// <summary>The entry written last on this page, for its undo.</summary>
    public Entry? Latest { get; private set; }

    /// <summary>Name that entries are signed with.</summary>
    public string Who { get; set; } = "Keeper";

    /// <summary>Makes drafts, signed and timed.</summary>
    public Keeper Keeper => new(new Author(Who), clock, clock.Zone, Guid.CreateVersion7);

    /// <summary>Reads the journal once; later calls wait for the same reading.</summary>
    public Task OpenAsync() => _opening ??= ReadAsync();

    /// <summary>Writes facts. Returns once they are on the disk of this phone.</summary>
    public async Task<IReadOnlyList<Entry>> WriteAsync(params IReadOnlyList<Draft> drafts)
    {
        await OpenAsync();
        var written = await journal.AppendAsync(drafts);
        Latest = written.Count > 0 ? written[^1] : Latest;
        Take(written);
        Waiting = await journal.CountWaitingAsync();
        Changed?.Invoke();
        _ = MeetAsync();
        return written;
    }

    /// <summary>Takes in entries of a file. Returns how many were new.</summary>
    public async Task<int> ImportAsync(IReadOnlyList<Entry> entries)
    {
        await OpenAsync();
        var intake = await journal.TakeAsync(entries);
        Take(await journal.ReadAllAsync());
        Changed?.Invoke();
        _ = MeetAsync();
        return intake.New;
    }

    /// <summary>Meets the server if it is there.</summary>
    public async Task MeetAsync()
    {
        if (_meeting)
        {
            return;
        }

        _meeting = true;
        try
        {
            var (meeting, came) = await exchange.MeetAsync(Account.Entries);
            LastMeeting = meeting;
            Take(came);
            Waiting = await journal.CountWaitingAsync();
        }
        finally
        {
            _meeting = false;
        }

        Changed?.Invoke();
    }

    private async Task ReadAsync()
    {
        await journal.OpenAsync();
        Account.AddAll(await journal.ReadAllAsync());
        foreach (var checkpoint in await journal.CheckpointsAsync())
        {
            Account.IndexFolding.Offer(checkpoint);
        }

        Renew();
        Waiting = await journal.CountWaitingAsync();
        IsOpen = true;
        store.OthersWrote += () => _ = ReadAgainAsync();
        Changed?.Invoke();
        _ = MeetAsync();
    }

    private async Task ReadAgainAsync()
    {
        Take(await journal.ReadAllAsync());
        Waiting = await journal.CountWaitingAsync();
        Changed?.Invoke();
    }

    private void Take(IReadOnlyList<Entry> entries)
    {
        // A few go in one by one; many are told anew at once.
        if (entries.Count > 64)
        {
            Account.AddAll(entries);
        }
        else
        {
            foreach (var entry in entries)
            {
                Account.Add(entry);
            }
        }

        if (entries.Count > 0)
        {
            Renew();
        }
    }

    private void Renew()
    {
        House = new House(Account);
        invented.IsInvented = Account.Entries.Any(entry =>
            entry.Envelope.Author.Name == InventedHouse.Keeper
        );
    }
}
