using Broodtide.Server.Addresses;
using Broodtide.Server.Backups;
using Broodtide.Server.Calendar;
using Broodtide.Server.Looking;
using Broodtide.Server.Opening;
using Broodtide.Server.Operating;
using Broodtide.Server.People;
using Broodtide.Server.Photos;
using Broodtide.Server.Sensors;
using Broodtide.Server.Sharing;
using Broodtide.Server.Site;
using Broodtide.Server.Stores;
using Broodtide.Server.Trust;
using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;
using Broodtide.Units;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Hosting.StaticWebAssets;
using Microsoft.AspNetCore.Http.Features;
using NodaTime;

namespace Broodtide.Server;

/// <summary>Puts the server together and runs it until it is stopped.</summary>
internal static class House
{
    private const int Refused = 2;
    private const int Failed = 3;

    public static async Task<int> Run(ServerOptions options, CancellationToken cancel)
    {
        try
        {
            return await Serve(options, cancel);
        }
        catch (StoreUnusableException unusable)
        {
            await Console.Error.WriteLineAsync(StoreChoice.Sentence(unusable));
            return Failed;
        }
    }

    private static async Task<int> Serve(ServerOptions options, CancellationToken cancel)
    {
        options.DataFolder.Create();
        var sensors = SensorSettings.Read(options.DataFolder, Environment.GetEnvironmentVariable);
        if (!sensors.Succeeded)
        {
            await Console.Error.WriteLineAsync(Said.Sentence(sensors.Reason));
            return Refused;
        }

        using var store = options.Store is { } database ? PostgresStore.Open(database) : null;
        await using var journal = await SharedJournal.OpenAsync(options, store, cancel);
        using var house = Household.Open(options, store);
        using var gate = new Gate(
            journal,
            new HouseSharing(house),
            new PeopleOfTheHouse(new HousePeople(house)),
            SystemClock.Instance
        );
        var doorway = Doorway.For(options);
        if (doorway?.Prepare(house) is { } refusal)
        {
            await Console.Error.WriteLineAsync(Said.Sentence(refusal));
            return Refused;
        }

        using var photos = SharedPhotos.Open(options, journal, store);
        using var logging = LoggerFactory.Create(log => log.AddConsole().SetMinimumLevel(LogLevel.Warning));
        await using var room = await SensorRoom.OpenAsync(
            sensors.Value,
            store is null
                ? ReadingsFile.Open(SensorRoom.PathOf(options))
                : PostgresReadings.Open(store, SystemClock.Instance.GetCurrentInstant()),
            journal,
            options.DataFolder,
            SystemClock.Instance,
            logging.CreateLogger<SensorRoom>(),
            cancel
        );
        if (options.DemoSensors)
        {
            await room.InventAsync(cancel);
        }

        using var feed = new CalendarFeed(journal, SystemClock.Instance, room.Store);
        await using var app = Build(
            options,
            gate,
            photos,
            house,
            feed,
            doorway,
            keys: store is null ? null : new PostgresKeys(store),
            sensors: room
        );
        await using var trust = TrustSite.For(options, doorway);
        try
        {
            await app.StartAsync(cancel);
            await TrustSite.StartAsync(trust, options, doorway, cancel);
        }
        catch (IOException trouble)
        {
            await Console.Error.WriteLineAsync(
                Said.Sentence("port-taken", new Argument("message", trouble.Message))
            );
            return Failed;
        }

        if (!options.Demo && app.Services.GetRequiredService<FirstStart>().Code is { } code)
        {
            await Console.Out.WriteLineAsync(
                Said.Sentence("first-start", new Argument("page", $"{AddressOf(app, options)}/first#{code}"))
            );
        }

        // Of two servers on one database those with settings of sensors listen and watch; which of them tells, they claim.
        if (store is null || SensorSettings.AreIn(options.DataFolder))
        {
            room.Start(options.DemoSensors);
        }
        await Console.Out.WriteLineAsync($"Broodtide is at {AddressOf(app, options)}");
        await app.WaitForShutdownAsync(cancel);
        return 0;
    }

