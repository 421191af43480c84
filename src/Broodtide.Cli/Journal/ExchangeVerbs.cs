using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;

namespace Broodtide.Cli.Journal;

/// <summary>What a file was written with.</summary>
internal sealed record ExportAnswer(string File, int EntryCount);

/// <summary>What came in.</summary>
internal sealed record ImportAnswer(
    string File,
    int NewCount,
    int KnownCount,
    IReadOnlyList<RemarkJson> Conflicts,
    RemarkJson? Fault
);

/// <summary>What went each way.</summary>
internal sealed record SyncAnswer(
    string Other,
    int FetchedCount,
    int GivenCount,
    IReadOnlyList<RemarkJson> Conflicts
);

/// <summary>Writes the whole journal as one file.</summary>
internal static class ExportVerb
{
    public static Command Make()
    {
        var file = Slot.Word(
            "FILE",
            "Place of the file. An older one there is replaced once the new one is whole."
        );
        return new VerbCommand(
            "export",
            "Write the whole journal as one file of JSON Lines: lossless, to keep elsewhere.",
            ["export copy.jsonl"],
            [file],
            async sitting =>
            {
                var path = file.Text(sitting.Parse)!;
                var count = await JournalFile.ExportAsync(
                    await sitting.OpenAsync(),
                    path,
                    sitting.Cancellation
                );
                return sitting.Answer(
                    new ExportAnswer(path, count),
                    CliJson.Default.ExportAnswer,
                    page => page.Line($"{count} entries are in {path}.")
                );
            }
        );
    }
}

/// <summary>Takes a file in.</summary>
internal static class ImportVerb
{
    public static Command Make()
    {
        var file = Slot.Word("FILE", "A file written by \"export\".");
        var whole = Slot.Flag(
            "--what-is-whole",
            "Of a damaged file, take every entry that is whole and say what is wrong with the rest."
        );
        return new VerbCommand(
            "import",
            "Take in a file written by \"export\": all of it or nothing. Doing it twice changes nothing.",
            ["import copy.jsonl", "import copy.jsonl --what-is-whole"],
            [file, whole],
            sitting => ImportAsync(sitting, file.Text(sitting.Parse)!, whole.Text(sitting.Parse) is not null)
        );
    }

    private static async Task<int> ImportAsync(Sitting sitting, string path, bool whatIsWhole)
    {
        var saying = new Saying(sitting.Zone, null);
        Remark? fault = null;
        Intake intake;
        if (whatIsWhole)
        {
            (var entries, fault) = JournalFile.Salvage(path);
            if (fault is { Code: "file-foreign" or "file-newer" or "file-empty" })
            {
                return sitting.NotUnderstood([fault], saying);
            }

            intake = await (await sitting.OpenAsync()).TakeAsync(entries, sitting.Cancellation);
        }
        else
        {
            var read = JournalFile.Read(path);
            if (!read.Succeeded)
            {
                return sitting.NotUnderstood([read.Reason], saying);
            }

            intake = await (await sitting.OpenAsync()).TakeAsync(read.Value, sitting.Cancellation);
        }

        sitting.LookAnew();
        saying = await sitting.SayingAsync();
        return sitting.Answer(
            new ImportAnswer(
                path,
                intake.New,
                intake.Known,
                [.. intake.Conflicts.Select(saying.Json)],
                fault is null ? null : saying.Json(fault)
            ),
            CliJson.Default.ImportAnswer,
            page =>
            {
                page.Line($"{intake.New} entries came in, {intake.Known} were here already.");
                if (fault is not null)
                {
                    page.Line($"Not all of the file is whole: {saying.Of(fault)}");
                }

                foreach (var conflict in intake.Conflicts)
                {
                    page.Line($"Does not agree: {saying.Of(conflict)}");
                }
            }
        );
    }
}

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
