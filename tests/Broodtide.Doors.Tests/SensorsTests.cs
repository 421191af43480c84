using System.Text.Json;
using Broodtide.Doors.Tests.Kit;
using Broodtide.Storage.Blocks;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Doors.Tests;

/// <summary>The command line beside a file of sensors, as a server left it.</summary>
public sealed class SensorsTests
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly Instant Began = Kitchen.Now - Duration.FromMinutes(40);
    private static readonly Guid Alarm = AlarmWatch.IdOf(Water, AlarmKind.TooHigh, Began);

    private static async Task<Kitchen> HotAsync()
    {
        var kitchen = await Kitchen.WithDemoAsync();
        var cancel = TestContext.Current.CancellationToken;
        await using (var store = ReadingsFile.Open(ReadingsFile.BesidePath(kitchen.Journal)))
        {
            await store.DescribeAsync(Water, new("Cel", "upper jar"), Began, cancel);
            await store.TakeAsync([new(Water, new(Kitchen.Now - Duration.FromMinutes(1), 29.5))], cancel);
            await store.PutAsync(
                new()
                {
                    Id = Alarm,
                    Sensor = Water,
                    Kind = AlarmKind.TooHigh,
                    Limit = 28,
                    Worst = 29.5,
                    From = Began,
                    Raised = Began + Duration.FromMinutes(5),
                },
                cancel
            );
            await store.AddAsync(
                new(Alarm, Began + Duration.FromMinutes(5), "mail", "first", 0, "mail-not-reached"),
                cancel
            );
        }

        await kitchen.DoAsync("sensors", "place", "shelf-1/water", "Jar A");
        return kitchen;
    }

    private static JsonElement? Item(Outcome due, string code) =>
        due
            .Json.GetProperty("items")
            .EnumerateArray()
            .Select(item => (JsonElement?)item.GetProperty("action"))
            .FirstOrDefault(action => action!.Value.GetProperty("code").GetString() == code);

    [Fact]
    public async Task An_alarm_is_due_until_somebody_says_that_he_has_seen_it()
    {
        using var kitchen = await HotAsync();
        var action = Item(await kitchen.DoAsync("due", "--json"), "see-alarm")!.Value;
        Assert.Contains("29.5", action.GetProperty("reason").GetString(), StringComparison.Ordinal);
        var command = action.GetProperty("command").GetString()!;
        Assert.Contains("upper jar", (await kitchen.DoAsync("due")).Out, StringComparison.Ordinal);

        await kitchen.DoAsync(Kitchen.Split(command)[1..]);

        Assert.Null(Item(await kitchen.DoAsync("due", "--json"), "see-alarm"));
        var told = (await kitchen.DoAsync("sensors", "alarms", "--json")).Json.GetProperty("alarms")[0];
        Assert.Equal("2026-03-10T19:00:00Z", told.GetProperty("seenAt").GetString());
        kitchen.Clock.AdvanceMinutes(5);
        var again = await kitchen.DoAsync("sensors", "see", Alarm.ToString(), "--json");
        Assert.True(again.Json.GetProperty("wasSeenBefore").GetBoolean());
        Assert.Equal("2026-03-10T19:00:00Z", again.Json.GetProperty("seenAt").GetString());
    }

    [Fact]
    public async Task An_alarm_that_could_not_be_delivered_says_why()
    {
        using var kitchen = await HotAsync();

        var page = (await kitchen.DoAsync("sensors", "alarms")).Out;
        Assert.Contains(
            $"Alarm {Alarm.ToString()[^6..]}: somebody could not be told. The mail server cannot be reached.",
            page,
            StringComparison.Ordinal
        );
        Assert.Contains("sensors see", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("a1b2")]
    [InlineData("ffffff")]
    [InlineData("0195557c-0000-7000-8000-0000000000a7")]
    public async Task An_alarm_that_there_is_not_is_not_seen(string typed)
    {
        using var kitchen = await HotAsync();

        var no = await kitchen.RunAsync("sensors", "see", typed);

        Assert.Equal(2, no.Code);
        Assert.Contains(typed, no.Error, StringComparison.Ordinal);
        Assert.NotNull(Item(await kitchen.DoAsync("due", "--json"), "see-alarm"));
    }

    [Fact]
    public async Task Invented_sensors_say_so_count_for_their_waters_and_one_is_found_to_be_stuck()
    {
        using var kitchen = new Kitchen();
        await kitchen.DoAsync("demo", kitchen.Journal, "--sensors");

        var sensors = (await kitchen.DoAsync("sensors", "list", "--json")).Json.GetProperty("sensors");
        Assert.All(
            sensors.EnumerateArray(),
            sensor =>
                Assert.EndsWith(
                    "(invented)",
                    sensor.GetProperty("label").GetString(),
                    StringComparison.Ordinal
                )
        );
        Assert.Equal(
            ["Green jar", "Jar A", "River tank"],
            sensors.EnumerateArray().Select(sensor => sensor.GetProperty("vessel").GetString()).Order()
        );
        var action = Item(await kitchen.DoAsync("due", "--json"), "check-sensor")!.Value;
        Assert.Equal("River tank", action.GetProperty("about").GetString());
        Assert.Contains("24.1", action.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.Null(Item(await kitchen.DoAsync("due", "--json"), "hear-sensor"));
    }

    [Fact]
    public async Task A_sensors_file_that_cannot_be_read_is_said_and_holds_up_nothing()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await File.WriteAllTextAsync(
            ReadingsFile.BesidePath(kitchen.Journal),
            "no readings are kept in here",
            TestContext.Current.CancellationToken
        );

        var due = await kitchen.RunAsync("due", "--json");

        Assert.Equal(0, due.Code);
        Assert.NotEmpty(due.Error);
        Assert.NotEmpty(due.Json.GetProperty("items").EnumerateArray());
    }
}
