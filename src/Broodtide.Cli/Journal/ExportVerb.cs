using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;
using Broodtide.Units;

namespace Broodtide.Cli.Journal;

/// <summary>What a file was written with.</summary>
internal sealed record ExportAnswer(string File, int EntryCount);

/// <summary>Writes the whole journal as one file.</summary>
internal static class ExportVerb
{
    public static Command Make()
    {
        var file = Slot.Word(
            "FILE",
            "Place of the file. An older one there is replaced once the new one is whole."
        );
        var whole = Slot.Flag("--what-is-whole", "Of a damaged journal, write every entry that is whole.");
        return new VerbCommand(
            "export",
            "Write the whole journal as one file of JSON Lines: lossless, to keep elsewhere.",
            ["export copy.jsonl"],
            [file, whole],
            async sitting =>
            {
                var path = file.Text(sitting.Parse)!;
                if (!File.Exists(sitting.JournalPath))
                {
                    return sitting.NotUnderstood([
                        new Remark("file-not-there", new Argument("file", sitting.JournalPath)),
                    ]);
                }

                if (File.Exists(path) && !IsExport(path))
                {
                    return sitting.Refuse([new Remark("export-would-replace", new Argument("file", path))]);
                }

                if (whole.Text(sitting.Parse) is not null)
                {
                    var entries = StoreSalvage.Read(sitting.JournalPath, sitting.Cancellation);
                    JournalFile.Write(path, entries, sitting.Cancellation);
                    return sitting.Answer(
                        new ExportAnswer(path, entries.Count),
                        CliJson.Default.ExportAnswer,
                        page => page.Line($"{entries.Count} entries are whole and in {path}.")
                    );
                }

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

    // Only an older export is replaced: a slip of the name must not cost a journal, or anything else.
    private static bool IsExport(string path)
    {
        using var reader = new StreamReader(path);
        var start = new char[64];
        var length = reader.ReadBlock(start);
        return new string(start, 0, length).Contains($"\"{JournalLines.Format}\"", StringComparison.Ordinal);
    }
}
