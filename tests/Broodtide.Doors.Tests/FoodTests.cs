using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class FoodTests
{
    [Fact]
    public async Task Cells_of_a_chamber_come_with_the_interval_of_Garwood()
    {
        using var kitchen = new Kitchen();
        var answer = await JsonOf(kitchen, "food", "count", "neubauer", "10", "--error", "0");
        // Garwood 1936: ten seen, 4.795 to 18.39; a large square of Neubauer is 1e-4 mL.
        Assert.Equal(100_000, answer.GetProperty("cellsPerMillilitre").GetDouble(), 1e-6);
        Assert.Equal(47_950, answer.GetProperty("lowerPerMillilitre").GetDouble(), 100.0);
        Assert.Equal(183_900, answer.GetProperty("upperPerMillilitre").GetDouble(), 100.0);
    }

    [Fact]
    public async Task Lugols_solution_thins_the_sample_too()
    {
        using var kitchen = new Kitchen();
        var plain = await JsonOf(kitchen, "food", "count", "neubauer", "100", "--dilution", "2");
        var fixedSample = await JsonOf(
            kitchen,
            "food",
            "count",
            "neubauer",
            "100",
            "--dilution",
            "2",
            "--lugol",
            "5"
        );
        Assert.Equal(
            1.05 * plain.GetProperty("cellsPerMillilitre").GetDouble(),
            fixedSample.GetProperty("cellsPerMillilitre").GetDouble(),
            1e-3
        );
    }

    [Theory]
    [InlineData("food", "ration", "6 L; 30; 24 C", "dry-yeast", "--give", "-20mg")]
    [InlineData("food", "equal", "-5e4", "tetraselmis")]
    [InlineData("food", "count", "neubauer", "abc")]
    [InlineData("food", "medium", "g/3", "2 L")]
    public async Task What_cannot_be_is_told_and_not_computed(params string[] call)
    {
        using var kitchen = new Kitchen();
        Assert.Equal(2, (await kitchen.RunAsync(call)).Code);
    }

    [Fact]
    public async Task Dry_food_above_five_milligrams_a_litre_is_refused_in_still_water_and_not_with_air()
    {
        using var kitchen = new Kitchen();
        // 6 L, 95 % dry: 31.6 mg is 5 mg/L.
        string[] call = ["food", "ration", "6 L; 30; 24 C", "dry-yeast", "--give", "40mg"];
        var still = await kitchen.RunAsync(call);
        Assert.Equal(1, still.Code);
        Assert.Contains("oxygen", still.Error, StringComparison.Ordinal);
        Assert.Equal(0, (await kitchen.RunAsync([.. call, "--air", "yes"])).Code);
    }

    [Theory]
    [InlineData("food", "equal", "5e9", "tetraselmis")]
    [InlineData("food", "scale-up", "7 L", "--target", "5e7")]
    [InlineData("food", "scale-up", "7 L", "--starter", "200 mL; 1e9")]
    public async Task Cells_a_litre_said_as_a_millilitre_are_asked_back(params string[] call)
    {
        using var kitchen = new Kitchen();
        var outcome = await kitchen.RunAsync(call);
        Assert.Equal(1, outcome.Code);
        Assert.Contains("litre", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Brine_shrimps_are_refused_to_small_zoeae_until_the_keeper_saw_them_eat()
    {
        using var kitchen = new Kitchen();
        Assert.Equal(1, (await kitchen.RunAsync("food", "live", "artemia", "7 L", "--stage", "Z2")).Code);
        Assert.Equal(
            0,
            (await kitchen.RunAsync("food", "live", "artemia", "7 L", "--stage", "Z2", "--from", "Z2")).Code
        );
    }

    [Fact]
    public async Task Steps_of_a_culture_are_dated_backward_from_the_day_it_must_be_ready()
    {
        using var kitchen = new Kitchen();
        var answer = await JsonOf(
            kitchen,
            "food",
            "scale-up",
            "7 L",
            "--starter",
            "100 mL; 1e6",
            "--ready",
            "2026-04-20"
        );
        var days = answer.GetProperty("days");
        Assert.True(days.GetProperty("low").GetDouble() < days.GetProperty("high").GetDouble());
        var start = DateTime.Parse(
            answer.GetProperty("startBy").GetString()!,
            System.Globalization.CultureInfo.InvariantCulture
        );
        Assert.Equal(
            Math.Ceiling(days.GetProperty("high").GetDouble()),
            (new DateTime(2026, 4, 20) - start).TotalDays
        );
    }

    private static async Task<JsonElement> JsonOf(Kitchen kitchen, params string[] call)
    {
        var outcome = await kitchen.RunAsync([.. call, "--json"]);
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        return JsonDocument.Parse(outcome.Out).RootElement;
    }
}
