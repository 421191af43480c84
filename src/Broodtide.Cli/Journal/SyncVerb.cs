using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench.Recording;

namespace Broodtide.Cli.Journal;

/// <summary>What went each way.</summary>
internal sealed record SyncAnswer(
    string Other,
    int FetchedCount,
    int GivenCount,
    IReadOnlyList<RemarkJson> Conflicts
);

/// <summary>Brings two journals together.</summary>
internal static class SyncVerb
{
    public static Command Make()
    {
        var file = Slot.Word("FILE", "The other journal's file.");
        return new VerbCommand(
            "sync",
            "Bring this journal and another one together: each gets what it lacks.",
            ["sync other.broodtide"],
            [file],
            async sitting =>
            {
                var path = file.Text(sitting.Parse)!;
                if (!File.Exists(path))
                {
                    return sitting.NotUnderstood([new Remark("file-not-there", new Argument("file", path))]);
                }

                var here = await sitting.OpenAsync();
                await using var there = await SqliteJournal.OpenAsync(path, "cli", sitting.Cancellation);
                var exchanged = await Exchange.RunAsync(here, there, sitting.Cancellation);
                sitting.LookAnew();
                var saying = await sitting.SayingAsync();
                var conflicts = exchanged
                    .Fetched.Conflicts.Concat(exchanged.Given.Conflicts)
                    .Distinct()
                    .Select(saying.Json)
                    .ToList();
                return sitting.Answer(
                    new SyncAnswer(path, exchanged.Fetched.New, exchanged.Given.New, conflicts),
                    CliJson.Default.SyncAnswer,
                    page =>
                    {
                        page.Line(
                            $"{exchanged.Fetched.New} entries came here, {exchanged.Given.New} went to {path}."
                        );
                        foreach (var conflict in conflicts)
                        {
                            page.Line($"Does not agree: {conflict.Words}");
                        }
                    }
                );
            }
        );
    }
}
