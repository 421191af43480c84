using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage;
using Broodtide.Units;
using Broodtide.Workbench;

namespace Broodtide.Cli.Journal;

/// <summary>What came in.</summary>
internal sealed record ImportAnswer(
    string File,
    int NewCount,
    int KnownCount,
    IReadOnlyList<RemarkJson> Conflicts,
    RemarkJson? Fault
);

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
