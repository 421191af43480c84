using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class WritingTests
{
    private static async Task<Kitchen> WithJarAsync()
    {
        var kitchen = new Kitchen();
        await kitchen.DoAsync("write", "vessel", "Jar A", "larval-vessel", "--capacity", "10L");
        await kitchen.DoAsync("write", "filled", "Jar A", "8L", "--salinity", "32", "--temperature", "24C");
        return kitchen;
    }

    [Fact]
    public async Task A_reading_is_written_and_stands_in_the_journal()
    {
        using var kitchen = await WithJarAsync();
        var written = await kitchen.DoAsync("write", "salinity", "jar a", "33,5", "--when", "18:30");
        Assert.Contains("33.5 ppt read in Jar A", written.Out, StringComparison.Ordinal);
        var journal = await kitchen.DoAsync("journal", "--json");
        var entry = journal
            .Json.GetProperty("entries")
            .EnumerateArray()
            .Single(e => e.GetProperty("kind").GetString() == "reading taken");
        // 18:30 in Berlin, winter time.
        Assert.Equal("2026-03-10T17:30:00Z", entry.GetProperty("happenedFrom").GetString());
        Assert.Equal("ada", entry.GetProperty("author").GetString());
    }

    [Fact]
    public async Task What_is_improbable_is_asked_back_once_and_stored_with_yes_marked_as_doubted()
    {
        using var kitchen = await WithJarAsync();
        var asked = await kitchen.RunAsync("write", "temperature", "Jar A", "76");
        Assert.Equal(1, asked.Code);
        Assert.Empty(asked.Out);
        Assert.Contains("looks like Fahrenheit", asked.Error, StringComparison.Ordinal);
        Assert.Contains("More likely meant: 76 °F read in Jar A", asked.Error, StringComparison.Ordinal);
        Assert.Equal(
            2,
            (await kitchen.DoAsync("journal", "--json")).Json.GetProperty("entryCount").GetInt32()
        );

        var stored = await kitchen.DoAsync("write", "temperature", "Jar A", "76", "--yes", "--json");
        Assert.True(stored.Json.GetProperty("written")[0].GetProperty("doubted").GetBoolean());
    }

    [Fact]
    public async Task What_cannot_be_is_refused_even_with_yes()
    {
        using var kitchen = await WithJarAsync();
        var refused = await kitchen.RunAsync("write", "poured", "-2L", "--to", "Jar A", "--yes");
        Assert.Equal(1, refused.Code);
        Assert.Contains("-2L cannot be", refused.Error, StringComparison.Ordinal);
        var asked = await kitchen.RunAsync("write", "salinity", "Jar A", "1025", "--yes");
        Assert.Equal(1, asked.Code);
        Assert.Equal(
            2,
            (await kitchen.DoAsync("journal", "--json")).Json.GetProperty("entryCount").GetInt32()
        );
    }

    [Theory]
    [InlineData("write salinity \"Jar Z\" 33", "There is no vessel \"Jar Z\". Known: \"Jar A\".")]
    [InlineData("write salinity \"Jar A\" abc", "salinity: \"abc\" is no number, from character 1 on")]
    [InlineData("write salinity \"Jar A\" \"35 g/L\"", "g/L finished, g/L water")]
    [InlineData("write ammonia \"Jar A\" 0.5", "mg/L TAN-N")]
    [InlineData("write nitrite \"Jar A\" \"0.5 mg/L\"", "mg/L NO2-N, mg/L NO2")]
    [InlineData("write poured 5kg --to \"Jar A\"", "measures something else")]
    [InlineData("write filled \"Jar A\" 8", "has no unit")]
    [InlineData("write salinity \"Jar A\" 33 --when tomorrowish", "is no time")]
    [InlineData("write salinity \"Jar A\" 33 --zone Atlantis/Deep", "There is no time zone")]
    [InlineData("write salinity \"Jar A\"", "VALUE")]
    [InlineData("write sallinity \"Jar A\" 33", "sallinity")]
    [InlineData("write vessel \"Jar B\" bucket", "is not on the list")]
    [InlineData("write animal \"\"", "name: a name is needed")]
    [InlineData("write count \"Jar A\" 3.5", "is not a whole number")]
    [InlineData("write stages \"Jar A\" Z5:3", "is no stage with its number")]
    [InlineData("take-back ffffff", "There is no entry")]
    public async Task What_is_not_understood_says_what_where_and_what_is_allowed(string line, string said)
    {
        using var kitchen = await WithJarAsync();
        var outcome = await kitchen.TypeAsync(line);
        Assert.Equal(2, outcome.Code);
        Assert.Empty(outcome.Out);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.Equal(
            2,
            (await kitchen.DoAsync("journal", "--json")).Json.GetProperty("entryCount").GetInt32()
        );
    }

    [Fact]
    public async Task Everything_that_is_wrong_is_said_at_once()
    {
        using var kitchen = await WithJarAsync();
        var outcome = await kitchen.RunAsync("write", "poured", "x", "--to", "Jar Z", "--salinity", "y");
        Assert.Equal(3, outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task A_correction_replaces_and_the_old_words_stay_readable()
    {
        using var kitchen = await WithJarAsync();
        var id = (await kitchen.DoAsync("write", "salinity", "Jar A", "33", "--json"))
            .Json.GetProperty("written")[0]
            .GetProperty("shortId")
            .GetString()!;
        await kitchen.DoAsync("correct", "salinity", id, "Jar A", "31.5");
        var told = (await kitchen.DoAsync("journal", "--json"))
            .Json.GetProperty("entries")
            .EnumerateArray()
            .ToList();
        Assert.Contains("31.5 ppt", told[^1].GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.True(told[^1].GetProperty("corrected").GetBoolean());
        var all = (await kitchen.DoAsync("journal", "--all", "--json"))
            .Json.GetProperty("entries")
            .EnumerateArray();
        Assert.Contains(
            all,
            e =>
                e.GetProperty("standing").GetString() == "replaced"
                && e.GetProperty("shortId").GetString() == id
        );
    }

    [Fact]
    public async Task A_correction_of_a_filling_keeps_its_fill_and_of_the_time_keeps_the_fact()
    {
        using var kitchen = await WithJarAsync();
        await kitchen.DoAsync("correct", "filled", "last", "Jar A", "7L", "--salinity", "32");
        await kitchen.DoAsync("correct", "time", "last", "--when", "yesterday 20:00");
        var journal = (await kitchen.DoAsync("journal", "--json")).Json;
        var filled = journal.GetProperty("entries").EnumerateArray().First();
        Assert.Contains("filled with 7 L", filled.GetProperty("words").GetString(), StringComparison.Ordinal);
        Assert.Equal("2026-03-09T19:00:00Z", filled.GetProperty("happenedFrom").GetString());
        Assert.Equal(2, journal.GetProperty("entries").GetArrayLength());
        Assert.Empty(journal.GetProperty("conflicts").EnumerateArray());
    }

    [Fact]
    public async Task A_correction_keeps_what_the_command_line_has_no_word_for()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var crossing = (await kitchen.DoAsync("journal", "--json"))
            .Json.GetProperty("entries")
            .EnumerateArray()
            .Last(e => e.GetProperty("kind").GetString() == "crossing made")
            .GetProperty("shortId")
            .GetString()!;
        await kitchen.DoAsync("correct", "crossing", crossing, "Brood 2", "Jar A", "--number", "73");
        await kitchen.DoAsync("export", kitchen.At("copy.jsonl"));
        var lines = await File.ReadAllLinesAsync(
            kitchen.At("copy.jsonl"),
            TestContext.Current.CancellationToken
        );
        // The last line but one is the newest entry of this store.
        Assert.Contains("\\\"number\\\":73", lines[^2], StringComparison.Ordinal);
        Assert.Contains("\\\"pours\\\":[{", lines[^2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_taken_back_is_not_told_any_more_and_what_is_erased_is_gone()
    {
        using var kitchen = await WithJarAsync();
        await kitchen.DoAsync("write", "note", "a private thing");
        Assert.Equal(1, (await kitchen.RunAsync("erase", "last")).Code);
        await kitchen.DoAsync("erase", "last", "--yes");
        var all = await kitchen.DoAsync("journal", "--all");
        Assert.DoesNotContain("a private thing", all.Out, StringComparison.Ordinal);
        Assert.Contains("note written: erased", all.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "a private thing",
            System.Text.Encoding.UTF8.GetString(
                await File.ReadAllBytesAsync(kitchen.Journal, TestContext.Current.CancellationToken)
            ),
            StringComparison.Ordinal
        );

        await kitchen.DoAsync("write", "salinity", "Jar A", "33");
        await kitchen.DoAsync("take-back", "last", "--reason", "the wrong jar");
        Assert.DoesNotContain("33 ppt", (await kitchen.DoAsync("journal")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Recording_is_never_refused_for_a_rule_that_it_breaks()
    {
        using var kitchen = await WithJarAsync();
        var outcome = await kitchen.DoAsync("write", "filled", "Jar A", "8L", "--json");
        Assert.Equal(
            "filled-while-full",
            outcome.Json.GetProperty("newConflicts")[0].GetProperty("code").GetString()
        );
    }

    [Fact]
    public async Task A_time_told_as_some_time_since_is_an_interval()
    {
        using var kitchen = await WithJarAsync();
        var entry = (
            await kitchen.DoAsync("write", "drawn-off", "Jar A", "1L", "--since", "yesterday 22:00", "--json")
        ).Json.GetProperty("written")[0];
        Assert.Equal("2026-03-09T21:00:00Z", entry.GetProperty("happenedFrom").GetString());
        Assert.Equal("2026-03-10T19:00:00Z", entry.GetProperty("happenedTo").GetString());
    }

    [Fact]
    public async Task A_time_in_the_future_is_asked_back_with_the_same_hour_yesterday()
    {
        using var kitchen = await WithJarAsync();
        var outcome = await kitchen.RunAsync("write", "salinity", "Jar A", "33", "--when", "23:30");
        Assert.Equal(1, outcome.Code);
        Assert.Contains("More likely meant: 2026-03-09 23:30", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_journal_as_it_was_known_then_leaves_later_entries_out()
    {
        using var kitchen = await WithJarAsync();
        kitchen.Clock.AdvanceHours(2);
        await kitchen.DoAsync("write", "salinity", "Jar A", "33", "--when", "18:00");
        var then = await kitchen.DoAsync("journal", "--as-known-at", "2026-03-10 21:00", "--json");
        Assert.Equal(2, then.Json.GetProperty("entryCount").GetInt32());
    }
}
