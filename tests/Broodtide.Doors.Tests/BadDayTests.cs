using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class BadDayTests
{
    private static JsonElement Vessel(Outcome outcome, string name) =>
        outcome
            .Json.GetProperty("vessels")
            .EnumerateArray()
            .First(vessel => vessel.GetProperty("vessel").GetString() == name);

    private static double Or(JsonElement passage, string point) =>
        passage.TryGetProperty(point, out var hours) ? hours.GetDouble() : double.PositiveInfinity;

    [Fact]
    public async Task A_hotter_room_brings_the_limit_sooner_and_a_fan_later()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var warm = Vessel(await kitchen.DoAsync("badday", "heat", "--hottest", "31", "--json"), "Jar A");
        var hot = Vessel(await kitchen.DoAsync("badday", "heat", "--hottest", "36", "--json"), "Jar A");

        Assert.True(
            Or(hot.GetProperty("toLimit"), "middleHours") < Or(warm.GetProperty("toLimit"), "middleHours"),
            $"{hot} {warm}"
        );
        Assert.True(
            Or(hot.GetProperty("toLimitWithFan"), "middleHours")
                >= Or(hot.GetProperty("toLimit"), "middleHours")
        );
        Assert.True(
            hot.GetProperty("warmestWithFanCelsius").GetProperty("middle").GetDouble() + 0.5
                < hot.GetProperty("warmestCelsius").GetProperty("middle").GetDouble()
        );
        Assert.True(
            hot.GetProperty("lostWithFanMillilitresPerDay").GetProperty("middle").GetDouble()
                > hot.GetProperty("lostMillilitresPerDay").GetProperty("middle").GetDouble()
        );
    }

    [Fact]
    public async Task The_room_that_is_written_down_is_the_room_of_the_forecast()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var unread = await kitchen.RunAsync(["badday", "heat"]);
        Assert.Equal(1, unread.Code);
        Assert.Contains("write room", unread.Out + unread.Error, StringComparison.Ordinal);

        await kitchen.DoAsync("write", "room", "30");
        var told = await kitchen.DoAsync("badday", "heat", "--json");
        Assert.InRange(told.Json.GetProperty("roomHottestCelsius").GetDouble(), 29, 35);
    }

    [Fact]
    public async Task A_power_cut_that_is_written_down_stands_in_the_list_until_it_is_over()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await kitchen.DoAsync("write", "power-out");
        var told = await kitchen.DoAsync("badday", "power", "--json");
        Assert.True(told.Json.TryGetProperty("failedSince", out _));
        Assert.True(
            Vessel(told, "Jar A").GetProperty("toDangerWithBatteryPump").GetProperty("chance").GetDouble()
                <= Vessel(told, "Jar A").GetProperty("toDanger").GetProperty("chance").GetDouble()
        );
        Assert.Contains(
            "mind-power-cut",
            (await kitchen.DoAsync("due", "--json")).Out,
            StringComparison.Ordinal
        );

        await kitchen.DoAsync("write", "power-in");
        var due = (await kitchen.DoAsync("due", "--json")).Out;
        Assert.DoesNotContain("mind-power-cut", due, StringComparison.Ordinal);
        Assert.Contains("after-power-cut", due, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_helpers_sheet_is_a_page_with_every_day_and_vessel_and_overwrites_nothing()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var file = kitchen.At("sheet.html");
        await kitchen.DoAsync("badday", "away", "3", "--sheet", file);

        var page = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        Assert.Equal(3, page.Split("Jar A</td>").Length - 1);
        Assert.Contains("a net or a cloth", page, StringComparison.Ordinal);
        Assert.Contains("Whom to call", page, StringComparison.Ordinal);
        var again = await kitchen.RunAsync(["badday", "away", "3", "--sheet", file]);
        Assert.Equal(1, again.Code);
        Assert.Equal(page, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("badday away 90", 1, "1 to 45")]
    [InlineData("badday away 3 --from yesterday", 2, "no day")]
    [InlineData("badday heat --hottest 80", 1, "0 and 50")]
    [InlineData("badday sick --sign hiccups", 2, "no sign")]
    [InlineData("badday pump \"Jar Z\"", 2, "Jar Z")]
    public async Task What_cannot_be_told_is_refused_with_what_is_allowed(string call, int code, string says)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var outcome = await kitchen.RunAsync([.. Kitchen.Split(call)]);

        Assert.Equal(code, outcome.Code);
        Assert.Contains(says, outcome.Out + outcome.Error, StringComparison.Ordinal);
    }
}
