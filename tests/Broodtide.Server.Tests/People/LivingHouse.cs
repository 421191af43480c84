using Broodtide.Server.Calendar;
using Broodtide.Server.People;
using Broodtide.Server.Photos;
using Broodtide.Server.Sharing;
using Broodtide.Server.Tests.Kit;
using Broodtide.Storage.Households;
using Broodtide.Workbench;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Server.Tests.People;

/// <summary>The server of a house, running in the test on a free port, with a clock that the test turns.</summary>
internal sealed class LivingHouse : IAsyncDisposable
{
    public const string Passphrase = "nine wet hands at night";

    private readonly HouseStore _file;
    private readonly Gate _gate;
    private readonly SharedPhotos _photos;
    private readonly ISharedJournal _journal;
    private readonly CalendarFeed _feed;

    private LivingHouse(
        ServerOptions options,
        ISharedJournal journal,
        IReadOnlyList<(string Name, string Value)> settings
    )
    {
        _journal = journal;
        _file = Household.Open(options, null);
        _gate = new Gate(
            journal,
            new HouseSharing(_file),
            new PeopleOfTheHouse(new HousePeople(_file)),
            Clock
        );
        _photos = SharedPhotos.Open(options, journal, null);
        _feed = new CalendarFeed(journal, Clock);
        App = House.Build(options, _gate, _photos, _file, _feed, null, Clock, settings);
    }

    public FakeClock Clock { get; } = new(SystemClock.Instance.GetCurrentInstant());

    public WebApplication App { get; }

    public DirectoryInfo Folder => TemporaryFolder.Folder;

    public TemporaryFolder TemporaryFolder { get; private init; } = null!;

    public HousePeople People => App.Services.GetRequiredService<HousePeople>();

    public HouseInvitations Invitations => App.Services.GetRequiredService<HouseInvitations>();

    public HouseSessions Sessions => App.Services.GetRequiredService<HouseSessions>();

    public static async Task<LivingHouse> Start(
        bool demo = false,
        IReadOnlyList<(string Name, string Value)>? settings = null
    )
    {
        var folder = new TemporaryFolder();
        var options = new ServerOptions([new Uri("http://127.0.0.1:0")], folder.Folder, demo);
        var journal = await SharedJournal.OpenAsync(options, null, TestContext.Current.CancellationToken);
        var house = new LivingHouse(options, journal, settings ?? []) { TemporaryFolder = folder };
        await house.App.StartAsync(TestContext.Current.CancellationToken);
        return house;
    }

    /// <summary>A house with an owner, who is signed in.</summary>
    public static async Task<(LivingHouse House, Guest Owner)> Owned()
    {
        var house = await Start();
        var owner = house.Guest();
        var code = house.App.Services.GetRequiredService<FirstStart>().Code!;
        await owner.Does(
            PeopleAddresses.First,
            new FirstAsked(code, "Ada", Passphrase),
            PeopleJson.Default.FirstAsked
        );
        return (house, owner);
    }

    /// <summary>Takes its journal away while it runs, as a disk that is gone does.</summary>
    public ValueTask LoseTheJournal() => _journal.DisposeAsync();

    /// <summary>A browser without any cookie.</summary>
    public Guest Guest() => new(new Uri(App.Urls.First()));

    /// <summary>A person put straight into the house, signed in by the real way.</summary>
    public async Task<Guest> Somebody(Role role, string? name = null)
    {
        var guest = Guest();
        name ??= role.ToString();
        var invitations = App.Services.GetRequiredService<HouseInvitations>();
        var made = invitations.Make(role, null, Clock.GetCurrentInstant());
        await guest.Does(
            PeopleAddresses.Join,
            new JoinAsked(made.Code, name, Passphrase),
            PeopleJson.Default.JoinAsked
        );
        return guest;
    }

    public async ValueTask DisposeAsync()
    {
        await App.DisposeAsync();
        _feed.Dispose();
        _photos.Dispose();
        _gate.Dispose();
        await _journal.DisposeAsync();
        _file.Dispose();
        TemporaryFolder.Dispose();
    }
}
