using Broodtide.App;
using Broodtide.Phone;
using Broodtide.Phone.AtTheBench;
using Broodtide.Phone.Bench;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Counting;
using Broodtide.Phone.Keeping;
using Broodtide.Phone.Language;
using Broodtide.Phone.People;
using Broodtide.Phone.Photos;
using Broodtide.Phone.Pictures;
using Broodtide.Phone.Reminding;
using Broodtide.Phone.Sensing;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using NodaTime;

await Glue.Load();
var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<Shell>("#app");

var house = new Uri(builder.HostEnvironment.BaseAddress);
var preferences = new Preferences();
preferences.Load();
using var open = new HttpClient { BaseAddress = house };
var words = await Tongues.Read(open, Tongues.Meant(preferences.Tongue, Glue.PhoneSpeaks()));
preferences.Follow(words);
var clock = new PhoneClock();
clock.Watch();
var houseClock = new HouseClock(Glue.ReadSetting, (name, text) => Glue.WriteSetting(name, text));
var screen = new Screen();
screen.Watch();
builder
    .Services.AddSingleton<LaterPages>()
    .AddSingleton(preferences)
    .AddSingleton<Broodtide.Phone.Photos.HandedPhoto>()
    .AddSingleton(clock)
    .AddSingleton<IClock>(clock)
    .AddSingleton(screen)
    .AddSingleton(words)
    .AddSingleton<Formats>()
    .AddSingleton<PhoneZone>()
    .AddSingleton<Naming>()
    .AddSingleton<Sayings>()
    .AddSingleton<ActionWords>()
    .AddSingleton(services => new PictureText(words, services.GetRequiredService<Formats>()))
    .AddSingleton<PictureSpeech>()
    .AddSingleton<TideLineText>()
    .AddSingleton<Sounds>()
    .AddSingleton<BrowserStore>()
    .AddSingleton<Pen>()
    .AddSingleton<PaceMeter>()
    .AddTransient(_ => new Slicer())
    .AddSingleton<BenchMemory>()
    .AddSingleton<CrossingMemory>()
    .AddSingleton(new Drafts(Glue.ReadSetting, Glue.WriteSetting))
    .AddSingleton(new LastState(Glue.ReadSetting, Glue.WriteSetting))
    .AddSingleton<Invented>()
    .AddSingleton(new SignedIn(Glue.ReadSetting, Glue.WriteSetting))
    .AddSingleton(services =>
    {
        var ways = new PersonalWays(
            services.GetRequiredService<SignedIn>(),
            Glue.ReadSetting,
            Glue.WriteSetting,
            () => preferences.LoadAgain(words)
        );
        preferences.Chosen += ways.Chose;
        return ways;
    })
    .AddSingleton(services => new HouseWord(
        services.GetRequiredService<SignedIn>(),
        services.GetRequiredService<PhoneJournal>(),
        house
    )
    {
        // Every answer bears the house's time.
        InnerHandler = new HouseClockReader(houseClock, clock) { InnerHandler = new HttpClientHandler() },
    })
    .AddSingleton(services => new HttpClient(services.GetRequiredService<HouseWord>())
    {
        BaseAddress = house,
    })
    .AddSingleton<Entrance>()
    .AddSingleton<Upkeep>()
    .AddSingleton(houseClock)
    .AddSingleton<Copies>()
    .AddSingleton<ClockWords>()
    .AddSingleton<PhoneJournal>()
    .AddSingleton<IRowStore>(services => services.GetRequiredService<BrowserStore>())
    .AddSingleton<IPen>(services => services.GetRequiredService<Pen>())
    .AddSingleton<IServerLink, ServerExchange>()
    .AddSingleton<PhoneMeeting>()
    .AddSingleton<HouseAddress>()
    .AddSingleton<WetHands>()
    .AddSingleton<Desk>()
    .AddSingleton<PhotoStore>()
    .AddSingleton<PhotoShelf>()
    .AddSingleton<PhotoAlbum>()
    .AddSingleton<Broodtide.Workbench.Dossiers.IDossierShelf, Broodtide.Phone.Dossiers.PhoneDossiers>()
    .AddSingleton<StandingWater>()
    .AddSingleton<PageWork>()
    .AddSingleton<CalendarLink>()
    .AddSingleton<SensorShelf>(services =>
        new(services.GetRequiredService<HttpClient>(), services.GetRequiredService<BrowserStore>())
    )
    .AddSingleton<SensorWords>()
    .AddSingleton<PrintedSheets>()
    .AddSingleton<Nudges>()
    .AddTransient(_ => new Slicer());

var phone = builder.Build();
phone.Services.GetRequiredService<PhotoShelf>().Watch();
phone.Services.GetRequiredService<Nudges>().Watch();
phone.Services.GetRequiredService<Desk>().Met += () =>
    _ = phone.Services.GetRequiredService<SensorShelf>().AskAsync();

// What the house told of sensors is part of what is worked out; what was kept of it is read once the desk is used.
var sensors = phone.Services.GetRequiredService<SensorShelf>();
var desk = phone.Services.GetRequiredService<Desk>();
desk.Changed += () => _ = sensors.OpenAsync();
sensors.Changed += () =>
{
    if (sensors.Told is { } told)
    {
        desk.Take(told);
    }
};

// The house is told at once where it can be; else at the next opening.
preferences.Chosen += () => _ = phone.Services.GetRequiredService<Entrance>().TellWaysAsync();
await phone.RunAsync();
