using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Backups;

namespace Broodtide.Cli.Journal;

/// <summary>A backup that was restored.</summary>
internal sealed record RestoreAnswer(
    string Folder,
    string Journal,
    string Made,
    int EntryCount,
    int PhotoCount,
    int FileCount,
    IReadOnlyList<RemarkJson> Faults
);

/// <summary>Restores a backup into a new folder.</summary>
internal static class RestoreVerb
{
    public static Command Make()
    {
        var backup = Slot.Word("BACKUP", "A file written by \"backup\".");
        var folder = Slot.Word("FOLDER", "Where to: a folder that is not there yet, or is empty.");
        var whole = Slot.Flag(
            "--what-is-whole",
            "Of a damaged backup, restore every file that is whole and say what is wrong with the rest."
        );
        var passphrase = PassphraseSlot.Make();
        return new VerbCommand(
            "restore",
            "Restore a backup into a new folder: all of it or nothing, and over nothing that is there.",
            ["restore whole.backup put-back"],
            [backup, folder, whole, passphrase],
            sitting =>
            {
                var file = backup.Text(sitting.Parse)!;
                if (!File.Exists(file))
                {
                    return Task.FromResult(
                        sitting.NotUnderstood([new("file-not-there", new Units.Argument("file", file))])
                    );
                }

                var restored = Restoring.Into(
                    file,
                    folder.Text(sitting.Parse)!,
                    PassphraseSlot.Read(sitting, passphrase),
                    whole.Text(sitting.Parse) is not null,
                    sitting.Cancellation
                );
                var saying = new Saying(sitting.Zone, null);
                var answer = new RestoreAnswer(
                    restored.Folder,
                    Path.Combine(restored.Folder, restored.List.Journal),
                    restored.List.Made,
                    restored.EntryCount,
                    restored.List.PhotoCount,
                    restored.List.Files.Count,
                    [.. restored.Faults.Select(saying.Json)]
                );
                sitting.Answer(answer, CliJson.Default.RestoreAnswer, page => Print(page, answer));
                return Task.FromResult(answer.Faults.Count == 0 ? ExitCode.Done : ExitCode.RuleSaysNo);
            }
        );
    }

    private static void Print(Page page, RestoreAnswer answer)
    {
        page.Line(
            $"{answer.EntryCount} entries and {answer.PhotoCount} photos of {answer.Made} are in {answer.Folder}"
        );
        page.Line($"Its journal: {answer.Journal}");
        page.Line(
            "It writes as a new writer from now on. What phones wrote since, they bring back when they meet it;"
        );
        page.Line("what others brought to it needs the refill, which the owner opens on the phone.");
        foreach (var fault in answer.Faults)
        {
            page.Line($"Not whole: {fault.Words}");
        }
    }
}
