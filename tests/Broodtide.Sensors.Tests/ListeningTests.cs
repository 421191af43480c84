using Broodtide.Domain;
using Broodtide.Server.Sensors;
using Broodtide.Storage.Blocks;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sensors;
using Microsoft.Extensions.Logging.Abstractions;
using MQTTnet;
using NodaTime;

namespace Broodtide.Sensors.Tests;

/// <summary>A server that listens to a broker that others wrote.</summary>
public sealed class ListeningTests : IAsyncLifetime
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly Instant Start = Instant.FromUtc(2026, 11, 1, 0, 0);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("sensors");
    private readonly IClock _clock = SystemClock.Instance;
    private SensorRoom? _room;
    private Broker _broker = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        if (_room is not null)
        {
            await _room.DisposeAsync();
        }

        if (_broker is not null)
        {
            await _broker.DisposeAsync();
        }

        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_reading_that_is_sent_is_kept_and_its_sensor_waits_for_a_vessel()
    {
        await OpenAsync();
        using var device = await _broker.DeviceAsync("shelf-1");
        await device.SayAsync(
            "broodtide/1/shelf-1/water/about",
            """{"unit":"Cel","label":"upper tank","resolution":0.0625,"everySeconds":10}""",
            retained: true
        );
        await SayAsync(device, (0, 24.5), (10, 24.5625));
        await KeptAsync(2);
        var sensor = Assert.Single(await _room!.Store.SensorsAsync(Stop));
        Assert.Equal(new SensorAbout("Cel", "upper tank", 0.0625, 10), sensor.About);
        Assert.Empty(sensor.Placements);
        Assert.Equal(24.5625, sensor.Last!.Value.Value);
    }

    [Fact]
    public async Task A_description_that_was_left_before_the_server_started_is_found()
    {
        _broker = await Broker.StartAsync();
        using (var device = await _broker.DeviceAsync("shelf-1"))
        {
            await device.SayAsync(
                "broodtide/1/shelf-1/salt/about",
                """{"unit":"sal:practical"}""",
                retained: true
            );
        }

        await OpenAsync();
        await Waited.ForAsync(async () => (await _room!.Store.SensorsAsync(Stop)).Count == 1);
    }

    [Fact]
    public async Task A_device_that_drops_off_is_silent_since_until_it_is_back()
    {
        await OpenAsync();
        var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (0, 24.5));
        await KeptAsync(1);
        Assert.Null(_room!.Intake.GoneSince("shelf-1"));
        // Thrown away without a farewell: the broker sends the last will.
        device.Dispose();
        await Waited.ForAsync(() => _room.Intake.GoneSince("shelf-1") is not null);
        using var again = await _broker.DeviceAsync("shelf-1");
        await Waited.ForAsync(() => _room.Intake.GoneSince("shelf-1") is null);
    }

    [Fact]
    public async Task What_comes_twice_late_and_out_of_order_is_kept_once_in_its_place()
    {
        await OpenAsync();
        using var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (20, 3), (0, 1));
        await SayAsync(device, (20, 3));
        await SayAsync(device, (10, 2), (0, 1));
        await KeptAsync(3);
        Assert.Equal([1.0, 2, 3], (await ReadAsync()).Select(reading => reading.Value));
        await Waited.ForAsync(() => _room!.Intake.Doubled == 2);
    }

    [Fact]
    public async Task Without_a_clock_the_running_number_tells_what_came_twice()
    {
        await OpenAsync();
        using var device = await _broker.DeviceAsync("shelf-1");
        foreach (var number in new[] { 1, 2, 2, 1, 3 })
        {
            await device.SayAsync(
                "broodtide/1/shelf-1/water/readings",
                $$"""{"seq":{{number}},"value":{{20 + number}},"unit":"Cel"}"""
            );
        }

        await Waited.ForAsync(() => _room!.Intake is { New: 3, Doubled: 2 });
    }

    [Fact]
    public async Task What_is_no_message_of_ours_is_refused_by_a_code_and_counted_and_the_rest_goes_on()
    {
        await OpenAsync();
        using var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (0, 24.5));
        (string Topic, string Text)[] hostile =
        [
            ("broodtide/1/shelf-1/water/readings", "no json"),
            ("broodtide/1/shelf-1/water/readings", """{"value":1e400,"unit":"Cel"}"""),
            ("broodtide/1/shelf-1/water/readings", """{"value":5000,"unit":"Cel"}"""),
            ("broodtide/1/shelf-1/water/readings", """{"value":24,"unit":"[degF]"}"""),
            ("broodtide/1/shelf-1/water/readings", """{"value":24,"unit":"metre"}"""),
            (
                "broodtide/1/shelf-1/water/readings",
                """{"at":"2199-01-01T00:00:00Z","value":24,"unit":"Cel"}"""
            ),
            (
                "broodtide/1/shelf-1/water/readings",
                """{"at":"1999-01-01T00:00:00Z","value":24,"unit":"Cel"}"""
            ),
            ("broodtide/1/shelf-1/water/readings", new string('[', 60_000)),
            ("broodtide/1/shelf-1/water/readings", new string(' ', 70_000)),
            ("broodtide/1/house/water/readings", """{"value":24,"unit":"Cel"}"""),
            ("broodtide/1/shelf 1/water/readings", """{"value":24,"unit":"Cel"}"""),
            ("broodtide/1/shelf-1/water/about", """{"unit":"Cel","label":7}"""),
            ("broodtide/1/shelf-1/status", """{"state":"<script>"}"""),
        ];
        foreach (var (topic, text) in hostile)
        {
            await device.SayAsync(topic, text);
        }

        await SayAsync(device, (10, 24.6));
        await KeptAsync(2);
        await Waited.ForAsync(() => _room!.Intake.Refused.ByCode.Values.Sum() == hostile.Length);
        Assert.Equal(
            new Dictionary<string, long>
            {
                ["sensor-message-not-json"] = 2,
                ["sensor-message-member-wrong"] = 3,
                ["sensor-value-impossible"] = 1,
                ["sensor-unit-changed"] = 1,
                ["sensor-unit-unknown"] = 1,
                ["sensor-time-ahead"] = 1,
                ["sensor-time-too-old"] = 1,
                ["sensor-message-too-long"] = 1,
                ["sensor-topic-wrong"] = 2,
            },
            _room!.Intake.Refused.ByCode
        );
    }

    [Fact]
    public async Task A_broker_that_falls_and_comes_back_is_found_again()
    {
        await OpenAsync();
        await _broker.KillAsync();
        await Waited.ForAsync(() => !_room!.Listening!.IsConnected);
        await _broker.StartAgainAsync();
        await Waited.ForAsync(() => _room!.Listening!.Trouble is null && _room.Listening.IsConnected);
        using var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (0, 24.5));
        await KeptAsync(1);
    }

    [Fact]
    public async Task What_is_sent_while_the_server_is_down_comes_when_it_is_back()
    {
        await OpenAsync();
        await _room!.DisposeAsync();
        using var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (0, 24.5), (10, 24.6));
        await OpenAsync();
        await KeptAsync(2);
    }

    [Fact]
    public async Task What_the_disk_refused_is_not_acknowledged_and_comes_again()
    {
        var full = new FullAtFirst(ReadingsFile.Open(Path.Combine(_folder.FullName, "readings.db")));
        await OpenAsync(full);
        using var device = await _broker.DeviceAsync("shelf-1");
        await SayAsync(device, (0, 24.5));
        await Waited.ForAsync(() => full.Refusals > 0);
        full.IsFull = false;
        await KeptAsync(1);
    }

    [Fact]
    public async Task A_closed_broker_is_reached_with_its_authority_and_the_right_password()
    {
        _broker = await Broker.StartAsync(isClosed: true);
        var settings = new BrokerSettings(
            "localhost",
            _broker.Port,
            true,
            _broker.Authority,
            "device",
            "right"
        );
        await OpenAsync(broker: settings);
        using var device = await _broker.DeviceAsync("shelf-1", "right");
        await SayAsync(device, (0, 24.5));
        await KeptAsync(1);
    }

    [Fact]
    public async Task A_closed_broker_refuses_a_wrong_password_and_a_stranger_in_its_place_is_not_trusted()
    {
        _broker = await Broker.StartAsync(isClosed: true);
        await OpenAsync(
            broker: new BrokerSettings("localhost", _broker.Port, true, _broker.Authority, "device", "wrong"),
            waits: false
        );
        await Waited.ForAsync(() => _room!.Listening!.Trouble == "sensor-broker-refused");
        await _room!.DisposeAsync();
        // Without the authority no certificate of it counts.
        await OpenAsync(
            broker: new BrokerSettings("localhost", _broker.Port, true, null, "device", "right"),
            waits: false
        );
        await Task.Delay(1500, Stop);
        Assert.Equal("sensor-broker-away", _room!.Listening!.Trouble);
    }

    private async Task OpenAsync(
        IReadingStore? store = null,
        BrokerSettings? broker = null,
        bool waits = true
    )
    {
        _broker ??= await Broker.StartAsync();
        _room = await SensorRoom.OpenAsync(
            new SensorSettings { Mqtt = broker ?? new BrokerSettings("127.0.0.1", _broker.Port) },
            store ?? ReadingsFile.Open(Path.Combine(_folder.FullName, "readings.db")),
            new MemoryJournal(new ReplicaId(Guid.CreateVersion7())),
            _folder,
            _clock,
            NullLogger.Instance,
            Stop
        );
        _room.Start();
        if (waits)
        {
            await Waited.ForAsync(() => _room.Listening!.Trouble is null);
        }
    }

    private static Task SayAsync(IMqttClient device, params (int Seconds, double Value)[] readings) =>
        device.SayAsync(
            "broodtide/1/shelf-1/water/readings",
            $"[{string.Join(
                ',',
                readings.Select(reading =>
                    FormattableString.Invariant(
                        $$"""{"at":"{{Start + Duration.FromSeconds(reading.Seconds)}}","value":{{reading.Value}},"unit":"Cel"}"""
                    )
                )
            )}]"
        );

    private Task<IReadOnlyList<RawReading>> ReadAsync() =>
        SensorHistory.ReadingsAsync(_room!.Store, Water, Start, Start + Duration.FromDays(1), Stop);

    private Task KeptAsync(int count) => Waited.ForAsync(async () => (await ReadAsync()).Count == count);
}
