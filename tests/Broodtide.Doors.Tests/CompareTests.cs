using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

/// <summary>Published figures through the verb; where each comes from stands in the head of its data and in statistics-checks.csv.</summary>
public sealed class CompareTests
{
    private static string Data(string name)
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var file = Path.Combine(at.FullName, "tests", "reference", "data", name);
            if (File.Exists(file))
            {
                return file;
            }
        }

        throw new FileNotFoundException(name);
    }

    private static async Task<JsonElement> JsonAsync(Kitchen kitchen, params string[] args)
    {
        var outcome = await kitchen.RunAsync([.. args, "--json"]);
        Assert.True(outcome.Code == 0, outcome.Out + outcome.Error);
        return outcome.Json;
    }

    private static double Of(JsonElement element, string name) => element.GetProperty(name).GetDouble();

    // Weil 1970; Williams 1975; Tarone 1979.
    [Fact]
    public async Task Rat_litters_come_out_as_published()
    {
        using var kitchen = new Kitchen();
        var told = await JsonAsync(
            kitchen,
            "compare",
            "table",
            Data("rat_litters_weil1970.csv"),
            "--treatment",
            "group",
            "--alive",
            "y",
            "--of",
            "n"
        );
        var treated = told.GetProperty("treatments")[1];

        Assert.Equal("TREAT", treated.GetProperty("treatment").GetString());
        Assert.Equal(0.7400, Of(treated.GetProperty("share"), "middle"), 2e-4);
        Assert.Equal(0.3174, Of(treated, "correlation"), 2e-4);
        Assert.Equal(-31.5317, Of(treated, "logLikelihood"), 1e-4);
        Assert.Equal(7.9297, Of(treated, "taroneZ"), 1e-4);
        // The controls hardly clump.
        Assert.True(Of(told.GetProperty("treatments")[0], "correlation") < 0.05);
        var test = told.GetProperty("pairs")[0].GetProperty("permutation");
        Assert.False(test.GetProperty("exact").GetBoolean());
        Assert.InRange(Of(test, "p"), 0.001, 0.1);
    }

    // Manly 1978; Faraway, Extending the Linear Model with R: 64.5 on 12, 5.3303, 39.494 and 10.176.
    [Fact]
    public async Task Trout_eggs_come_out_as_published()
    {
        using var kitchen = new Kitchen();
        var line = (
            await JsonAsync(
                kitchen,
                "compare",
                "table",
                Data("trout_eggs_manly1978.csv"),
                "--treatment",
                "location",
                "--treatment",
                "period",
                "--alive",
                "survive",
                "--of",
                "total"
            )
        ).GetProperty("factors");

        Assert.Equal(64.5, Of(line, "deviance"), 0.05);
        Assert.Equal(12, line.GetProperty("degreesOfFreedom").GetInt32());
        Assert.Equal(5.3303, Of(line, "dispersion"), 5e-5);
        Assert.Equal(39.494, Of(line.GetProperty("leavingOut")[0], "f"), 5e-4);
        Assert.Equal(10.176, Of(line.GetProperty("leavingOut")[1], "f"), 5e-4);
    }

    // Crowder 1978, table 3; Collett: 33.28 on 17.
    [Fact]
    public async Task Seeds_of_a_parasite_come_out_as_published()
    {
        using var kitchen = new Kitchen();
        var line = (
            await JsonAsync(
                kitchen,
                "compare",
                "table",
                Data("orobanche_crowder1978_table3.csv"),
                "--treatment",
                "seed",
                "--treatment",
                "root",
                "--alive",
                "y",
                "--of",
                "n",
                "--against",
                "O73",
                "--against",
                "BEAN",
                "--together"
            )
        ).GetProperty("factors");
        var odds = line.GetProperty("betaBinomial")
            .EnumerateArray()
            .ToDictionary(it => it.GetProperty("name").GetString()!, it => Of(it, "estimate"));

        Assert.Equal(33.28, Of(line, "deviance"), 0.005);
        Assert.Equal(17, line.GetProperty("degreesOfFreedom").GetInt32());
        Assert.Equal(1.8618, Of(line, "dispersion"), 5e-5);
        Assert.Equal(-0.4446, odds["intercept"], 1e-3);
        Assert.Equal(0.5221, odds["rootCUCUMBER"], 1e-3);
        Assert.Equal(0.01236, Of(line, "betaBinomialCorrelation"), 1e-4);
    }

    // Bliss 1935; Dobson: -60.717, 34.270, 11.23.
    [Fact]
    public async Task Beetles_come_out_as_published()
    {
        using var kitchen = new Kitchen();
        var line = await JsonAsync(
            kitchen,
            "compare",
            "doses",
            Data("beetles_bliss1935.csv"),
            "--dose",
            "log10_dose",
            "--responded",
            "killed",
            "--of",
            "n"
        );

        Assert.Equal(-60.717, Of(line.GetProperty("coefficients")[0], "estimate"), 1e-3);
        Assert.Equal(34.270, Of(line.GetProperty("coefficients")[1], "estimate"), 1e-3);
        Assert.Equal(11.23, Of(line, "deviance"), 5e-3);
        Assert.Equal(1.7717, Of(line, "halfDose"), 5e-5);
        Assert.Equal(1.76386, Of(line, "halfDoseLow95"), 5e-6);
        Assert.Equal(1.77920, Of(line, "halfDoseHigh95"), 5e-6);
    }

    // Freireich 1963; Cox and Oakes 1984: 0.857, 0.753, 0.627, 0.448; log-rank 16.79, 19.25 expected.
    [Fact]
    public async Task Lives_watched_one_by_one_come_out_as_published()
    {
        using var kitchen = new Kitchen();
        var told = await JsonAsync(
            kitchen,
            "compare",
            "lives",
            Data("remission_freireich1963.csv"),
            "--group",
            "group",
            "--time",
            "time",
            "--died",
            "event"
        );
        var steps = told.GetProperty("groups")
            .EnumerateArray()
            .Single(group => group.GetProperty("group").GetString() is "6-MP")
            .GetProperty("steps")
            .EnumerateArray()
            .ToDictionary(step => Of(step, "time"), step => Of(step, "survival"));

        Assert.Equal(
            [0.857, 0.753, 0.627, 0.448],
            new[] { 6.0, 10, 16, 23 }.Select(at => Math.Round(steps[at], 3))
        );
        Assert.Equal(16.79, Of(told, "logRankChiSquare"), 5e-3);
        Assert.Contains(
            told.GetProperty("expected").EnumerateArray(),
            expected => Math.Abs(expected.GetDouble() - 19.25) < 5e-3
        );
    }

    [Fact]
    public async Task One_vessel_of_each_treatment_is_no_test_and_is_said_so()
    {
        using var kitchen = new Kitchen();
        var file = kitchen.At("two.csv");
        await File.WriteAllTextAsync(
            file,
            "treatment,vessel,alive,dead\nwarm,A,40,60\ncold,B,20,80\n",
            TestContext.Current.CancellationToken
        );
        var told = await JsonAsync(kitchen, "compare", "table", file);

        Assert.False(told.GetProperty("pairs")[0].TryGetProperty("permutation", out _));
        Assert.Contains("No test is possible", (await kitchen.RunAsync("compare", "table", file)).Out);
        Assert.Equal("compare-no-test", told.GetProperty("remarks")[0].GetProperty("code").GetString());
    }

    // 3 against 3 vessels: 2 in 20 arrangements; nothing can be smaller.
    [Fact]
    public async Task Few_vessels_tell_how_small_a_p_can_be()
    {
        using var kitchen = new Kitchen();
        var file = kitchen.At("six.csv");
        await File.WriteAllTextAsync(
            file,
            "treatment;vessel;alive;dead\nwarm;A;40;60\nwarm;B;45;55\nwarm;C;50;50\ncold;D;5;95\ncold;E;8;92\ncold;F;2;98\n",
            TestContext.Current.CancellationToken
        );
        var test = (await JsonAsync(kitchen, "compare", "table", file, "--against", "cold"))
            .GetProperty("pairs")[0]
            .GetProperty("permutation");

        Assert.Equal(0.1, Of(test, "p"), 1e-12);
        Assert.Equal(0.1, Of(test, "smallestP"), 1e-12);
        Assert.Equal(20, test.GetProperty("arrangements").GetInt64());
    }

    [Theory]
    [InlineData("treatment,alive,dead\nA,3", "table-row-cells")]
    [InlineData("treatment,alive\nA,3", "table-no-column")]
    [InlineData("treatment,alive,dead\nA,3.5,2", "table-not-whole")]
    [InlineData("treatment,alive,dead\nA,many,2", "table-no-number")]
    [InlineData("treatment,alive,dead\nA,0,0", "table-nobody")]
    [InlineData("treatment,alive,alive\nA,0,0", "table-column-twice")]
    [InlineData("# nothing but words\n", "table-empty")]
    public async Task A_table_that_cannot_be_read_is_refused_with_its_reason(string text, string code)
    {
        using var kitchen = new Kitchen();
        var file = kitchen.At("bad.csv");
        await File.WriteAllTextAsync(file, text, TestContext.Current.CancellationToken);
        var outcome = await kitchen.RunAsync("compare", "table", file, "--json");

        Assert.Equal(2, outcome.Code);
        Assert.Equal(code, outcome.Json.GetProperty("reasons")[0].GetProperty("code").GetString());
    }

    [Fact]
    public async Task Vessels_of_the_journal_are_compared_on_a_day_and_by_what_settled()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var onDay = await JsonAsync(kitchen, "compare", "runs", "Brood 1", "Brood 2", "--day", "7");
        var settled = await JsonAsync(kitchen, "compare", "runs", "Brood 1", "Brood 2");

        Assert.All(
            onDay.GetProperty("vessels").EnumerateArray().ToList(),
            vessel => Assert.True(vessel.GetProperty("estimated").GetBoolean())
        );
        Assert.Equal(
            "compare-no-test",
            onDay.GetProperty("compared").GetProperty("remarks")[0].GetProperty("code").GetString()
        );
        // The first brood is over and none settled; of the second it is not known yet.
        Assert.Equal(
            "compare-settled-uncounted",
            settled.GetProperty("vessels")[1].GetProperty("leftOut").GetProperty("code").GetString()
        );
    }
}
