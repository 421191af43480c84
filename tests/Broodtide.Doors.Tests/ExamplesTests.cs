using System.CommandLine;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Broodtide.Cli.Door;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed partial class ExamplesTests
{
    private static IEnumerable<(Command Command, string Path)> Commands(Command command, string path)
    {
        yield return (command, path);
        foreach (var below in command.Subcommands)
        {
            foreach (var found in Commands(below, $"{path} {below.Name}".Trim()))
            {
                yield return found;
            }
        }
    }

    private static List<(Command Command, string Path)> All() =>
        [.. Commands(CommandLine.Root(new GlobalOptions()), "")];

    [Fact]
    public void Every_verb_is_called_by_its_word() =>
        Assert.All(Verbs.All, verb => Assert.Equal(verb.Word, verb.Make().Name));

    [Fact]
    public void A_call_makes_the_verbs_that_stand_in_it_and_no_other()
    {
        Assert.Equal("due", Assert.Single(Verbs.In(["--json", "due", "--journal", "x"])).Word);
        Assert.Equal(["names", "due"], Verbs.In(["due", "names"]).Select(verb => verb.Word));
        Assert.Empty(Verbs.In(["--version"]));
        Assert.Equal(Verbs.All, Verbs.In(["--help"]));
        Assert.Equal(Verbs.All, Verbs.In(["dew"]));
    }

    // "names" alone is made for this call; what is wrong with it is told all the same.
    [Fact]
    public async Task A_word_that_is_no_verb_is_told_beside_one_that_is()
    {
        using var kitchen = new Kitchen();
        var (alone, beside) = (await kitchen.RunAsync("dew"), await kitchen.RunAsync("dew", "names"));
        Assert.Equal(2, beside.Code);
        Assert.Contains("dew", beside.Error, StringComparison.Ordinal);
        Assert.Equal(2, alone.Code);
    }

    [Fact]
    public async Task Every_example_of_every_help_page_runs_on_the_demo_journal()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        // What some examples need: a file to take in, another journal.
        await kitchen.DoAsync("export", kitchen.At("copy.jsonl"));
        var here = kitchen.Journal;
        kitchen.Journal = kitchen.At("other.broodtide");
        await kitchen.DoAsync("write", "note", "written elsewhere");
        kitchen.Journal = here;
        await File.WriteAllBytesAsync(
            kitchen.At("eggs.jpg"),
            SmallPhoto.WithPlace(),
            TestContext.Current.CancellationToken
        );

        await InventedTables.WriteAsync(kitchen);
        // Frames of one thing at several depths.
        await InventedPlanes.WriteAsync(kitchen);
        // A burst of invented frames, and one of them alone.
        await InventedPictures.BurstAsync(kitchen);
        File.Copy(kitchen.At("frames/f3.png"), kitchen.At("beam.png"));
        await InventedSlides.ChamberAsync(kitchen);
        await InventedSlides.LarvaAsync(kitchen);
        await InventedSlides.RulerAsync(kitchen);
        await InventedSlides.BeatAsync(kitchen, "clip", perMinute: 150, framesPerSecond: 12, seconds: 12);

        // A table of old notes, and what its columns mean.
        await File.WriteAllTextAsync(
            kitchen.At("old.csv"),
            "Datum;Temp;Larven\n24.5.2025 18:00;24,5;120\n25.5.2025 18:00;24,1 °C;\n",
            TestContext.Current.CancellationToken
        );
        await File.WriteAllTextAsync(
            kitchen.At("oldmap.json"),
            """
            {
              "delimiter": ";", "dateColumn": "Datum", "dateOrder": "day-month-year", "zone": "Europe/Berlin",
              "decimal": "comma", "vessel": "River tank",
              "columns": [{"column": "Temp", "as": "reading", "unit": "Cel"}, {"column": "Larven", "as": "count", "method": "glance"}]
            }
            """,
            TestContext.Current.CancellationToken
        );

        // A logger's file of the day before, and what its columns mean.
        await File.WriteAllTextAsync(
            kitchen.At("logger.csv"),
            "Time;Water\n2026-02-20 10:00;24.5\n2026-02-20 10:10;24.6\n",
            TestContext.Current.CancellationToken
        );
        await File.WriteAllTextAsync(
            kitchen.At("loggermap.json"),
            """
            {
              "delimiter": ";", "dateColumn": "Time", "dateOrder": "year-month-day", "zone": "UTC", "decimal": "point",
              "columns": [{"column": "Water", "as": "reading", "unit": "Cel", "sensor": "water"}]
            }
            """,
            TestContext.Current.CancellationToken
        );

        // Somebody's dossier.
        await kitchen.DoAsync("dossier", "Brood 1", "--to", kitchen.At("club.zip"));

        // Juveniles that were given away, and the file that tells of them.
        await kitchen.DoAsync("write", "given-away", "River tank", "4", "--to", "the club");
        var card = JsonNode.Parse((await kitchen.DoAsync("return", "card", "--json")).Out)!["gifts"]![0]![
            "card"
        ]!;
        await kitchen.DoAsync(
            "return",
            "answer",
            card.ToString(),
            "3",
            "--received",
            "4",
            "--out",
            kitchen.At("told.json")
        );

        var failed = new List<string>();
        var count = 0;
        foreach (var (command, _) in All())
        {
            foreach (var example in (command as VerbCommand)?.Examples ?? [])
            {
                count++;
                var words = Kitchen
                    .Split(example)
                    .Select(word => FileName().IsMatch(word) ? kitchen.At(word) : word);
                var outcome = await kitchen.RunAsync([.. words]);
                if (outcome.Code != 0)
                {
                    failed.Add($"{example} -> {outcome.Code}: {outcome.Error}{outcome.Out}");
                }
            }
        }

        Assert.Empty(failed);
        Assert.True(count > 70, $"{count} examples");
    }

    [Fact]
    public void Every_verb_shows_an_example_but_those_that_need_a_key_of_the_moment()
    {
        string[] without = ["write done", "write skipped", "species undo", "dossiers remove", "sensors see"];
        Assert.Equal(
            without.Order(StringComparer.Ordinal),
            All()
                .Where(found =>
                    found.Command is VerbCommand { Examples.Count: 0 }
                    && !found.Path.StartsWith("correct ", StringComparison.Ordinal)
                )
                .Select(found => found.Path)
                .Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public async Task Every_help_page_is_there_and_shows_its_examples()
    {
        using var kitchen = new Kitchen();
        foreach (var (command, path) in All())
        {
            var outcome = await kitchen.RunAsync([
                .. path.Split(' ', StringSplitOptions.RemoveEmptyEntries),
                "--help",
            ]);
            Assert.Equal(0, outcome.Code);
            Assert.Contains("Usage:", outcome.Out, StringComparison.Ordinal);
            foreach (var example in (command as VerbCommand)?.Examples ?? [])
            {
                Assert.Contains($"  broodtide {example}\n", outcome.Out, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task Every_call_of_the_readme_runs()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var readme = await File.ReadAllTextAsync(
            Path.Combine(AppContext.BaseDirectory, "README.md"),
            TestContext.Current.CancellationToken
        );
        foreach (Match call in ReadmeCall().Matches(readme))
        {
            var words = Kitchen
                .Split(call.Groups["call"].Value.Trim())
                .Select(word => FileName().IsMatch(word) ? kitchen.At(word) : word)
                .ToList();
            var outcome = await kitchen.RunAsync([.. words]);
            Assert.True(outcome.Code == 0, $"{call.Value}: {outcome.Code} {outcome.Error}");
        }
    }

    [Fact]
    public async Task The_page_of_commands_names_every_verb_and_shows_only_examples_that_are_run()
    {
        var page = await File.ReadAllTextAsync(
            Path.Combine(AppContext.BaseDirectory, "commands.md"),
            TestContext.Current.CancellationToken
        );
        var examples = All()
            .SelectMany(found => (found.Command as VerbCommand)?.Examples ?? [])
            .ToHashSet(StringComparer.Ordinal);
        var shown = ReadmeCall().Matches(page).Select(call => call.Groups["call"].Value.TrimEnd()).ToList();
        Assert.True(shown.Count > 70, $"{shown.Count} examples shown");
        Assert.DoesNotContain(shown, call => !examples.Contains(call));
        foreach (var (command, path) in All())
        {
            if (command is VerbCommand && !path.StartsWith("correct ", StringComparison.Ordinal))
            {
                Assert.True(
                    page.Contains($"`{path}", StringComparison.Ordinal)
                        || page.Contains($"### {path}\n", StringComparison.Ordinal),
                    path
                );
                Assert.Contains(
                    command.Description!.Replace("|", "\\|", StringComparison.Ordinal),
                    page,
                    StringComparison.Ordinal
                );
            }
        }
    }

    [GeneratedRegex(
        @"^(?:\w+\.(?:jsonl|json|broodtide|ics|jpg|png|zip|csv|backup)|[\w-]+\.html|brood-2\.zip|frames|planes|clip|openset|put-back)$"
    )]
    private static partial Regex FileName();

    [GeneratedRegex(@"^\s*broodtide (?<call>.+)$", RegexOptions.Multiline | RegexOptions.ExplicitCapture)]
    private static partial Regex ReadmeCall();
}
