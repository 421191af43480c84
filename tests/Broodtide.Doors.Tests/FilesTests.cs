using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class FilesTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_exported_comes_in_elsewhere_whole_and_twice_changes_nothing()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var copy = kitchen.At("copy.jsonl");
        var count = (await kitchen.DoAsync("export", copy, "--json"))
            .Json.GetProperty("entryCount")
            .GetInt32();
        var told = (await kitchen.DoAsync("journal")).Out;
        kitchen.Journal = kitchen.At("other.broodtide");
        var first = (await kitchen.DoAsync("import", copy, "--json")).Json;
        Assert.Equal(count, first.GetProperty("newCount").GetInt32());
        var second = (await kitchen.DoAsync("import", copy, "--json")).Json;
        Assert.Equal(0, second.GetProperty("newCount").GetInt32());
        Assert.Equal(count, second.GetProperty("knownCount").GetInt32());
        Assert.Equal(told, (await kitchen.DoAsync("journal")).Out);
        Assert.Contains(
            "every byte as it was written",
            (await kitchen.DoAsync("verify")).Out,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_calendar_is_printed_or_written_in_words_and_replaces_nothing_but_a_calendar()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var printed = (await kitchen.DoAsync("calendar")).Out;
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", printed, StringComparison.Ordinal);
        Assert.EndsWith("END:VCALENDAR\r\n", printed, StringComparison.Ordinal);
        var file = kitchen.At("due.ics");
        var told = (await kitchen.DoAsync("calendar", "--out", file, "--json")).Json;
        var first = await File.ReadAllTextAsync(file, Cancellation);
        foreach (var reminder in told.GetProperty("reminders").EnumerateArray())
        {
            var uid = reminder.GetProperty("uid").GetString()!;
            Assert.Contains(uid[..Math.Min(60, uid.Length)], first, StringComparison.Ordinal);
            // Every code has its words: none is shown bare.
            Assert.DoesNotMatch("^[a-z]+-[a-z-]+", reminder.GetProperty("words").GetString()!);
        }

        await kitchen.DoAsync("calendar", "--out", file);
        var journal = await kitchen.RunAsync("calendar", "--out", kitchen.Journal);
        Assert.Equal(1, journal.Code);
        Assert.Contains("was not replaced", journal.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_cut_short_is_refused_whole_and_salvaged_when_asked()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var copy = kitchen.At("copy.jsonl");
        await kitchen.DoAsync("export", copy);
        var bytes = await File.ReadAllBytesAsync(copy, Cancellation);
        await File.WriteAllBytesAsync(copy, bytes[..(bytes.Length / 2)], Cancellation);
        kitchen.Journal = kitchen.At("other.broodtide");
        var refused = await kitchen.RunAsync("import", copy);
        Assert.Equal(2, refused.Code);
        Assert.Contains("cut short after line", refused.Error, StringComparison.Ordinal);
        Assert.Single(refused.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.False(File.Exists(kitchen.Journal));
        var salvaged = (await kitchen.DoAsync("import", copy, "--what-is-whole", "--json")).Json;
        Assert.True(salvaged.GetProperty("newCount").GetInt32() > 20);
        Assert.Equal("file-cut-short", salvaged.GetProperty("fault").GetProperty("code").GetString());
    }

    [Theory]
    [InlineData("{\"format\":\"something-else\",\"version\":1}\n", "none of Broodtide's")]
    [InlineData("not json at all\n", "none of Broodtide's")]
    [InlineData("", "is empty")]
    [InlineData("{\"format\":\"broodtide-journal\",\"version\":99}\n", "is of version 99")]
    public async Task A_foreign_file_is_named_as_such_and_nothing_is_taken(string text, string said)
    {
        using var kitchen = new Kitchen();
        var file = kitchen.At("foreign.jsonl");
        await File.WriteAllTextAsync(file, text, Cancellation);
        foreach (var call in new[] { new[] { "import", file }, ["import", file, "--what-is-whole"] })
        {
            var outcome = await kitchen.RunAsync(call);
            Assert.Equal(2, outcome.Code);
            Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        }

        Assert.False(File.Exists(kitchen.Journal));
    }

    [Fact]
    public async Task A_journal_that_is_none_is_not_touched()
    {
        using var kitchen = new Kitchen();
        await File.WriteAllTextAsync(
            kitchen.Journal,
            "a shopping list, long enough to look at",
            Cancellation
        );
        var before = await File.ReadAllBytesAsync(kitchen.Journal, Cancellation);
        foreach (var line in new[] { "journal", "due", "write note x", "verify" })
        {
            var outcome = await kitchen.TypeAsync(line);
            Assert.Equal(2, outcome.Code);
            Assert.Single(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }

        Assert.Equal(before, await File.ReadAllBytesAsync(kitchen.Journal, Cancellation));
    }

    [Fact]
    public async Task What_needs_a_newer_version_is_kept_counted_and_said()
    {
        using var kitchen = new Kitchen();
        var file = Path.Combine(AppContext.BaseDirectory, "journal-v1.jsonl");
        await kitchen.DoAsync("import", file);
        var journal = await kitchen.DoAsync("journal", "--zone", "UTC");
        Assert.Contains("2 need a newer version of Broodtide", journal.Out, StringComparison.Ordinal);
        var copy = kitchen.At("copy.jsonl");
        await kitchen.DoAsync("export", copy);
        Assert.Equal(
            await File.ReadAllTextAsync(file, Cancellation),
            await File.ReadAllTextAsync(copy, Cancellation)
        );
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.01)]
    public async Task A_journal_that_is_cut_short_is_said_and_not_touched(double share)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var bytes = await File.ReadAllBytesAsync(kitchen.Journal, Cancellation);
        var cut = bytes[..(int)(share * bytes.Length)];
        await File.WriteAllBytesAsync(kitchen.Journal, cut, Cancellation);
        foreach (var line in new[] { "due", "write note x" })
        {
            var outcome = await kitchen.TypeAsync(line);
            Assert.Equal(2, outcome.Code);
            Assert.Contains("FOLDER/journal.broodtide", outcome.Error, StringComparison.Ordinal);
            Assert.Single(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }

        Assert.Equal(cut, await File.ReadAllBytesAsync(kitchen.Journal, Cancellation));
    }

    [Fact]
    public async Task A_file_that_is_not_there_is_said_in_one_line()
    {
        using var kitchen = new Kitchen();
        foreach (
            var line in new[]
            {
                "import nowhere.jsonl",
                "sync nowhere.broodtide",
                "export copy.jsonl",
                "verify",
            }
        )
        {
            var outcome = await kitchen.TypeAsync(line);
            Assert.Equal(2, outcome.Code);
            Assert.Single(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
            Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Looking_makes_no_file()
    {
        using var kitchen = new Kitchen();
        await kitchen.DoAsync("journal");
        await kitchen.DoAsync("due");
        Assert.Empty(Directory.GetFiles(kitchen.Folder));
    }

    [Fact]
    public async Task An_export_replaces_an_older_export_and_nothing_else()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var list = kitchen.At("list.txt");
        await File.WriteAllTextAsync(list, "salt, lids", Cancellation);
        foreach (var file in new[] { kitchen.Journal, list })
        {
            var before = await File.ReadAllBytesAsync(file, Cancellation);
            var outcome = await kitchen.RunAsync("export", file);
            Assert.Equal(1, outcome.Code);
            Assert.Contains("is no older export", outcome.Error, StringComparison.Ordinal);
            Assert.Equal(before, await File.ReadAllBytesAsync(file, Cancellation));
        }

        await kitchen.DoAsync("export", kitchen.At("copy.jsonl"));
        await kitchen.DoAsync("export", kitchen.At("copy.jsonl"));
    }

    [Fact]
    public async Task Two_journals_that_are_brought_together_tell_the_same()
    {
        using var kitchen = new Kitchen();
        await kitchen.DoAsync("write", "vessel", "Jar A", "larval-vessel");
        var here = kitchen.Journal;
        kitchen.Journal = kitchen.At("other.broodtide");
        await kitchen.DoAsync("write", "vessel", "Jar B", "larval-vessel");
        var synced = (await kitchen.DoAsync("sync", here, "--json")).Json;
        Assert.Equal(1, synced.GetProperty("fetchedCount").GetInt32());
        Assert.Equal(1, synced.GetProperty("givenCount").GetInt32());
        var there = (await kitchen.DoAsync("journal")).Out;
        kitchen.Journal = here;
        Assert.Equal(there, (await kitchen.DoAsync("journal")).Out);
    }

    [Fact]
    public async Task The_demo_never_writes_over_a_file()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        Assert.Equal(1, (await kitchen.RunAsync("demo", kitchen.Journal)).Code);
    }
}
