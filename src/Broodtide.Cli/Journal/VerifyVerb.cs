using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Verifying;
using Broodtide.Units;

namespace Broodtide.Cli.Journal;

/// <summary>Whether a store is whole, and what belongs to it.</summary>
internal sealed record VerifyAnswer(
    string File,
    int EntryCount,
    int PhotoCount,
    int DossierCount,
    int SensorDayCount,
    IReadOnlyDictionary<string, int> Folds,
    IReadOnlyList<RemarkJson> Faults,
    IReadOnlyList<RemarkJson> Notes
);

/// <summary>Whether a backup is whole.</summary>
internal sealed record VerifyBackupAnswer(
    string File,
    string Made,
    bool IsEncrypted,
    int EntryCount,
    int PhotoCount,
    int FileCount,
    IReadOnlyList<RemarkJson> Faults
);

/// <summary>Verifies every byte of the store, or of a backup.</summary>
internal static class VerifyVerb
{
    public static Command Make()
    {
        var backup = Slot.MaybeWord(
            "BACKUP",
            "A file written by \"backup\", to verify in place of the journal."
        );
        var data = Slot.Option(
            "--data",
            "The folder of a server instead of the journal; the server may run.",
            "FOLDER"
        );
        var passphrase = PassphraseSlot.Make();
        return new VerbCommand(
            "verify",
            "Verify every byte: the journal's pages, hashes and chains, photos and dossiers against their names, every view told anew; or a backup.",
            ["verify", "verify whole.backup"],
            [backup, data, passphrase],
            sitting =>
                backup.Text(sitting.Parse) is { } file
                    ? Task.FromResult(Backup(sitting, file, PassphraseSlot.Read(sitting, passphrase)))
                    : JournalAsync(sitting, data.Text(sitting.Parse))
        );
    }

    private static async Task<int> JournalAsync(Sitting sitting, string? data)
    {
        var path = data is null ? sitting.JournalPath : Path.Combine(data, "journal.db");
        if (!File.Exists(path))
        {
            return sitting.NotUnderstood([new Remark("file-not-there", new Argument("file", path))]);
        }

        Verified verified;
        try
        {
            await using var journal = await SqliteJournal.OpenAsync(path, "cli", sitting.Cancellation);
            verified = await Verification.OfAsync(
                journal,
                path,
                sitting.Now,
                sitting.Zone,
                sitting.Cancellation
            );
        }
        catch (StoreUnusableException unusable) when (!sitting.Json)
        {
            var code = sitting.NotUnderstood([unusable.Reason]);
            Offer(new Page(sitting.Out), path, Whole(path, sitting.Cancellation));
            return code;
        }

        var saying = new Saying(sitting.Zone, null);
        var house = data is null ? [] : HouseFile.Verify(Path.Combine(data, "house.db"));
        var answer = new VerifyAnswer(
            path,
            verified.EntryCount,
            verified.PhotoCount,
            verified.DossierCount,
            verified.SensorDayCount,
            verified.Folds.ToDictionary(fold => fold.Name, fold => fold.Count, StringComparer.Ordinal),
            [.. verified.Faults.Concat(house).Select(saying.Json)],
            [.. verified.Notes.Select(saying.Json)]
        );
        sitting.Answer(answer, CliJson.Default.VerifyAnswer, page => Print(page, answer));
        return answer.Faults.Count == 0 ? ExitCode.Done : ExitCode.NotUnderstood;
    }

    private static void Print(Page page, VerifyAnswer answer)
    {
        if (answer.Faults.Count == 0)
        {
            page.Line($"{answer.EntryCount} entries, every byte as it was written.");
            page.Line(
                $"{answer.PhotoCount} photos and {answer.DossierCount} dossiers, each what its name says."
            );
            page.Line($"{answer.Folds.Count} views told anew.");
        }
        else
        {
            page.Line($"{answer.Faults.Count} things are wrong:");
            foreach (var fault in answer.Faults)
            {
                page.Line(fault.Words);
            }

            Offer(page, answer.File, answer.EntryCount);
        }

        foreach (var note in answer.Notes)
        {
            page.Line(note.Words);
        }
    }

    // How much can still be had of a store that cannot be used.
    private static int Whole(string path, CancellationToken cancellation)
    {
        try
        {
            return StoreSalvage.Read(path, cancellation).Count;
        }
        catch (StoreUnusableException)
        {
            return 0;
        }
    }

    // What to do about it, and with which backup.
    private static void Offer(Page page, string file, int whole)
    {
        page.Line();
        if (whole > 0)
        {
            page.Line($"{whole} entries are whole. Save them first: broodtide export FILE --what-is-whole");
        }

        var newest = BackupFolder.All(Path.GetDirectoryName(Path.GetFullPath(file))!);
        page.Line(
            $"Restore a backup: broodtide restore {(newest is [var last, ..] ? last.Path : "BACKUP")} FOLDER"
        );
        if (whole > 0)
        {
            page.Line("and take in what was saved: broodtide import FILE");
        }
    }

    private static int Backup(Sitting sitting, string file, string? passphrase)
    {
        if (!File.Exists(file))
        {
            return sitting.NotUnderstood([new Remark("file-not-there", new Argument("file", file))]);
        }

        var read = Restoring.Check(file, passphrase, sitting.Cancellation);
        var saying = new Saying(sitting.Zone, null);
        var answer = new VerifyBackupAnswer(
            file,
            read.List.Made,
            read.IsEncrypted,
            read.List.EntryCount,
            read.List.PhotoCount,
            read.List.Files.Count,
            [.. read.Faults.Select(saying.Json)]
        );
        sitting.Answer(
            answer,
            CliJson.Default.VerifyBackupAnswer,
            page =>
            {
                page.Line(
                    $"A backup of {answer.Made}: {answer.EntryCount} entries, {answer.PhotoCount} photos."
                );
                page.Line(
                    answer.Faults.Count == 0
                        ? $"{answer.FileCount} files, every byte as it was written."
                        : $"{answer.Faults.Count} things are wrong:"
                );
                foreach (var fault in answer.Faults)
                {
                    page.Line(fault.Words);
                }

                if (answer.Faults.Count > 0)
                {
                    page.Line();
                    page.Line($"What is whole can be had: broodtide restore {file} FOLDER --what-is-whole");
                }
            }
        );
        return answer.Faults.Count == 0 ? ExitCode.Done : ExitCode.NotUnderstood;
    }
}
