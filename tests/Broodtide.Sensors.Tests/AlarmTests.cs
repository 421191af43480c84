using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Server.Calendar;
using Broodtide.Server.People;
using Broodtide.Server.Sensors;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;
using MQTTnet;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Sensors.Tests;

/// <summary>From a reading outside its limits to somebody who has seen the alarm.</summary>
public sealed class AlarmTests : IAsyncLifetime
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly Instant Start = Instant.FromUtc(2026, 7, 20, 16, 0);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("alarms");
    private readonly FakeClock _clock = new(Start);
    private readonly MemoryJournal _journal = new(new ReplicaId(Guid.CreateVersion7()));
    private readonly KeptLog _log = new();
    private VesselId _jar;
    private SensorRoom? _room;
    private Postbox? _postbox;
    private Broker? _broker;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        await _journal.AppendAsync([.. InventedHouse.Drafts(Start, zone)], Stop);
        var house = new House(Account.Of(await _journal.ReadAllAsync(Stop)));
        _jar = house
            .Vessels.First(vessel => vessel is { Role: VesselRole.LarvalVessel, Standing: not null })
            .Id;
    }

    public async ValueTask DisposeAsync()
    {
        if (_room is not null)
        {
            await _room.DisposeAsync();
        }

        if (_postbox is not null)
        {
            await _postbox.DisposeAsync();
        }

        if (_broker is not null)
        {
            await _broker.DisposeAsync();
        }

        await _journal.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task Warm_water_is_told_by_mail_then_to_the_next_and_no_more_once_it_was_seen()
    {
        _postbox = new();
        await OpenAsync();
        await ReadAsync(0, 24);
        await ReadAsync(60, 33);
        Assert.Empty(_postbox.Mails);
        await ReadAsync(400, 33.5);
        var mail = Assert.Single(_postbox.Mails);
        Assert.Equal("ada@example.org", mail.To);
        Assert.Contains("33.5", mail.Text, StringComparison.Ordinal);
        await PassAsync(500);
        Assert.Single(_postbox.Mails);
        await PassAsync(400 + 900);
        Assert.Equal(
            ["ada@example.org", "ada@example.org", "jon@example.org"],
            _postbox.Mails.Select(one => one.To).Order()
        );
        var alarm = Assert.Single((await _room!.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms);
        Assert.Equal(
            (AlarmKind.TooHigh, _jar.Value, true),
            (alarm.Kind, alarm.Vessel, alarm.IsLifeThreatening)
        );
        Assert.Empty(alarm.NotDelivered);
        Assert.True(await _room.AcknowledgeAsync(alarm.Id, Guid.NewGuid(), _clock.GetCurrentInstant(), Stop));
        foreach (var seconds in new[] { 1301, 2200, 3000, 3900 })
        {
            await ReadAsync(seconds, 33.5);
        }

        Assert.Equal(3, _postbox.Mails.Count);
    }

    [Fact]
    public async Task A_mail_that_cannot_be_handed_over_is_shown_logged_without_an_address_and_tried_again()
    {
        var port = Broker.FreePort();
        await OpenAsync(port: port);
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        var alarm = Assert.Single((await _room!.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms);
        Assert.Equal(["mail-not-reached"], alarm.NotDelivered);
        var line = Assert.Single(_log.Lines);
        Assert.Contains("mail-not-reached", line, StringComparison.Ordinal);
        Assert.Contains("first", line, StringComparison.Ordinal);
        Assert.DoesNotContain("@", line, StringComparison.Ordinal);
        Assert.DoesNotContain("right", line, StringComparison.Ordinal);
        _postbox = new(port);
        await PassAsync(430);
        Assert.Empty(_postbox.Mails);
        await PassAsync(461);
        Assert.Single(_postbox.Mails);
        Assert.Empty((await _room.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms.Single().NotDelivered);
    }

    [Fact]
    public async Task A_wrong_password_of_the_mail_is_told_by_its_own_code()
    {
        _postbox = new();
        await OpenAsync(password: "wrong");
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        Assert.Equal(
            ["mail-sign-in-refused"],
            (await _room!.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms.Single().NotDelivered
        );
    }

    [Fact]
    public async Task An_alarm_that_lasts_stands_in_the_calendar_until_somebody_has_seen_it()
    {
        await OpenAsync();
        var address = new CalendarAddress(
            new PersonId(Guid.NewGuid()),
            Start - Duration.FromDays(1),
            "Europe/Berlin",
            "metric.hours24.point.23:00-07:00"
        );
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        var alarm = Assert.Single((await _room!.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms);
        using (var feed = new CalendarFeed(_journal, _clock, _room.Store))
        {
            var text = await feed.TextAsync(address, Stop);
            Assert.Contains("SUMMARY:Alarm: ", text, StringComparison.Ordinal);
            Assert.Contains($"alarm-{alarm.Id:N}@broodtide", text, StringComparison.Ordinal);
        }

        await _room.AcknowledgeAsync(alarm.Id, Guid.NewGuid(), _clock.GetCurrentInstant(), Stop);
        using var later = new CalendarFeed(_journal, _clock, _room.Store);
        Assert.DoesNotContain(
            "SUMMARY:Alarm: ",
            await later.TextAsync(address, Stop),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_sensor_that_nobody_placed_raises_no_alarm()
    {
        _postbox = new();
        await OpenAsync(isPlaced: false);
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        await PassAsync(90_000);
        Assert.Empty(_postbox.Mails);
        Assert.Empty((await _room!.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms);
    }

    [Fact]
    public async Task Silence_is_told_and_limits_of_the_keeper_count_before_those_of_the_species()
    {
        _postbox = new();
        await OpenAsync();
        await _room!.Store.LimitAsync(Water, new(10, 40, 0, 0, 3600, false), Stop);
        _room.Changed();
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        await PassAsync(3999);
        Assert.Empty(_postbox.Mails);
        await PassAsync(4001);
        var alarm = Assert.Single((await _room.SeenAsync(_clock.GetCurrentInstant(), Stop)).Alarms);
        Assert.Equal(AlarmKind.Silent, alarm.Kind);
        Assert.Single(_postbox.Mails);
    }

    [Fact]
    public async Task Whoever_listens_to_the_broker_hears_an_alarm_while_it_lasts_and_its_end()
    {
        _broker = await Broker.StartAsync();
        await OpenAsync(broker: new("127.0.0.1", _broker.Port));
        _room!.Listening!.Start();
        await Waited.ForAsync(() => _room.Listening.Trouble is null);
        using var listener = await _broker.DeviceAsync("listener");
        var heard = new List<(string Topic, string Text)>();
        listener.ApplicationMessageReceivedAsync += message =>
        {
            lock (heard)
            {
                heard.Add(
                    (
                        message.ApplicationMessage.Topic,
                        message.ApplicationMessage.ConvertPayloadToString() ?? ""
                    )
                );
            }

            return Task.CompletedTask;
        };
        await listener.SubscribeAsync("broodtide/1/house/alarms/+", cancellationToken: Stop);
        await ReadAsync(60, 33);
        await ReadAsync(400, 33.5);
        await Waited.ForAsync(() => heard.Count == 1);
        var told = JsonSerializer.Deserialize(heard[0].Text, SensorsJson.Default.AlarmSeen)!;
        Assert.Equal((AlarmKind.TooHigh, "shelf-1/water"), (told.Kind, told.Sensor));
        Assert.Equal($"broodtide/1/house/alarms/{told.Id}", heard[0].Topic);
        await ReadAsync(500, 24);
        await ReadAsync(900, 24);
        await Waited.ForAsync(() => heard.Count == 3);
        Assert.NotNull(JsonSerializer.Deserialize(heard[1].Text, SensorsJson.Default.AlarmSeen)!.Until);
        Assert.Equal("", heard[2].Text);
    }

    [Fact]
    public async Task A_phone_sees_hours_says_which_vessel_sets_limits_and_acknowledges()
    {
        await OpenAsync(isPlaced: false);
        await using var app = await ServeAsync();
        using var phone = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        await ReadAsync(0, 24);
        var before = await SeenAsync(phone);
        var sensor = Assert.Single(before.Sensors);
        Assert.Equal(("shelf-1/water", false, 24.0), (sensor.Id, sensor.WasPlaced, sensor.LastValue));
        Assert.Equal(24, Assert.Single(sensor.Hours).Mean);
        Assert.Equal(
            HttpStatusCode.NoContent,
            await PostAsync(
                phone,
                "place",
                new PlaceAsked(sensor.Id, _jar.Value),
                SensorsJson.Default.PlaceAsked
            )
        );
        SensorLimits limits = new(20, 25, 0.2, 0, 3600, true);
        Assert.Equal(
            HttpStatusCode.BadRequest,
            await PostAsync(
                phone,
                "limits",
                new LimitsAsked(sensor.Id, limits with { Low = 25 }),
                SensorsJson.Default.LimitsAsked
            )
        );
        Assert.Equal(
            HttpStatusCode.NoContent,
            await PostAsync(
                phone,
                "limits",
                new LimitsAsked(sensor.Id, limits),
                SensorsJson.Default.LimitsAsked
            )
        );
        await ReadAsync(60, 26);
        var seen = await SeenAsync(phone);
        Assert.Equal(
            (_jar.Value, true, limits),
            (seen.Sensors[0].Vessel, seen.Sensors[0].OwnLimits, seen.Sensors[0].Limits)
        );
        var alarm = Assert.Single(seen.Alarms);
        Assert.Null(alarm.SeenAt);
        Assert.Equal(
            HttpStatusCode.NoContent,
            await PostAsync(
                phone,
                "acknowledge",
                new AcknowledgeAsked(alarm.Id),
                SensorsJson.Default.AcknowledgeAsked
            )
        );
        Assert.NotNull((await SeenAsync(phone)).Alarms[0].SeenAt);
        Assert.Equal(
            HttpStatusCode.NotFound,
            await PostAsync(phone, "place", new PlaceAsked("no/one", null), SensorsJson.Default.PlaceAsked)
        );
        Assert.Equal(
            HttpStatusCode.BadRequest,
            await PostAsync(phone, "place", new PlaceAsked("../../x", null), SensorsJson.Default.PlaceAsked)
        );
    }

    private async Task OpenAsync(
        int? port = null,
        string password = "right",
        bool isPlaced = true,
        BrokerSettings? broker = null
    )
    {
        _room = await SensorRoom.OpenAsync(
            new SensorSettings
            {
                Mqtt = broker,
                Mail = new(
                    "127.0.0.1",
                    "house@example.org",
                    port ?? _postbox?.Port ?? 1,
                    "none",
                    "house",
                    password
                ),
                People =
                [
                    new("first", "ada@example.org"),
                    new("second", "jon@example.org", 1, Language: "de"),
                ],
            },
            ReadingsFile.Open(Path.Combine(_folder.FullName, "readings.db")),
            _journal,
            _folder,
            _clock,
            _log,
            Stop
        );
        await _room.Intake.KeepAsync(Water, new("Cel"), [], Stop);
        if (isPlaced)
        {
            await _room.Store.PlaceAsync(Water, new(Start - Duration.FromDays(1), _jar), Stop);
        }
    }

    private async Task ReadAsync(int seconds, double value)
    {
        _clock.Reset(Start + Duration.FromSeconds(seconds));
        RawReading reading = new(Start + Duration.FromSeconds(seconds), value);
        await _room!.Intake.KeepAsync(Water, new("Cel"), [reading], Stop);
        await _room.Rounds.PassAsync([new(Water, reading)], Stop);
    }

    private async Task PassAsync(int seconds)
    {
        _clock.Reset(Start + Duration.FromSeconds(seconds));
        await _room!.Rounds.PassAsync([], Stop);
    }

    private async Task<WebApplication> ServeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        builder.Services.AddPolicies();
        var app = builder.Build();
        app.LetInWhoeverIsHere();
        app.UseAuthorization();
        app.MapSensors(_room!, _clock);
        await app.StartAsync(Stop);
        return app;
    }

    private static async Task<SensorsSeen> SeenAsync(HttpClient phone) =>
        (
            await phone.GetFromJsonAsync(
                new Uri(SensorsSeen.Path, UriKind.Relative),
                SensorsJson.Default.SensorsSeen,
                Stop
            )
        )!;

    private static async Task<HttpStatusCode> PostAsync<T>(
        HttpClient phone,
        string path,
        T asked,
        JsonTypeInfo<T> shape
    )
    {
        using var content = new StringContent(
            JsonSerializer.Serialize(asked, shape),
            Encoding.UTF8,
            "application/json"
        );
        using var answer = await phone.PostAsync(
            new Uri($"{SensorsSeen.Path}/{path}", UriKind.Relative),
            content,
            Stop
        );
        return answer.StatusCode;
    }

    private sealed class KeptLog : ILogger
    {
        public List<string> Lines { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel,
            EventId eventId,
            TState state,
            Exception? exception,
            Func<TState, Exception?, string> formatter
        ) => Lines.Add(formatter(state, exception));
    }
}
