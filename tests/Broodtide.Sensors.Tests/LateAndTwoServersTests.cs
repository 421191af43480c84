using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Server.Sensors;
using Broodtide.Storage.Blocks;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sensors;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Sensors.Tests;

/// <summary>Readings that come after newer ones, and two servers that keep one store.</summary>
public sealed class LateAndTwoServersTests : IAsyncLifetime
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly Instant Start = Instant.FromUtc(2026, 7, 20, 16, 0);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("late");
    private readonly FakeClock _clock = new(Start);
    private readonly MemoryJournal _journal = new(new ReplicaId(Guid.CreateVersion7()));
    private readonly Postbox _postbox = new();
    private readonly List<SensorRoom> _rooms = [];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        await _journal.AppendAsync(
            [.. InventedHouse.Drafts(Start, DateTimeZoneProviders.Tzdb["Europe/Berlin"])],
            Stop
        );
        await OpenAsync();
        await OpenAsync();
        var house = new House(Account.Of(await _journal.ReadAllAsync(Stop)));
        var jar = house
            .Vessels.First(vessel => vessel is { Role: VesselRole.LarvalVessel, Standing: not null })
            .Id;
        await _rooms[0].Intake.KeepAsync(Water, new("Cel"), [], Stop);
        await _rooms[0].Store.PlaceAsync(Water, new(Start - Duration.FromDays(1), jar), Stop);
        await _rooms[0].Store.LimitAsync(Water, new(20, 26, 0.3, 300, 7200, true), Stop);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var room in _rooms)
        {
            await room.DisposeAsync();
        }

        await _postbox.DisposeAsync();
        await _journal.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task What_was_kept_while_nobody_listened_raises_an_alarm_that_says_it_was_learned_late()
    {
        await ReadAsync(0, 0, 24);
        await ReadAsync(0, 3600, 24.2);
        // Sent now, of half an hour ago: ten minutes too warm.
        await SendAsync(
            0,
            [.. Enumerable.Range(0, 40).Select(at => At(1200 + (30 * at), at is >= 10 and < 30 ? 28.5 : 24))]
        );

        var alarm = Assert.Single((await SeenAsync()).Alarms);
        Assert.True(alarm.LearnedLate);
        Assert.Equal((AlarmKind.TooHigh, 28.5), (alarm.Kind, alarm.Worst));
        Assert.Equal((Start + Duration.FromSeconds(1500)).ToUnixTimeMilliseconds(), alarm.From);
        Assert.Equal((Start + Duration.FromSeconds(2100)).ToUnixTimeMilliseconds(), alarm.Until);
        await PassAsync(0, 3700);
        Assert.Empty(_postbox.Mails);

        // The same once more is the same alarm.
        await SendAsync(0, [At(1500, 28.5)]);
        Assert.Single((await SeenAsync()).Alarms);
    }

    [Fact]
    public async Task What_came_late_and_is_no_alarm_raises_none_nor_does_what_is_older_than_a_day()
    {
        await ReadAsync(0, 90_000, 24);
        await SendAsync(0, [At(60, 30), At(400, 30), At(800, 24), At(1200, 24)]);
        await SendAsync(0, [At(80_000, 30), At(80_100, 24)]);

        Assert.Empty((await SeenAsync()).Alarms);
    }

    [Fact]
    public async Task An_alarm_that_was_known_in_time_is_not_learned_late()
    {
        await ReadAsync(0, 0, 28);
        await ReadAsync(0, 330, 28);
        await ReadAsync(0, 660, 24);
        await ReadAsync(0, 990, 24);

        Assert.False(Assert.Single((await SeenAsync()).Alarms).LearnedLate);
    }

    [Fact]
    public async Task Of_two_servers_on_one_store_that_both_hear_the_sensor_one_mails()
    {
        // Each hears every other reading, as where they share one subscription.
        for (var at = 0; at <= 12; at++)
        {
            await ReadAsync(at % 2, 60 * at, 28 + (0.01 * at));
            await PassAsync((at + 1) % 2, (60 * at) + 1);
        }

        Assert.Single(_postbox.Mails);
        Assert.Single((await SeenAsync()).Alarms);
    }

    [Fact]
    public async Task Where_the_one_that_tells_has_ended_the_other_goes_on()
    {
        await ReadAsync(0, 0, 28);
        await ReadAsync(0, 330, 28);
        Assert.Single(_postbox.Mails);
        // The next step is due after fifteen minutes; the first server is not heard of any more.
        await PassAsync(1, 440);
        Assert.Single(_postbox.Mails);
        await PassAsync(1, 330 + 901);
        Assert.Equal(3, _postbox.Mails.Count);
    }

    private static RawReading At(int seconds, double value) =>
        new(Start + Duration.FromSeconds(seconds), value);

    private async Task OpenAsync() =>
        _rooms.Add(
            await SensorRoom.OpenAsync(
                new SensorSettings
                {
                    Mail = new("127.0.0.1", "house@example.org", _postbox.Port, "none", "house", "right"),
                    People = [new("first", "ada@example.org"), new("second", "jon@example.org", 1)],
                },
                ReadingsFile.Open(Path.Combine(_folder.FullName, "readings.db")),
                _journal,
                _folder,
                _clock,
                NullLogger.Instance,
                Stop
            )
        );

    private Task ReadAsync(int server, int seconds, double value)
    {
        _clock.Reset(Start + Duration.FromSeconds(seconds));
        return SendAsync(server, [At(seconds, value)]);
    }

    private async Task SendAsync(int server, IReadOnlyList<RawReading> readings)
    {
        await _rooms[server].Intake.KeepAsync(Water, new("Cel"), readings, Stop);
        await _rooms[server]
            .Rounds.PassAsync([.. readings.Select(reading => new SensorReading(Water, reading))], Stop);
    }

    private async Task PassAsync(int server, int seconds)
    {
        _clock.Reset(Start + Duration.FromSeconds(seconds));
        await _rooms[server].Rounds.PassAsync([], Stop);
    }

    private Task<SensorsSeen> SeenAsync() => _rooms[0].SeenAsync(_clock.GetCurrentInstant(), Stop);
}