    public static WebApplication Build(
        ServerOptions options,
        Gate gate,
        SharedPhotos photos,
        HouseStore house,
        CalendarFeed feed,
        Doorway? doorway,
        IClock? clock = null,
        IReadOnlyList<(string Name, string Value)>? settings = null,
        PostgresKeys? keys = null,
        SensorRoom? sensors = null
    )
    {
        var builder = WebApplication.CreateBuilder(
            new WebApplicationOptions
            {
                // Whoever starts it, the list of the app's files goes by the name of this program.
                ApplicationName = typeof(House).Assembly.GetName().Name,
                ContentRootPath = AppContext.BaseDirectory,
            }
        );
        if (doorway is null)
        {
            builder.WebHost.UseUrls([.. options.Addresses.Select(address => address.AbsoluteUri)]);
        }
        else
        {
            doorway.Listen(builder, options);
        }

        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        // Before it is published, the phone's files lie in their own project.
        StaticWebAssetsLoader.UseStaticWebAssets(builder.Environment, builder.Configuration);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // Said by the framework because the keys lie in plain files; so they do, in a folder of their own.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        // It tells of every answer that must not be stored, and of every request that it refuses.
        builder.Logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Error);
        // Tells the system's own starter when it is up and when it stops; nothing where none started it.
        builder.Services.AddSystemd();
        builder.Configuration.AddInMemoryCollection(
            settings?.Select(setting => KeyValuePair.Create(setting.Name, (string?)setting.Value))
        );
        builder.Services.AddTelemetry(builder.Configuration);
        builder.Services.AddHealth(gate);
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton(photos);
        builder.Services.AddBackups(options);
        builder.Services.AddPeople(options, house, keys, clock ?? SystemClock.Instance);
        // A page elsewhere that points its own name at this machine is turned away.
        builder.Services.AddHostFiltering(filter =>
            filter.AllowedHosts = [.. doorway?.Hosts ?? AllowedHosts(builder.Configuration)]
        );

        var app = builder.Build();
        app.UseStoreAway();
        doorway?.Guard(app);
        app.UseHostFiltering();
        app.UseSafeHeaders(stays: options.Opening is { VouchesForItself: false });
        app.UseRateLimiter();
        app.UseAuthentication();
        if (options.Demo)
        {
            app.LetInWhoeverIsHere();
        }

        app.UseAuthorization();
        app.RequireTokens();
        app.TellPhotosOfWriting();
        app.MapHealth();
        app.MapEntrance(allAreIn: options.Demo);
        app.MapMe();
        app.MapHousehold();
        app.MapGroup("").RequireJournalPolicies().MapJournal(gate);
        app.MapGroup("").RequireAuthorization(Policies.Owner).MapSharing(gate);
        app.MapGroup("").RequireAuthorization(Policies.Owner).MapBackups();
        app.MapGroup("").RequireAuthorization(Policies.Reader).MapPhotos();
        app.MapGroup("").RequireAuthorization(Policies.Helper).MapLooking();
        app.MapHouse(house, options.Opening).AllowAnonymous();
        app.MapTrust(options);
        app.MapCalendar(feed, new HouseCalendars(house), clock ?? SystemClock.Instance);
        if (sensors is not null)
        {
            app.MapSensors(sensors, clock ?? SystemClock.Instance);
        }

        app.MapPhone();
        app.Services.GetRequiredService<Passphrases>().Prepare();
        return app;
    }

    private static string[] AllowedHosts(ConfigurationManager settings) =>
        settings["Hosts"]?.Split(';', StringSplitOptions.RemoveEmptyEntries)
        ?? ["localhost", "127.0.0.1", "[::1]"];

    private static string AddressOf(WebApplication app, ServerOptions options) =>
        options.Opening?.Address.Origin
        ?? app.Services.GetRequiredService<IServer>()
            .Features.GetRequiredFeature<IServerAddressesFeature>()
            .Addresses.First();
}
