using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

/// <summary>The restore drill: a journal with photos and a dossier is backed up, lost, restored and found equal.</summary>
public sealed class BackupTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(null)]
    [InlineData("the tide turns twice a day")]
    public async Task A_journal_that_is_lost_comes_back_whole_from_its_backup(string? passphrase)
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        if (passphrase is not null)
        {
            kitchen.Variables["BROODTIDE_BACKUP_PASSPHRASE"] = passphrase;
        }

        await File.WriteAllBytesAsync(kitchen.At("eggs.jpg"), SmallPhoto.WithPlace(), Cancellation);
        await kitchen.DoAsync(
            "photo",
            "add",
            kitchen.At("eggs.jpg"),
            "--for",
            "last",
            "--caption",
            "eyed eggs"
        );
        await kitchen.DoAsync("dossier", "Brood 1", "--to", kitchen.At("club.zip"));
        await kitchen.DoAsync("dossiers", "take", kitchen.At("club.zip"));
        var told = await TellAsync(kitchen);
        var made = (await kitchen.DoAsync("backup", kitchen.At("whole.backup"), "--json")).Json;
        Assert.Equal(passphrase is not null, made.GetProperty("isEncrypted").GetBoolean());
        Assert.True(made.GetProperty("photoCount").GetInt32() > 0);
        Assert.Contains(
            "every byte as it was written",
            (await kitchen.DoAsync("verify", kitchen.At("whole.backup"))).Out,
            StringComparison.Ordinal
        );

        // Everything is gone.
        File.Delete(kitchen.Journal);
        foreach (var folder in Directory.GetDirectories(kitchen.Folder, "journal.*"))
        {
            Directory.Delete(folder, recursive: true);
        }

        await kitchen.DoAsync("restore", kitchen.At("whole.backup"), kitchen.At("back"));
        kitchen.Journal = kitchen.At("back/journal.broodtide");
        Assert.Equal(told, await TellAsync(kitchen));
        var verified = (await kitchen.DoAsync("verify", "--json")).Json;
        Assert.Equal(
            made.GetProperty("entryCount").GetInt32(),
            verified.GetProperty("entryCount").GetInt32()
        );
        Assert.Equal(1, verified.GetProperty("dossierCount").GetInt32());
        Assert.Equal(0, verified.GetProperty("notes").GetArrayLength());
        Assert.True(verified.GetProperty("folds").GetProperty("vessels").GetInt32() > 0);
        // It goes on.
        await kitchen.DoAsync("write", "note", "after the loss");
        await kitchen.DoAsync("verify");
    }

    [Fact]
    public async Task What_is_wrong_with_a_backup_is_said_in_one_line_and_nothing_is_left()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await File.WriteAllTextAsync(kitchen.At("secret"), "right\n", Cancellation);
        await File.WriteAllTextAsync(kitchen.At("other"), "wrong\n", Cancellation);
        await kitchen.DoAsync(
            "backup",
            kitchen.At("whole.backup"),
            "--passphrase-file",
            kitchen.At("secret")
        );
        await RefusedAsync("its passphrase", "restore", kitchen.At("whole.backup"), kitchen.At("back"));
        await RefusedAsync(
            "not the one",
            "restore",
            kitchen.At("whole.backup"),
            kitchen.At("back"),
            "--passphrase-file",
            kitchen.At("other")
        );
        await RefusedAsync("no backup of Broodtide", "restore", kitchen.Journal, kitchen.At("back"));
        await RefusedAsync("There is no file", "restore", kitchen.At("nowhere.backup"), kitchen.At("back"));
        await RefusedAsync("is there already", "backup", kitchen.At("whole.backup"));
        await RefusedAsync("--keep 0", "backup", kitchen.Folder, "--keep", "0");
        var bytes = await File.ReadAllBytesAsync(kitchen.At("whole.backup"), Cancellation);
        bytes[bytes.Length / 3] ^= 4;
        await File.WriteAllBytesAsync(kitchen.At("whole.backup"), bytes, Cancellation);
        await RefusedAsync(
            "is damaged",
            "restore",
            kitchen.At("whole.backup"),
            kitchen.At("back"),
            "--passphrase-file",
            kitchen.At("secret")
        );
        Assert.False(Path.Exists(kitchen.At("back")));
        Assert.Empty(Directory.GetFileSystemEntries(kitchen.Folder, "*.making-*"));

        async Task RefusedAsync(string said, params string[] call)
        {
            var outcome = await kitchen.RunAsync(call);
            Assert.Equal(2, outcome.Code);
            Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
            Assert.Single(outcome.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        }
    }

    [Fact]
    public async Task A_folder_of_backups_keeps_as_many_as_was_said()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        Directory.CreateDirectory(kitchen.At("kept"));
        for (var i = 0; i < 3; i++)
        {
            kitchen.Clock.AdvanceDays(1);
            await kitchen.DoAsync("backup", kitchen.At("kept"), "--keep", "2");
        }

        Assert.Equal(2, Directory.GetFiles(kitchen.At("kept")).Length);
    }

    [Fact]
    public async Task A_damaged_journal_names_what_is_wrong_saves_what_is_whole_and_offers_a_restore()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await kitchen.DoAsync("backup", kitchen.Folder);
        var count = (await kitchen.DoAsync("verify", "--json")).Json.GetProperty("entryCount").GetInt32();
        var bytes = await File.ReadAllBytesAsync(kitchen.Journal, Cancellation);
        // The beginning of an entry's body on some page.
        var place = bytes.AsSpan().LastIndexOf("\"text\""u8);
        Assert.True(place > 0);
        bytes[place + 3] ^= 1;
        await File.WriteAllBytesAsync(kitchen.Journal, bytes, Cancellation);
        var damaged = await kitchen.RunAsync("verify");
        Assert.Equal(2, damaged.Code);
        Assert.Contains("is damaged", damaged.Out, StringComparison.Ordinal);
        Assert.Contains($"{count - 1} entries are whole", damaged.Out, StringComparison.Ordinal);
        Assert.Matches(@"broodtide restore FOLDER/broodtide-\S+\.backup FOLDER", damaged.Out);
        await kitchen.DoAsync("export", kitchen.At("saved.jsonl"), "--what-is-whole");
        kitchen.Journal = kitchen.At("new.broodtide");
        var taken = (await kitchen.DoAsync("import", kitchen.At("saved.jsonl"), "--json")).Json;
        Assert.Equal(count - 1, taken.GetProperty("newCount").GetInt32());
        // The one that is missing is no damage there: it may still come.
        Assert.Contains(
            "1 entries of that phone",
            (await kitchen.DoAsync("verify")).Out,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_journal_that_cannot_be_opened_any_more_is_named_and_a_restore_is_offered()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await kitchen.DoAsync("backup", kitchen.Folder);
        var bytes = await File.ReadAllBytesAsync(kitchen.Journal, Cancellation);
        await File.WriteAllBytesAsync(kitchen.Journal, bytes[..(bytes.Length / 2)], Cancellation);
        var damaged = await kitchen.RunAsync("verify");
        Assert.Equal(2, damaged.Code);
        Assert.Contains("FOLDER/journal.broodtide is cut short", damaged.Error, StringComparison.Ordinal);
        Assert.Matches(@"\d+ entries are whole", damaged.Out);
        Assert.Matches(@"broodtide restore FOLDER/broodtide-\S+\.backup FOLDER", damaged.Out);
        await kitchen.DoAsync("export", kitchen.At("saved.jsonl"), "--what-is-whole");
    }

    private static async Task<string> TellAsync(Kitchen kitchen) =>
        (await kitchen.DoAsync("journal")).Out
        + (await kitchen.DoAsync("due")).Out
        + (await kitchen.DoAsync("photo", "list")).Out;
}
