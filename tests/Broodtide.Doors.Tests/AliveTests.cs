using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class AliveTests
{
    private static JsonElement Population(Outcome outcome) =>
        Assert.Single(outcome.Json.GetProperty("populations").EnumerateArray());

    private static double Middle(JsonElement population) =>
        population.GetProperty("aliveLarvae").GetProperty("middle").GetDouble();

    private static double Width(JsonElement population) =>
        population.GetProperty("aliveLarvae").GetProperty("high").GetDouble()
        - population.GetProperty("aliveLarvae").GetProperty("low").GetDouble();

    [Fact]
    public async Task A_past_day_as_believed_now_knows_what_came_later_and_moving_now_does_not()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var smoothed = Population(await kitchen.DoAsync("alive", "Brood 2", "--day", "2026-02-20", "--json"));
        var then = Population(await kitchen.DoAsync("alive", "Brood 2", "--at", "2026-02-20", "--json"));
        Assert.Equal("2026-02-20", smoothed.GetProperty("at").GetString()![..10]);
        Assert.NotEqual(Middle(smoothed), Middle(then));
        // Both counts of the demo are later than the day or on it: only those who know them are narrow.
        Assert.True(Width(smoothed) < Width(then), $"{Width(smoothed)} and {Width(then)}");
        Assert.True(
            Middle(smoothed) > Middle(Population(await kitchen.DoAsync("alive", "Brood 2", "--json")))
        );
    }

    [Fact]
    public async Task What_was_written_later_than_known_changes_nothing()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        string[] call = ["alive", "Brood 2", "--at", "2026-03-11 20:00", "--json"];
        var before = await kitchen.DoAsync(call);
        kitchen.Clock.AdvanceHours(2);
        await kitchen.DoAsync("write", "count", "Jar A", "64", "--method", "full");
        var after = await kitchen.DoAsync(call);
        Assert.NotEqual(before.Out, after.Out);
        Assert.True(Width(Population(after)) < Width(Population(before)) / 4);
        Assert.Equal(before.Out, (await kitchen.DoAsync([.. call, "--as-known-at", "2026-03-10 20:00"])).Out);
    }

    [Fact]
    public async Task Entries_are_listed_by_how_much_they_changed_the_answer()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var why = Population(await kitchen.DoAsync("alive", "Brood 2", "--why", "--json"))
            .GetProperty("why")
            .EnumerateArray()
            .ToList();
        var weights = why.ConvertAll(entry => entry.GetProperty("weight").GetDouble());
        Assert.Equal(weights.OrderDescending(), weights);
        Assert.True(weights[0] > 0.05, $"{weights[0]}");
        Assert.All(why, entry => Assert.NotEqual("", entry.GetProperty("words").GetString()));
        // Two counts and two stage samples.
        Assert.Equal(4, why.Count);
    }

    [Fact]
    public async Task Larvae_of_a_vessel_are_those_of_the_brood_in_it()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        Assert.Equal(
            (await kitchen.DoAsync("alive", "Brood 2", "--json")).Out,
            (await kitchen.DoAsync("alive", "Jar A", "--json")).Out
        );
    }

    [Theory]
    [InlineData("alive")]
    [InlineData("alive --at 2027-03-10")]
    [InlineData("alive --day 2026-05-30")]
    [InlineData("alive --day 2025-05-30")]
    public async Task Nothing_says_that_all_are_dead_or_that_a_vessel_may_be_emptied(string line)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await kitchen.DoAsync("write", "count", "Jar A", "0", "--method", "glance");
        var told = (await kitchen.TypeAsync(line)).Out;
        Assert.NotEmpty(told);
        foreach (var word in new[] { "dead", "discard", "throw", "pour out", "hopeless", "NaN" })
        {
            Assert.DoesNotContain(word, told, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task A_house_without_larvae_says_so()
    {
        using var kitchen = new Kitchen();
        await kitchen.DoAsync("write", "vessel", "Jar A", "larval-vessel");
        Assert.Contains(
            "No larvae have crossed yet",
            (await kitchen.DoAsync("alive")).Out,
            StringComparison.Ordinal
        );
        var outcome = await kitchen.RunAsync("alive", "Jar A");
        Assert.Equal(1, outcome.Code);
        Assert.Contains("ever written into Jar A", outcome.Error, StringComparison.Ordinal);
    }
}
