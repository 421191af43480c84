using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class WhatIfTests
{
    private static JsonElement Figure(Outcome outcome, string quantity) =>
        outcome
            .Json.GetProperty("figures")
            .EnumerateArray()
            .First(figure => figure.GetProperty("quantity").GetString() == quantity);

    private static double Middle(JsonElement figure, string of) =>
        figure.GetProperty(of).GetProperty("middle").GetDouble();

    [Fact]
    public async Task As_it_is_stays_the_same_whatever_is_tried()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var cool = await kitchen.DoAsync("whatif", "Jar A", "--temperature", "20", "--json");
        var dark = await kitchen.DoAsync("whatif", "Jar A", "--light", "0", "--json");
        foreach (var quantity in new[] { "alive", "unionised-ammonia", "oxygen", "food", "settlement" })
        {
            Assert.Equal(Middle(Figure(cool, quantity), "asItIs"), Middle(Figure(dark, quantity), "asItIs"));
        }

        // Cooler larvae are slower.
        Assert.True(Middle(Figure(cool, "settlement"), "difference") > 1);
        Assert.Equal("worse", Figure(cool, "settlement").GetProperty("verdict").GetString());
    }

    [Fact]
    public async Task Now_it_begins_with_as_many_larvae_as_are_told_to_be_alive()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var alive = (await kitchen.DoAsync("alive", "Jar A", "--json"))
            .Json.GetProperty("populations")[0]
            .GetProperty("vessels")
            .EnumerateArray()
            .First(vessel => vessel.GetProperty("name").GetString() == "Jar A")
            .GetProperty("aliveLarvae");
        var begins = (await kitchen.DoAsync("whatif", "Jar A", "--siphon", "50", "--json"))
            .Json.GetProperty("series")[0]
            .GetProperty("points")[0]
            .GetProperty("asItIs");
        foreach (var point in new[] { "low", "middle", "high" })
        {
            var told = alive.GetProperty(point).GetDouble();
            Assert.InRange(begins.GetProperty(point).GetDouble(), (0.85 * told) - 2, (1.15 * told) + 2);
        }
    }

    [Theory]
    [InlineData("whatif \"Jar A\"", 1, "No change was said")]
    [InlineData("whatif \"Jar A\" --salinity 60", 1, "0 to 42")]
    [InlineData("whatif \"Jar A\" --feed twice --algae 5000", 1, "same kind")]
    [InlineData("whatif \"Jar A\" --skip 2 --days 90", 1, "1 to 60")]
    [InlineData("whatif \"River tank\" --skip 2", 1, "no sea water")]
    [InlineData("whatif \"Jar Z\" --skip 2", 2, "Jar Z")]
    [InlineData("whatif \"Jar A\" --air much", 2, "none, gentle, strong")]
    public async Task What_cannot_be_tried_is_refused_with_what_can(string line, int code, string said)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var outcome = await kitchen.RunAsync([.. Kitchen.Split(line)]);
        Assert.Equal(code, outcome.Code);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_step_at_once_is_tried_and_said_and_nothing_is_written()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var before = (await kitchen.DoAsync("journal")).Out;
        var told = (await kitchen.DoAsync("whatif", "Jar A", "--salinity", "25")).Out;
        Assert.Contains("1 ppt a day is gentle", told, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", told, StringComparison.Ordinal);
        Assert.Equal(before, (await kitchen.DoAsync("journal")).Out);
    }
}
