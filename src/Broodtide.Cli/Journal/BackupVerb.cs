using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Backups;
using Broodtide.Units;

namespace Broodtide.Cli.Journal;

/// <summary>A backup that was made.</summary>
internal sealed record BackupAnswer(
    string File,
    long Bytes,
    bool IsEncrypted,
    int EntryCount,
    int PhotoCount,
    int FileCount,
    IReadOnlyList<string> Removed,
    IReadOnlyList<RemarkJson> Concerns
);

/// <summary>Backs up a journal, or a server's folder.</summary>
internal static class BackupVerb
{
    public static Command Make()
    {
        var place = Slot.Word(
            "PLACE",
            "A file that is not there yet; or a folder, where it gets a name by the clock."
        );
        var data = Slot.Option(
            "--data",
            "The folder of a server instead of the journal; the server may run.",
            "FOLDER"
        );
        var keys = Slot.Flag(
            "--with-keys",
            "With --data: the keys of sign-ins and of the house's authority too. Wants a passphrase."
        );
        var keep = Slot.Option(
            "--keep",
            "With a folder: how many backups stay there; older ones are removed.",
            "NUMBER"
        );
        var passphrase = PassphraseSlot.Make();
        return new VerbCommand(
            "backup",
            "Back up the journal with its photos and dossiers as one file, while it is in use. It is restored and compared before it counts.",
            ["backup whole.backup"],
            [place, data, keys, keep, passphrase],
            sitting =>
            {
                var path = place.Text(sitting.Parse)!;
                var isFolder = Directory.Exists(path);
                var stay = int.MaxValue;
                if (
                    keep.Text(sitting.Parse) is { } typed
                    && (
                        !int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out stay)
                        || stay < 1
                        || !isFolder
                    )
                )
                {
                    return Task.FromResult(
                        sitting.NotUnderstood([
                            new Remark("backup-keep-not-understood", new Argument("typed", typed)),
                        ])
                    );
                }

                var file = isFolder ? BackupFolder.NewName(path, sitting.Clock) : path;
                var secret = PassphraseSlot.Read(sitting, passphrase);
                var withKeys = keys.Text(sitting.Parse) is not null;
                var made = data.Text(sitting.Parse) is { } folder
                    ? BackupMaking.OfHouse(
                        folder,
                        withKeys,
                        file,
                        secret,
                        sitting.Clock,
                        sitting.Cancellation
                    )
                    : BackupMaking.OfJournal(
                        sitting.JournalPath,
                        file,
                        secret,
                        sitting.Clock,
                        sitting.Cancellation
                    );
                return Task.FromResult(
                    Say(sitting, made, isFolder ? BackupFolder.Thin(path, stay, made.Path) : [])
                );
            }
        );
    }

    private static int Say(Sitting sitting, BackupMade made, IReadOnlyList<string> removed)
    {
        var saying = new Saying(sitting.Zone, null);
        var answer = new BackupAnswer(
            made.Path,
            made.Bytes,
            made.IsEncrypted,
            made.List.EntryCount,
            made.List.PhotoCount,
            made.List.Files.Count,
            removed,
            [.. made.Concerns.Select(saying.Json)]
        );
        return sitting.Answer(
            answer,
            CliJson.Default.BackupAnswer,
            page =>
            {
                page.Line(
                    $"{answer.EntryCount} entries and {answer.PhotoCount} photos are in {answer.File}"
                        + (
                            answer.IsEncrypted
                                ? ", encrypted."
                                : ", not encrypted: whoever has the file can read it."
                        )
                );
                page.Line("It was restored into a scratch folder and compared: all is there.");
                foreach (var concern in answer.Concerns)
                {
                    page.Line($"Damaged already, and taken as it is: {concern.Words}");
                }

                foreach (var old in answer.Removed)
                {
                    page.Line($"Removed: {old}");
                }
            }
        );
    }
}
