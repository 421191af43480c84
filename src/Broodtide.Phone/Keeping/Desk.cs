using System.Runtime.InteropServices.JavaScript;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Phone.People;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// What lies open on this phone: the account of all entries, told anew whenever one is written or comes, and the
/// outlook worked out from it. Pages read it and listen; none of them waits for the network. The server is met when
/// the journal is opened, after a write, and when the page is seen again, never because somebody turns a page.
/// </summary>
internal sealed class Desk(
    PhoneJournal journal,
    PhoneMeeting house,
    BrowserStore store,
    PhoneClock clock,
    Screen screen,
    Invented invented,
    SignedIn who,
    Entrance entrance,
    HouseClock houseClock,
    WetHands hands
)
{
    private static readonly Duration RenewEvery = Duration.FromMinutes(3);

    private const int Few = 64;

    private readonly MeetingTimes _times = new();
    private readonly OutlookWork _work = new(
        () => new Slicer(),
        JournalReading.PaintedAsync,
        hands.FreeAsync
    );
    private readonly List<Entry> _early = [];
    private readonly Dictionary<BroodId, PopulationEstimate> _lately = [];
    private Task? _opening;
    private Task? _store;
    private List<Entry>? _meanwhile;
    private bool _meeting;
    private bool _meetAgain;
    private bool _issuing;
    private Instant _knownUntil;
    private SensorsSeen? _sensors;

    /// <summary>
    /// Something was written here, in another tab, or came from the server; or more of the outlook is there.
    /// </summary>
    public event Action? Changed;

    /// <summary>Something was written here, and work has begun that <see cref="Changed"/> will tell of: the page is not settled.</summary>
    public event Action? Began;

    /// <summary>The server was met and agreed: what else it tells may be asked for.</summary>
    public event Action? Met;

    /// <summary>Everything that is known.</summary>
    public Account Account { get; private set; } = new();

    /// <summary>Everything in the house by name; another one after each change.</summary>
    public House House { get; private set; } = new(new Account());

    /// <summary>
    /// What is computed of the account, all of it there without a wait; none before the first is worked out. A moment
    /// after an entry it is still the one before.
    /// </summary>
    public Outlook? Outlook =>
        _work.Failure is { } failure
            ? throw new InvalidOperationException("The outlook could not be worked out.", failure)
            : _work.Shown;

    /// <summary>
    /// What is due, before the ledgers of water that was thrown away are there: for who asks of it no more than what is due, what
    /// is under way and the water that stands. None before the first is worked out.
    /// </summary>
    public Outlook? DueOutlook => _work.Failure is null ? _work.Due : Outlook;

    /// <summary>
    /// How many larvae of a brood are alive: as worked out now, else as a moment ago; none before it was worked out
    /// once.
    /// </summary>
    public PopulationEstimate? EstimateOf(BroodId brood)
    {
        if (Outlook?.EstimateAtHand(brood) is { } now)
        {
            _lately[brood] = now;
        }

        return _lately.GetValueOrDefault(brood);
    }

    /// <summary>Whether what moved since yesterday is worked out too.</summary>
    public bool KnowsWhatMoved => _work.IsWhole;

    /// <summary>Whether the outlook is being worked out or the journal read.</summary>
    public bool IsBusy => !IsOpen || _work.IsBusy || _meeting;

    /// <summary>Whether the journal has been read.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>The latest outlook there is, whole or not: to tell the present of a vessel from, without telling it anew.</summary>
    public Outlook OutlookAt(Instant now) =>
        _work.Begun is { } begun
            ? begun.Renewed(now, House, _sensors)
            : Workbench.Outlook.Of(Account, now, clock.Zone, sensors: _sensors);

    /// <summary>Entries that the server has not said it holds.</summary>
    public int Waiting { get; private set; }

    /// <summary>How the last meeting with the server went.</summary>
    public Meeting LastMeeting { get; private set; }

    /// <summary>Why the server refused what was sent last; none if it did not.</summary>
    public Remark? Refusal { get; private set; }

    /// <summary>How many of the waiting entries wait for somebody else who uses this phone.</summary>
    public int WaitingOfOthers { get; private set; }

    /// <summary>What the server said of itself and of who is signed in; none before the first meeting.</summary>
    public Welcome? Welcome { get; private set; }

    /// <summary>The entry written last on this page, for its undo.</summary>
    public Entry? Latest { get; private set; }

    /// <summary>Whether who uses this phone may write into the house; a phone that nobody signed in on writes for itself.</summary>
    public bool MayWrite => who.Person?.Role != Reading;

    /// <summary>
    /// Name that entries are signed with: who is signed in, or was last; before anybody was, a name kept on this
    /// phone.
    /// </summary>
    public string Who
    {
        get => who.Person?.Name ?? (Glue.ReadSetting("who") is { Length: > 0 } kept ? kept : "Keeper");
        set => Glue.WriteSetting("who", string.IsNullOrWhiteSpace(value) ? null : value.Trim());
    }

    /// <summary>Makes drafts, signed and timed.</summary>
    public Keeper Keeper => new(new Author(Who), clock, clock.Zone, Guid.CreateVersion7);

    /// <summary>Reads the journal once; later calls wait for the same reading.</summary>
    public Task OpenAsync() => _opening ??= ReadAsync();

    /// <summary>What was to be written and found no room; kept here until it is written or given up.</summary>
    public IReadOnlyList<Draft> Unwritten { get; private set; } = [];

    /// <summary>Writes facts. Returns once they are on the disk of this phone.</summary>
    /// <exception cref="StoreException">Nothing of it was written; all of it lies in <see cref="Unwritten"/>.</exception>
    public async Task<IReadOnlyList<Entry>> WriteAsync(params IReadOnlyList<Draft> drafts)
    {
        try
        {
            return await AppendAsync(drafts);
        }
        catch (Exception refused) when (refused is StoreException or JSException)
        {
            Unwritten = [.. Unwritten, .. drafts];
            Changed?.Invoke();
            throw;
        }
    }

    /// <summary>Writes what found no room before.</summary>
    public async Task<IReadOnlyList<Entry>> WriteUnwrittenAsync()
    {
        var written = await AppendAsync(Unwritten);
        GiveUpUnwritten();
        return written;
    }

    /// <summary>What found no room is given up.</summary>
    public void GiveUpUnwritten()
    {
        Unwritten = [];
        Changed?.Invoke();
    }

    private async Task<IReadOnlyList<Entry>> AppendAsync(IReadOnlyList<Draft> drafts)
    {
        // The journal need not be read for it: what is written meanwhile is told with the rest.
        _ = OpenAsync();
        await OpenStoreAsync();
        var written = await journal.AppendAsync(drafts);
        foreach (var draft in drafts)
        {
            houseClock.Wrote(draft.Written);
        }

        Latest = written.Count > 0 ? written[^1] : Latest;
        Waiting += written.Count;
        if (IsOpen)
        {
            Take(written);
        }
        else
        {
            _early.AddRange(written);
        }

        Began?.Invoke();
        _ = AfterWritingAsync();
        return written;
    }

    // The answer of who wrote is seen first; then everything else on the page, and the server, is told.
    private async Task AfterWritingAsync()
    {
        await JournalReading.PaintedAsync();
        Changed?.Invoke();
        Waiting = await journal.CountWaitingAsync();
        Changed?.Invoke();
        if (IsOpen)
        {
            await MeetAsync();
        }
    }

    /// <summary>Takes in entries of a file. Returns how many were new.</summary>
    public async Task<int> ImportAsync(IReadOnlyList<Entry> entries)
    {
        await OpenAsync();
        var intake = await journal.TakeAsync(entries);
        await ReadAgainAsync();
        _ = MeetAsync();
        return intake.New;
    }

    /// <summary>Takes entries of this page back, the last first.</summary>
    public Task TakeBackAsync(IReadOnlyList<Entry> entries) =>
        WriteAsync([.. entries.Reverse().Select(entry => Keeper.TakeBack(entry))]);

    /// <summary>The house told something of its sensors: what is due and what is known of the water rest on it too.</summary>
    public void Take(SensorsSeen told)
    {
        if (ReferenceEquals(told, _sensors) || (_sensors is null && told is { Sensors: [], Alarms: [] }))
        {
            return;
        }

        _sensors = told;
        if (IsOpen)
        {
            _ = WorkAsync();
        }
    }

    /// <summary>Meets the server if it is there.</summary>
    public async Task MeetAsync()
    {
        if (_meeting)
        {
            // What is written meanwhile is told afterwards.
            _meetAgain = true;
            return;
        }

        _meeting = true;
        try
        {
            do
            {
                _meetAgain = false;
                if (await entrance.LookAsync() is { } no)
                {
                    LastMeeting = no;
                    _times.Met(no, clock.GetCurrentInstant());
                    break;
                }

                var met = await house.RunAsync(Account.Entries);
                LastMeeting = met.Meeting;
                Refusal = met.Refusal;
                WaitingOfOthers = met.WaitingOfOthers;
                Welcome = met.Welcome ?? Welcome;
                _times.Met(met.Meeting, clock.GetCurrentInstant());
                await TakeAsync(met.Came);
                Waiting = await journal.CountWaitingAsync();
            } while (_meetAgain && LastMeeting is Meeting.Agreed);
        }
        catch (StoreException)
        {
            // What came found no room; it is still where it came from, and the next meeting asks for it again.
        }
        finally
        {
            _meeting = false;
        }

        Changed?.Invoke();
        if (LastMeeting is Meeting.Agreed)
        {
            Met?.Invoke();
        }

        await IssueForecastsAsync();
    }

    private Task OpenStoreAsync() => _store ??= journal.OpenAsync();

    // In slices: with a journal of ten years it takes seconds, and the page is in use already.
    private async Task ReadAsync()
    {
        await OpenStoreAsync();
        var slicer = new Slicer();
        var entries = await JournalReading.ReadAsync(slicer);
        foreach (var _ in Account.AddAllInPieces(entries))
        {
            await slicer.Breathe();
        }

        journal.Recall(entries);
        _work.Kept = await journal.CheckpointsAsync();
        Waiting = await journal.CountWaitingAsync();
        _work.Advanced += () => Changed?.Invoke();
        var prepared = await PrepareAsync(Account);
        // Without a pause between: what is written from now on is taken in at once.
        _work.GoOnFrom(prepared);
        House = prepared.House;
        Account.AddAll(_early);
        Renew(entries);
        IsOpen = true;
        store.OthersWrote += () => _ = ReadAgainAsync();
        screen.Seen += Seen;
        Changed?.Invoke();
        _ = MeetAsync();
        _ = RenewNowAndThenAsync();
        _ = store.Probe();
    }

    private async Task ReadAgainAsync()
    {
        var entries = await JournalReading.ReadAsync(new Slicer());
        await TakeAsync([.. entries.Where(entry => !Account.Holds(entry))]);
        Waiting = await journal.CountWaitingAsync();
        Changed?.Invoke();
    }

    private void Seen()
    {
        var now = clock.GetCurrentInstant();
        if (Outlook is { } shown && now > shown.Now)
        {
            _ = WorkAsync();
        }

        if (_times.MayAsk(now))
        {
            _ = MeetAsync();
        }
    }

    private async Task RenewNowAndThenAsync()
    {
        while (true)
        {
            await Task.Delay(RenewEvery.ToTimeSpan());
            await WorkAsync();
        }
    }

    // So many that telling them at once would hold the page go into an account beside the one that pages ask, which is
    // exchanged for it. What is written meanwhile is in both.
    private async Task TakeAsync(IReadOnlyList<Entry> entries)
    {
        if (entries.Count <= Few || entries.Count < Account.EntryCount / 4 || _meanwhile is not null)
        {
            Take(entries);
            return;
        }

        var slicer = new Slicer();
        var beside = new Account();
        _meanwhile = [];
        try
        {
            foreach (var _ in beside.AddAllInPieces([.. Account.Entries, .. entries]))
            {
                await slicer.Breathe();
            }

            var prepared = await PrepareAsync(beside);
            beside.AddAll(_meanwhile);
            _work.GoOnFrom(prepared);
            (Account, House) = (beside, prepared.House);
        }
        finally
        {
            _meanwhile = null;
        }

        Renew(entries);
    }

    private Task<Outlook> PrepareAsync(Account account) =>
        _work.PrepareAsync(new House(account), NextMinute(clock.GetCurrentInstant()), clock.Zone, _sensors);

    private void Take(IReadOnlyList<Entry> entries)
    {
        _meanwhile?.AddRange(entries);
        // A few go in one by one; many are told anew at once.
        if (entries.Count > Few)
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
            Renew(entries);
        }
    }

    private void Renew(IReadOnlyList<Entry> fresh)
    {
        House = ReferenceEquals(House.Account, Account) ? House.Renewed() : new House(Account);
        invented.IsInvented |= fresh.Any(entry => entry.Envelope.Author.Name == InventedHouse.Keeper);
        _ = WorkAsync();
    }

    private async Task WorkAsync()
    {
        _knownUntil = clock.GetCurrentInstant();
        if (await _work.RenewAsync(House, NextMinute(_knownUntil), clock.Zone, _sensors))
        {
            await KeepAsync();
            await IssueForecastsAsync();
        }
    }

    // For the next time the journal is opened.
    private async Task KeepAsync()
    {
        if (Outlook?.TakeCheckpoint() is not { } checkpoint)
        {
            return;
        }

        try
        {
            await journal.KeepAsync([checkpoint]);
        }
        catch (Exception refused) when (refused is StoreException or JSException)
        {
            // It spares time and nothing else.
        }
    }

    // Up to the next full minute: what was written a second ago has then happened.
    private static Instant NextMinute(Instant now)
    {
        var minute = Instant.FromUnixTimeSeconds(now.ToUnixTimeSeconds() / 60 * 60);
        return minute < now ? minute + Duration.FromMinutes(1) : minute;
    }

    // Only after the server was asked: it may hold today's already.
    private async Task IssueForecastsAsync()
    {
        if (Welcome?.Role is Role.Reader || !MayWrite)
        {
            // Who only reads writes nothing, not even by the software.
            return;
        }

        if (_issuing || LastMeeting is Meeting.None || _meeting || _work.IsBusy || !_work.IsWhole)
        {
            return;
        }

        _issuing = true;
        try
        {
            var issued = Foretelling.Unwritten(Outlook!, $"broodtide {Version}");
            var water = Foretelling.UnwrittenOfWater(Outlook!, $"broodtide {Version}");
            if (issued.Count + water.Count > 0)
            {
                var software = new Keeper(
                    new Author(Software, Version),
                    clock,
                    clock.Zone,
                    Guid.CreateVersion7
                );
                var latest = Latest;
                await AppendAsync([
                    .. issued.Select(forecast => software.Write(forecast with { KnownUntil = _knownUntil })),
                    .. water.Select(forecast => software.Write(forecast with { KnownUntil = _knownUntil })),
                ]);
                Latest = latest;
            }
        }
        catch (StoreException)
        {
            // Nobody typed it: it is worked out again once there is room.
        }
        finally
        {
            _issuing = false;
        }
    }

    private const string Software = "Broodtide";
    private static readonly string Reading = Role.Reader.Code();

    private static string Version { get; } =
        typeof(Outlook).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
