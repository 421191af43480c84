using Broodtide.Domain;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>What everything that keeps the readings of sensors must do; run by each of them.</summary>
public abstract class ReadingStoreContract : IAsyncLifetime
{
    protected static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    protected static readonly SensorId Salt = SensorId.Find("shelf-1", "salt")!;
    protected static readonly LocalDate Day = new(2026, 3, 1);
    protected static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);
    private static readonly VesselId Jar = new(Guid.CreateVersion7());
    private static readonly VesselId Tank = new(Guid.CreateVersion7());

    protected IReadingStore Store { get; private set; } = null!;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        Store = await MakeAsync();
        await Store.DescribeAsync(Water, new("Cel", "water", 0.0625, 10), Start, Token);
        await Store.DescribeAsync(Salt, new("sal:practical"), Start, Token);
    }

    public virtual async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        await Store.DisposeAsync();
    }

    /// <summary>An empty store.</summary>
    protected abstract Task<IReadingStore> MakeAsync();

    /// <summary>The same store, as after the program was ended and started again.</summary>
    protected abstract Task<IReadingStore> AgainAsync();

    [Fact]
    public async Task A_sensor_keeps_its_first_unit_and_hearing_and_takes_the_rest_anew()
    {
        await Store.DescribeAsync(Water, new("[degF]", "warm water"), Start + Duration.FromDays(1), Token);
        await EndAsync();
        var sensors = await Store.SensorsAsync(Token);
        Assert.Equal([Salt, Water], sensors.Select(sensor => sensor.Id));
        Assert.Equal(new SensorAbout("Cel", "warm water"), sensors[1].About);
        Assert.Equal(Start, sensors[1].FirstHeard);
        Assert.Null(sensors[1].Last);
        Assert.Null(sensors[1].Limits);
        Assert.Empty(sensors[1].Placements);
    }

    [Fact]
    public async Task Where_a_sensor_stood_is_kept_by_time()
    {
        Assert.True(await Store.PlaceAsync(Water, new(Start + Duration.FromHours(5), Tank), Token));
        Assert.True(await Store.PlaceAsync(Water, new(Start, Tank), Token));
        Assert.True(await Store.PlaceAsync(Water, new(Start, Jar), Token));
        Assert.True(await Store.PlaceAsync(Water, new(Start + Duration.FromHours(9), null), Token));
        Assert.False(await Store.PlaceAsync(SensorId.Find("shelf-9", "x")!, new(Start, Jar), Token));
        await EndAsync();
        var water = (await Store.SensorsAsync(Token))[1];
        Assert.Null(water.VesselAt(Start - Duration.FromSeconds(1)));
        Assert.Equal(Jar, water.VesselAt(Start));
        Assert.Equal(Tank, water.VesselAt(Start + Duration.FromHours(5)));
        Assert.Null(water.Vessel);
    }

    [Fact]
    public async Task Limits_are_chosen_and_given_up()
    {
        var limits = new SensorLimits(18, 26.5, 0.3, 300, 900, IsLifeThreatening: true);
        Assert.True(await Store.LimitAsync(Water, limits, Token));
        Assert.True(await Store.LimitAsync(Salt, new(null, null, 0, 0, null, false), Token));
        Assert.False(await Store.LimitAsync(SensorId.Find("shelf-9", "x")!, limits, Token));
        await EndAsync();
        Assert.Equal(limits, (await Store.SensorsAsync(Token))[1].Limits);
        Assert.Equal(
            new SensorLimits(null, null, 0, 0, null, false),
            (await Store.SensorsAsync(Token))[0].Limits
        );
        await Store.LimitAsync(Water, null, Token);
        Assert.Null((await Store.SensorsAsync(Token))[1].Limits);
    }

    [Fact]
    public async Task A_reading_that_comes_twice_is_one_and_the_first_value_stays()
    {
        Assert.Equal(new Taken(2, 0), await TakeAsync((0, 24.5), (10, 24.6)));
        Assert.Equal(new Taken(1, 2), await TakeAsync((10, 99), (0, 24.5), (20, 24.7)));
        await EndAsync();
        Assert.Equal(
            [Reading(0, 24.5), Reading(10, 24.6), Reading(20, 24.7)],
            await Store.OpenAsync(Water, Start, Start + Duration.FromDays(1), Token)
        );
        Assert.Empty(await Store.OpenAsync(Salt, Start, Start + Duration.FromDays(1), Token));
    }

    [Fact]
    public async Task Readings_come_in_any_order_and_the_newest_is_known()
    {
        await TakeAsync((40, 3), (10, 1));
        await TakeAsync((20, 2));
        Assert.Equal(
            [1.0, 2, 3],
            (await Store.OpenAsync(Water, Start, Start + Duration.FromDays(1), Token)).Select(r => r.Value)
        );
        Assert.Equal(
            [2.0],
            (
                await Store.OpenAsync(
                    Water,
                    Start + Duration.FromSeconds(20),
                    Start + Duration.FromSeconds(40),
                    Token
                )
            ).Select(r => r.Value)
        );
        await EndAsync();
        Assert.Equal(Reading(40, 3), (await Store.SensorsAsync(Token))[1].Last);
    }

    [Fact]
    public async Task Readings_of_a_sensor_that_nobody_described_are_kept_with_none_of_their_neighbours()
    {
        await Assert.ThrowsAsync<KeyNotFoundException>(async () =>
            await Store.TakeAsync(
                [new(Water, Reading(0, 1)), new(SensorId.Find("shelf-9", "x")!, Reading(0, 1))],
                Token
            )
        );
        Assert.Empty(await Store.OpenAsync(Water, Start, Start + Duration.FromDays(1), Token));
    }

    [Fact]
    public async Task A_day_is_closed_into_a_block_of_its_content()
    {
        await TakeAsync((0, 24.5), (3600, 25.5), (86_400, 7));
        await Store.TakeAsync([new(Salt, Reading(-1, 30))], Token);
        Assert.Equal(
            [new SensorDay(Salt, Day.PlusDays(-1)), new SensorDay(Water, Day)],
            await Store.OpenDaysAsync(Day.PlusDays(1), Token)
        );
        var block = await CloseAsync(null);
        await EndAsync();
        Assert.Equal(
            [new BlockSeen(block.Sha256, Day, 2, false)],
            await Store.BlocksAsync(Water, Day, Day, Token)
        );
        Assert.Empty(await Store.BlocksAsync(Water, Day.PlusDays(1), Day.PlusDays(9), Token));
        Assert.Equal(block.Readings, (await Store.BlockAsync(block.Sha256, Token))!.Value.Readings);
        Assert.Null(await Store.BlockAsync(new string('0', 64), Token));
        Assert.Equal(
            [Reading(86_400, 7)],
            await Store.OpenAsync(Water, Start, Start + Duration.FromDays(2), Token)
        );
        Assert.Equal(
            [
                new HourSummary(Start, 24.5, 24.5, 24.5, 1),
                new HourSummary(Start + Duration.FromHours(1), 25.5, 25.5, 25.5, 1),
            ],
            await Store.HoursAsync(Water, Start, Start + Duration.FromDays(1), Token)
        );
        Assert.Single(
            await Store.HoursAsync(Water, Start + Duration.FromHours(1), Start + Duration.FromHours(9), Token)
        );
    }

    [Fact]
    public async Task A_late_reading_waits_open_until_the_day_is_closed_anew()
    {
        await TakeAsync((0, 24.5));
        var first = await CloseAsync(null);
        await TakeAsync((5, 25));
        Assert.Equal([new SensorDay(Water, Day)], await Store.OpenDaysAsync(Day.PlusDays(1), Token));
        var second = DayBlock.Of(new(Water, Day), "Cel", [.. first.Readings, Reading(5, 25)]);
        Assert.False(await Store.CloseAsync(second, HourSummary.Of(second.Readings), null, Token));
        Assert.False(
            await Store.CloseAsync(second, HourSummary.Of(second.Readings), new string('0', 64), Token)
        );
        Assert.Equal(first.Sha256, Assert.Single(await Store.BlocksAsync(Water, Day, Day, Token)).Sha256);
        Assert.True(await Store.CloseAsync(second, HourSummary.Of(second.Readings), first.Sha256, Token));
        Assert.Equal(second.Sha256, Assert.Single(await Store.BlocksAsync(Water, Day, Day, Token)).Sha256);
        Assert.Null(await Store.BlockAsync(first.Sha256, Token));
        Assert.Empty(await Store.OpenAsync(Water, Start, Start + Duration.FromDays(1), Token));
        Assert.Equal(
            2,
            Assert.Single(await Store.HoursAsync(Water, Start, Start + Duration.FromDays(1), Token)).Count
        );
    }

    [Fact]
    public async Task What_arrives_while_a_day_is_closed_stays_open()
    {
        await TakeAsync((0, 24.5));
        var block = DayBlock.Of(new(Water, Day), "Cel", [Reading(0, 24.5)]);
        await TakeAsync((1, 9));
        Assert.True(await Store.CloseAsync(block, HourSummary.Of(block.Readings), null, Token));
        Assert.Equal(
            [Reading(1, 9)],
            await Store.OpenAsync(Water, Start, Start + Duration.FromDays(1), Token)
        );
    }

    [Fact]
    public async Task A_thinned_block_says_so_and_leaves_the_hours_as_they_are()
    {
        await TakeAsync((0, 1), (1, 2), (2, 3));
        var whole = await CloseAsync(null);
        var thin = DayBlock.Of(new(Water, Day), "Cel", [Reading(0, 1), Reading(2, 3)], cameAs: 3);
        Assert.True(await Store.CloseAsync(thin, null, whole.Sha256, Token));
        await EndAsync();
        Assert.Equal(
            [new BlockSeen(thin.Sha256, Day, 2, true)],
            await Store.BlocksAsync(Water, Day, Day, Token)
        );
        Assert.Equal(
            3,
            Assert.Single(await Store.HoursAsync(Water, Start, Start + Duration.FromDays(1), Token)).Count
        );
    }

    [Fact]
    public async Task An_alarm_keeps_its_first_end_and_its_first_witness()
    {
        var alarm = new AlarmSpan
        {
            Id = Guid.CreateVersion7(),
            Sensor = Water,
            Vessel = Jar,
            Kind = AlarmKind.TooHigh,
            Limit = 26,
            Worst = 26.4,
            From = Start,
            Raised = Start + Duration.FromMinutes(5),
            IsLifeThreatening = true,
        };
        var seen = new Acknowledged(Start + Duration.FromMinutes(6), Guid.CreateVersion7());
        var end = Start + Duration.FromHours(1);
        await Store.PutAsync(alarm, Token);
        await Store.PutAsync(alarm with { Seen = seen }, Token);
        await Store.PutAsync(alarm with { Worst = 27, Until = end }, Token);
        await Store.PutAsync(
            alarm with
            {
                Worst = 27,
                Until = end + Duration.FromHours(1),
                Seen = new(end, Guid.CreateVersion7()),
            },
            Token
        );
        await EndAsync();
        var expected = alarm with { Worst = 27, Until = end, Seen = seen };
        Assert.Equal([expected], await Store.AlarmsAsync(end, Token));
        Assert.Empty(await Store.AlarmsAsync(end + Duration.FromSeconds(1), Token));
    }

    [Fact]
    public async Task Alarms_that_last_are_told_whenever_they_began()
    {
        var silent = new AlarmSpan
        {
            Id = Guid.CreateVersion7(),
            Sensor = Salt,
            Kind = AlarmKind.Silent,
            Limit = 900,
            From = Start,
            Raised = Start + Duration.FromMinutes(15),
        };
        await Store.PutAsync(silent, Token);
        Assert.Equal([silent], await Store.AlarmsAsync(Start + Duration.FromDays(400), Token));
    }

    [Fact]
    public async Task Who_was_told_and_who_could_not_be_is_kept_in_order()
    {
        var alarm = Guid.CreateVersion7();
        var failed = new AlarmDelivery(alarm, Start, "mail", "first", 0, "mail-refused");
        var told = new AlarmDelivery(alarm, Start + Duration.FromMinutes(1), "mail", "first", 0);
        await Store.AddAsync(told, Token);
        await Store.AddAsync(failed, Token);
        await EndAsync();
        Assert.Equal([failed, told], await Store.DeliveriesAsync(Start, Token));
        Assert.Equal([told], await Store.DeliveriesAsync(Start + Duration.FromSeconds(1), Token));
    }

    [Fact]
    public async Task A_work_is_claimed_by_one_until_he_lets_it_go_by()
    {
        var (ada, jon) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        var minute = Duration.FromMinutes(1);
        Assert.True(await Store.ClaimAsync("telling", ada, Start, Start + minute, Token));
        Assert.False(await Store.ClaimAsync("telling", jon, Start, Start + minute, Token));
        Assert.True(await Store.ClaimAsync("other", jon, Start, Start + minute, Token));
        Assert.True(await Store.ClaimAsync("telling", ada, Start + minute, Start + (2 * minute), Token));
        await EndAsync();
        Assert.False(
            await Store.ClaimAsync(
                "telling",
                jon,
                Start + (2 * minute) - Duration.FromSeconds(1),
                Start + (9 * minute),
                Token
            )
        );
        Assert.True(
            await Store.ClaimAsync("telling", jon, Start + (2 * minute), Start + (9 * minute), Token)
        );
        Assert.False(
            await Store.ClaimAsync("telling", ada, Start + (3 * minute), Start + (9 * minute), Token)
        );
    }

    protected static RawReading Reading(long seconds, double value) =>
        new(Start + Duration.FromSeconds(seconds), value);

    private ValueTask<Taken> TakeAsync(params ReadOnlySpan<(long Seconds, double Value)> readings)
    {
        var taken = new List<SensorReading>();
        foreach (var (seconds, value) in readings)
        {
            taken.Add(new(Water, Reading(seconds, value)));
        }

        return Store.TakeAsync(taken, Token);
    }

    private async Task<DayBlock> CloseAsync(string? replaces)
    {
        var day = new SensorDay(Water, Day);
        var block = DayBlock.Of(day, "Cel", await Store.OpenAsync(Water, day.From, day.To, Token));
        Assert.True(await Store.CloseAsync(block, HourSummary.Of(block.Readings), replaces, Token));
        return block;
    }

    private async Task EndAsync()
    {
        await Store.DisposeAsync();
        Store = await AgainAsync();
    }
}
