using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class CollectTimesTests
{
    private static async Task<Kitchen> HatchingAsync()
    {
        var kitchen = new Kitchen();
        await kitchen.DoAsync("write", "vessel", "Hatching box", "hatching-box");
        await kitchen.DoAsync(
            "write",
            "animal",
            "Ada",
            "--species",
            "Caridina multidentata",
            "--sex",
            "female"
        );
        await kitchen.DoAsync("write", "berried", "Ada", "--brood", "Brood 1", "--when", "2026-02-12 20:00");
        await kitchen.DoAsync("write", "hatching", "Brood 1", "--when", "2026-03-10 19:30");
        return kitchen;
    }

    private static double Middle(JsonElement answer, string member) =>
        answer.GetProperty(member).GetProperty("middle").GetDouble();

    [Fact]
    public async Task Times_come_with_what_skipping_each_costs_and_keep_to_the_hours_told()
    {
        using var kitchen = await HatchingAsync();
        var outcome = await kitchen.DoAsync(
            "collect-times",
            "Brood 1",
            "--asleep",
            "23:30-6:30",
            "--out",
            "8-17:30",
            "--json"
        );
        Assert.Equal("2026-03-10", outcome.Json.GetProperty("evening").GetString());
        Assert.Equal(1, outcome.Json.GetProperty("chanceByThen").GetDouble());
        var times = outcome.Json.GetProperty("times").EnumerateArray().ToArray();
        Assert.NotEmpty(times);
        foreach (var time in times)
        {
            // The kitchen is an hour ahead of world time in March.
            var at = DateTimeOffset
                .Parse(time.GetProperty("at").GetString()!, System.Globalization.CultureInfo.InvariantCulture)
                .ToOffset(TimeSpan.FromHours(1))
                .TimeOfDay;
            Assert.True(at <= new TimeSpan(23, 0, 0) && at >= new TimeSpan(6, 30, 0), $"{at}");
            Assert.False(at >= new TimeSpan(8, 0, 0) && at < new TimeSpan(17, 30, 0), $"{at}");
            Assert.True(Middle(time, "larvaeLostIfSkipped") >= 0);
        }

        Assert.InRange(Middle(outcome.Json, "shareGathered"), 0.3, 1);
    }

    [Fact]
    public async Task What_was_gathered_changes_the_answer_and_not_what_was_known_before()
    {
        using var kitchen = await HatchingAsync();
        var before = await kitchen.DoAsync("collect-times", "Brood 1", "--at", "2026-03-11 20:00", "--json");
        kitchen.Clock.AdvanceHours(14);
        foreach (
            var (at, number) in new[]
            {
                ("2026-03-10 22:00", "4"),
                ("2026-03-11 01:00", "9"),
                ("2026-03-11 07:00", "80"),
            }
        )
        {
            await kitchen.DoAsync("write", "collection", "Brood 1", "--number", number, "--when", at);
        }

        var after = await kitchen.DoAsync("collect-times", "Brood 1", "--at", "2026-03-11 20:00", "--json");
        Assert.Equal(0, before.Json.GetProperty("nightsLearnedFrom").GetInt32());
        Assert.Equal(1, after.Json.GetProperty("nightsLearnedFrom").GetInt32());
        Assert.True(
            Middle(after.Json, "peakHoursAfterNoon") > Middle(before.Json, "peakHoursAfterNoon") + 0.5
        );

        var then = await kitchen.DoAsync(
            "collect-times",
            "Brood 1",
            "--at",
            "2026-03-11 20:00",
            "--as-known-at",
            "2026-03-10 20:30",
            "--json"
        );
        Assert.Equal(before.Json.GetRawText(), then.Json.GetRawText());
    }

    [Fact]
    public async Task The_same_call_gives_the_same_bytes()
    {
        using var kitchen = await HatchingAsync();
        var first = await kitchen.DoAsync("collect-times", "Brood 1");
        Assert.Equal(first.Out, (await kitchen.DoAsync("collect-times", "Brood 1")).Out);
        Assert.Contains("skipping it costs", first.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("x")]
    [InlineData("25-7")]
    [InlineData("22:75-7")]
    [InlineData("23")]
    [InlineData("")]
    public async Task A_stretch_of_the_clock_that_is_none_is_not_understood(string typed)
    {
        using var kitchen = await HatchingAsync();
        var outcome = await kitchen.RunAsync("collect-times", "Brood 1", "--asleep", typed);
        Assert.Equal(2, outcome.Code);
        Assert.Contains("stretch of the clock", outcome.Error + outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hatching_that_is_over_is_refused_with_its_code()
    {
        using var kitchen = await HatchingAsync();
        await kitchen.DoAsync("write", "hatching", "Brood 1", "--over");
        var outcome = await kitchen.RunAsync("collect-times", "Brood 1", "--json");
        Assert.Equal(1, outcome.Code);
        Assert.Contains("collect-hatching-over", outcome.Out + outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_never_awake_is_told_so()
    {
        using var kitchen = await HatchingAsync();
        var outcome = await kitchen.DoAsync("collect-times", "Brood 1", "--asleep", "0-12", "--out", "12-24");
        Assert.Contains("At none of these hours can anybody gather", outcome.Out, StringComparison.Ordinal);
    }
}
