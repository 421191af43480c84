using System.Text.Json;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class AnswersTests
{
    public static TheoryData<string, string> Calls() =>
        new()
        {
            { "due", "due" },
            { "plan", "plan \"Brood 3\"" },
            { "hatch", "hatch \"Brood 3\"" },
            { "collect-times", "collect-times \"Brood 3\" --asleep 22:30-6 --out 8:00-17:30" },
            { "tonight", "tonight" },
            { "adults", "adults" },
            { "animal", "animal Alma" },
            { "buy", "buy --chance 90 --females 2" },
            { "shares", "shares \"Hatching box\"" },
            { "after-loss", "after-loss \"Brood 1\"" },
            { "ledger", "ledger \"Jar A\" --last 8" },
            { "runs", "runs" },
            { "run-2", "run \"Brood 2\"" },
            { "review", "review \"Brood 1\"" },
            { "compare-runs", "compare runs \"Brood 1\" \"Brood 2\" --day 7" },
            { "names", "names" },
            { "journal", "journal --last 12" },
            { "water-make", "water make 10L 30" },
            { "water-correct", "water correct \"7 L; 36; 24 C\" 30 --capacity 8L" },
            {
                "water-blend",
                "water blend --water \"6 L; 35; 20 C\" --water \"10 L; 0; 24 C\" --wanted 5L --target 30"
            },
            { "water-reads", "water reads 36 --with \"Hand refractometer\" --sample-temperature 24C" },
            { "water-standard", "water standard 200g" },
            { "water-sterilise", "water sterilise 10L --strength \"4 %\"" },
            {
                "water-dose",
                "water dose \"7 L; 30; 24 C\" --target 5e4 --culture 1.2e6 --culture-salinity 28"
            },
            {
                "crossing",
                "crossing plan --cup-capacity 400mL --cup \"100 mL; 0; 24 C\" --source \"1 L; 30; 24 C\" --receiving \"7 L; 30; 24 C\" --receiving-capacity 8L"
            },
            { "aliquots", "aliquots --expect 300 --each \"100 mL\" --of \"7 L\" --wanted 25" },
            { "aliquots-counted", "aliquots --counts 12,15,9 --each \"20 mL\" --of \"10 L\"" },
            { "alive", "alive" },
            { "alive-why", "alive \"Brood 2\" --why" },
            { "alive-day", "alive \"Jar A\" --day 2026-03-20" },
            { "learned", "species learned caridina-multidentata" },
            { "trial-plan", "trial plan --vessels 8 --larvae 240" },
            { "trial-plan-few", "trial plan --vessels 6 --larvae 240 --usual 30% --wished 50% --water 1L" },
            { "trial-next", "trial next --control 30,25 --tried 30,25,12/40 --tried 20,25,25/40" },
            { "learned-number", "species learned caridina-multidentata embryo-degree-days" },
            { "whatif", "whatif \"Jar A\" --salinity 25 --over 9 --feed half" },
            { "badday-heat", "badday heat --hottest 33" },
            { "badday-power", "badday power" },
            { "badday-pump", "badday pump \"Jar A\"" },
            { "badday-away", "badday away 7" },
            { "badday-sick", "badday sick \"Jar A\" --sign milky-tail" },
            { "dropped-eggs", "dropped-eggs \"Brood 3\"" },
            { "return-watch", "return watch \"Jar A\"" },
            { "return-plan", "return plan \"Jar A\" --hardness \"8 dH\"" },
            { "return-plan-none-seen", "return plan \"Jar A\" --no-zoeae-seen" },
            { "species", "species show caridina-multidentata larval-salinity-target" },
        };

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task An_answer_stays_as_it_was_looked_at(string name, string line)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var outcome = await kitchen.DoAsync(Kitchen.Split(line));
        Golden.Holds($"{name}.txt", outcome.Out);
    }

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task Every_answer_can_be_had_as_json(string name, string line)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        HoldsNames(name, await kitchen.DoAsync([.. Kitchen.Split(line), "--json"]));
    }

    [Fact]
    public async Task Juveniles_that_came_home_and_were_given_away_are_told_as_they_were_looked_at()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        // What the invented journal has not come to yet: a nursery, a count, a giving, and word of it.
        await kitchen.DoAsync(
            Kitchen.Split("write juveniles-returned \"Jar A\" \"River tank\" --number 12 --took 40min")
        );
        kitchen.Clock.AdvanceDays(14);
        await kitchen.DoAsync(Kitchen.Split("write juveniles \"River tank\" 9"));
        kitchen.Clock.AdvanceDays(7);
        await kitchen.DoAsync(Kitchen.Split("write given-away \"River tank\" 4 --to \"the club\""));
        var given = (await kitchen.DoAsync("return", "card", "--json")).Json.GetProperty("gifts")[0];
        var card = given.GetProperty("card").GetString()!;
        kitchen.Clock.AdvanceDays(30);
        await kitchen.DoAsync("write", "heard", "River tank", card, "3", "--received", "4");

        foreach (
            var (name, line) in new[]
            {
                ("return-nursery", "return nursery \"River tank\""),
                ("return-cards", "return card"),
                ("return-card", $"return card {card} --generation F1 --hardness \"8 dH\" --food leaves"),
            }
        )
        {
            Golden.Holds($"{name}.txt", (await kitchen.DoAsync(Kitchen.Split(line))).Out);
            HoldsNames(name, await kitchen.DoAsync([.. Kitchen.Split(line), "--json"]));
        }
    }

    // Stable names: a member that goes missing is a change that machines notice.
    private static void HoldsNames(string name, Outcome outcome)
    {
        Assert.Equal(JsonValueKind.Object, outcome.Json.ValueKind);
        Golden.Holds(
            $"{name}.names.txt",
            string.Join('\n', Names(outcome.Json, "").Distinct().Order(StringComparer.Ordinal)) + "\n"
        );
    }

    private static IEnumerable<string> Names(JsonElement element, string path) =>
        element.ValueKind switch
        {
            JsonValueKind.Object => element
                .EnumerateObject()
                // The arguments of a remark are named by its code.
                .Where(member => !path.EndsWith("arguments", StringComparison.Ordinal))
                .SelectMany(member => Names(member.Value, $"{path}.{member.Name}".TrimStart('.'))),
            JsonValueKind.Array => element.EnumerateArray().SelectMany(item => Names(item, path)),
            _ => [path],
        };

    [Fact]
    public async Task A_trial_is_laid_out_once_and_its_labels_do_not_tell_the_treatment()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        const string call =
            "trial lay-out \"Trial A\" --vary salinity --treatment \"30 ppt\" --treatment \"20 ppt\" --vessels 8 --larvae 240 --seed 4";
        var written = await kitchen.DoAsync([.. Kitchen.Split(call), "--json"]);
        Assert.Equal(9, written.Json.GetProperty("written").GetArrayLength());
        Assert.Equal(1, (await kitchen.RunAsync([.. Kitchen.Split(call)])).Code);
        // Whoever deals again by the seed gets what was written.
        var layout = (
            await kitchen.DoAsync(
                "trial",
                "plan",
                "--vessels",
                "8",
                "--larvae",
                "240",
                "--seed",
                "4",
                "--json"
            )
        ).Json.GetProperty("layout");
        var first = layout[0].GetProperty("treatment").GetInt32() == 1 ? "30 ppt" : "20 ppt";
        Assert.Contains(
            $"{first} in Trial A 1",
            written.Json.GetProperty("written")[8].GetProperty("words").GetString(),
            StringComparison.Ordinal
        );

        var file = kitchen.At("labels.html");
        await kitchen.DoAsync("trial", "labels", "Trial A", "--out", file);
        var page = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        Assert.Equal(8, page.Split("<svg").Length - 1);
        Assert.Contains("Trial A 8", page, StringComparison.Ordinal);
        Assert.DoesNotContain("20 ppt", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Equal(1, (await kitchen.RunAsync("trial", "labels", "Trial A", "--out", file)).Code);
        Assert.Equal(
            2,
            (await kitchen.RunAsync("trial", "labels", "Trial Z", "--out", kitchen.At("z.html"))).Code
        );
    }

    [Fact]
    public async Task Runs_of_dossiers_that_were_taken_in_count_where_asked_and_say_whose_they_are()
    {
        using var mine = await Kitchen.WithDemoAsync();
        var file = mine.At("club.zip");
        await mine.DoAsync(
            Kitchen.Split("dossier \"Brood 1\" --licence CC0-1.0").Concat(["--to", file]).ToArray()
        );
        using var other = new Kitchen();
        await other.DoAsync("dossiers", "take", file);
        const string number = "species learned caridina-multidentata embryo-degree-days --json";
        var alone = (await other.DoAsync(Kitchen.Split(number))).Json.GetProperty("numbers")[0];
        Assert.Equal(0, alone.GetProperty("runsCounted").GetInt32());
        var with = (await other.DoAsync([.. Kitchen.Split(number), "--with-others"])).Json.GetProperty(
            "numbers"
        )[0];
        Assert.Equal(1, with.GetProperty("runsCounted").GetInt32());
        Assert.NotEmpty(with.GetProperty("runs")[0].GetProperty("from").GetString()!);
        // Taken back in where it came from it is the same run, and not heard twice.
        await mine.DoAsync("dossiers", "take", file);
        var own = (await mine.DoAsync(Kitchen.Split(number))).Json.GetProperty("numbers")[0];
        var both = (await mine.DoAsync([.. Kitchen.Split(number), "--with-others"])).Json.GetProperty(
            "numbers"
        )[0];
        Assert.Equal(own.GetProperty("runsCounted").GetInt32(), both.GetProperty("runsCounted").GetInt32());
        // Rules of advice are held against what came in it, too.
        var rules = (
            await other.DoAsync("hindsight", "--most", "3", "--with-others", "--json")
        ).Json.GetProperty("rules");
        Assert.Equal(3, rules.EnumerateArray().Sum(rule => rule.GetProperty("looks").GetArrayLength()));
        Assert.Equal(
            0,
            (await other.DoAsync("hindsight", "--json")).Json.GetProperty("rules").GetArrayLength()
        );
        // What a run says does not change on its way into a dossier and out again.
        var said = own.GetProperty("runs")
            .EnumerateArray()
            .Single(run => run.GetProperty("run").GetString() == "Brood 1");
        Assert.Equal(
            said.GetProperty("alone").GetProperty("middle").GetDouble(),
            with.GetProperty("runs")[0].GetProperty("alone").GetProperty("middle").GetDouble(),
            1e-6
        );
    }

    [Fact]
    public async Task What_runs_taught_is_begun_with_and_taken_back()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        const string number = "caridina-multidentata embryo-degree-days";
        async Task<JsonElement> Shown() =>
            (await kitchen.DoAsync([.. Kitchen.Split($"species show {number}"), "--json"])).Json.GetProperty(
                "quantities"
            )[0];
        var before = await Shown();
        await kitchen.DoAsync(Kitchen.Split($"species learn {number} --without \"Brood 1\""));
        var chosen = await Shown();
        Assert.True(chosen.GetProperty("chosen").GetBoolean());
        Assert.NotEqual(before.GetProperty("value").GetDouble(), chosen.GetProperty("value").GetDouble());
        Assert.Equal(
            before.GetProperty("value").GetDouble(),
            chosen.GetProperty("originalValue").GetDouble()
        );
        Assert.Contains("Brood 2", chosen.GetProperty("chosenBecause").GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain(
            "Brood 1",
            chosen.GetProperty("chosenBecause").GetString(),
            StringComparison.Ordinal
        );
        // What was chosen is not heard again by the next pooling.
        var learned = (
            await kitchen.DoAsync([
                .. Kitchen.Split($"species learned {number} --without \"Brood 1\""),
                "--json",
            ])
        ).Json.GetProperty("numbers")[0];
        Assert.Equal(
            chosen.GetProperty("value").GetDouble(),
            learned.GetProperty("next").GetProperty("middle").GetDouble(),
            1e-9
        );
        await kitchen.DoAsync(Kitchen.Split($"species undo {number}"));
        Assert.False((await Shown()).GetProperty("chosen").GetBoolean());
    }

    [Fact]
    public async Task A_refusal_is_json_too_with_its_code_and_words()
    {
        using var kitchen = new Kitchen();
        var outcome = await kitchen.RunAsync("water", "make", "10L", "60", "--json");
        Assert.Equal(1, outcome.Code);
        Assert.Equal("refused", outcome.Json.GetProperty("outcome").GetString());
        Assert.Contains(
            "42",
            outcome.Json.GetProperty("reasons")[0].GetProperty("words").GetString(),
            StringComparison.Ordinal
        );
        var nonsense = await kitchen.RunAsync("water", "make", "ten litres", "30", "--json");
        Assert.Equal(2, nonsense.Code);
        Assert.Equal("not-understood", nonsense.Json.GetProperty("outcome").GetString());
    }

    [Theory]
    [InlineData("water make 10L 60", 1, "nearest")]
    [InlineData("water make 10L \"1.0235 sg\"", 1, "sg 25/25")]
    [InlineData("water reads \"1.0235 sg\"", 1, "25 °C / 25 °C")]
    [InlineData("water sterilise 10L --strength \"4 %\" --animals-inside", 1, "Animals are inside")]
    [InlineData("water sterilise 10L", 2, "measured residual")]
    [InlineData(
        "water blend --water \"5 L; 20\" --water \"5 L; 0\" --wanted 5L --target 30",
        1,
        "between the waters"
    )]
    [InlineData("water dose \"7 L; 30\" --target 5e4 --culture 4e4", 1, "too thin")]
    [InlineData(
        "crossing plan --cup-capacity 100mL --cup \"200 mL; 0\" --source \"1 L; 30\" --receiving \"7 L; 30\"",
        1,
        "Can be:"
    )]
    [InlineData("crossing plan", 2, "cup-capacity is needed")]
    [InlineData("aliquots", 2, "Say --counts")]
    [InlineData("aliquots --counts 3,4", 2, "--each")]
    [InlineData("aliquots --counts 3,4 --each \"20 mL; 20 mL; 30 mL\" --of 1L", 2, "2 counts and 3 volumes")]
    [InlineData("aliquots --counts 3,4 --each 600mL --of 1L", 1, "one of the volumes is wrong")]
    [InlineData("aliquots --counts 3,4 --each 20mL --of \"Old jar\"", 2, "holds no water")]
    [InlineData("aliquots --mean -3", 2, "mean")]
    [InlineData("hatch \"Brood 9\"", 2, "Known: \"Brood 1\"")]
    [InlineData("ledger \"Old jar\"", 1, "holds no water")]
    [InlineData("alive \"Brood 3\"", 1, "No larvae of Brood 3 have been written as crossed yet")]
    [InlineData("alive \"Spare can\"", 2, "There is no brood or vessel")]
    [InlineData("alive \"Brood 2\" --day soon", 2, "is no time")]
    [InlineData("species show homarus", 2, "caridina-multidentata")]
    [InlineData("species choose caridina-multidentata larval-salinity-target --value 32", 1, "say why")]
    [InlineData("write done nonsense", 2, "Nothing with the key")]
    public async Task A_rule_that_says_no_ends_with_one_and_nonsense_with_two(
        string line,
        int code,
        string said
    )
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var outcome = await kitchen.TypeAsync(line);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.Equal(code, outcome.Code);
        Assert.Empty(outcome.Out);
    }

    [Fact]
    public async Task A_value_of_ones_own_stands_until_it_is_undone()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        async Task<double> TargetAsync() =>
            (
                await kitchen.DoAsync(
                    "species",
                    "show",
                    "caridina-multidentata",
                    "larval-salinity-target",
                    "--json"
                )
            )
                .Json.GetProperty("quantities")[0]
                .GetProperty("value")
                .GetDouble();

        var before = await TargetAsync();
        await kitchen.DoAsync(
            "species",
            "choose",
            "caridina-multidentata",
            "larval-salinity-target",
            "--value",
            "32",
            "--reason",
            "it went well"
        );
        Assert.Equal(32, await TargetAsync());
        await kitchen.DoAsync("species", "undo", "caridina-multidentata", "larval-salinity-target");
        Assert.Equal(before, await TargetAsync());
        Assert.Equal(
            1,
            (
                await kitchen.RunAsync("species", "undo", "caridina-multidentata", "larval-salinity-target")
            ).Code
        );
    }

    [Fact]
    public async Task What_was_due_and_is_written_as_done_is_not_due_any_more()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var keys = await KeysAsync(kitchen);
        Assert.NotEmpty(keys);
        await kitchen.DoAsync("write", "done", keys[0]);
        Assert.DoesNotContain(keys[0], await KeysAsync(kitchen));
        await kitchen.DoAsync("write", "skipped", keys[1], "--reason", "not this time");
        Assert.DoesNotContain(keys[1], await KeysAsync(kitchen));
    }

    private static async Task<List<string>> KeysAsync(Kitchen kitchen) =>
        [
            .. (await kitchen.DoAsync("due", "--json"))
                .Json.GetProperty("items")
                .EnumerateArray()
                .Select(item => item.GetProperty("action").GetProperty("shortKey").GetString()!),
        ];

    [Fact]
    public async Task What_is_foretold_is_written_once_a_day_by_the_software()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var hatch = (await kitchen.DoAsync("hatch", "Brood 3", "--json")).Json;
        var written = (await kitchen.DoAsync("foretell", "--json")).Json.GetProperty("written");
        Assert.Equal(
            "forecast issued",
            Assert.Single(written.EnumerateArray()).GetProperty("kind").GetString()
        );
        Assert.Empty(
            (await kitchen.DoAsync("foretell", "--json")).Json.GetProperty("written").EnumerateArray()
        );
        kitchen.Clock.AdvanceDays(1);
        Assert.Single(
            (await kitchen.DoAsync("foretell", "--json")).Json.GetProperty("written").EnumerateArray()
        );
        var journal = (await kitchen.DoAsync("journal", "--json"))
            .Json.GetProperty("entries")
            .EnumerateArray();
        Assert.Equal(2, journal.Count(e => e.GetProperty("author").GetString() == "broodtide"));
        // Writing a forecast down does not move it.
        var again = (
            await kitchen.DoAsync("hatch", "Brood 3", "--at", "2026-03-10T19:00:00Z", "--json")
        ).Json;
        Assert.Equal(hatch.GetProperty("median").GetString(), again.GetProperty("median").GetString());
    }

    [Fact]
    public async Task A_vessel_may_be_said_by_its_name_and_a_doubtful_reading_comes_first()
    {
        using var kitchen = new Kitchen();
        await kitchen.DoAsync("write", "vessel", "Jar A", "larval-vessel", "--capacity", "10L");
        await kitchen.DoAsync("write", "filled", "Jar A", "8L", "--salinity", "33", "--temperature", "24C");
        var plan = (await kitchen.DoAsync("water", "correct", "Jar A", "30", "--json")).Json;
        Assert.Equal(33, plan.GetProperty("vessel").GetProperty("salinityPpt").GetDouble(), 1e-9);
        kitchen.Clock.AdvanceMinutes(1);
        await kitchen.DoAsync("write", "salinity", "Jar A", "20");
        var refused = await kitchen.RunAsync("water", "correct", "Jar A", "30");
        Assert.Equal(1, refused.Code);
        Assert.Contains("Read again before anything is poured", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_present_may_be_another_instant()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var now = (await kitchen.DoAsync("hatch", "Brood 3", "--json")).Json;
        var then = (await kitchen.DoAsync("hatch", "Brood 3", "--at", "2026-03-05 20:00", "--json")).Json;
        Assert.Equal("2026-03-10T19:00:00Z", now.GetProperty("now").GetString());
        Assert.Equal("2026-03-05T19:00:00Z", then.GetProperty("now").GetString());
    }
}
