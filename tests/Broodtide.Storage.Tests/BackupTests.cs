using Broodtide.Domain.Journal;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Verifying;
using NodaTime;
using static Broodtide.Storage.Tests.BackupKit;

namespace Broodtide.Storage.Tests;

public sealed class BackupTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(null)]
    [InlineData(Secret)]
    public async Task A_restored_backup_of_a_house_holds_what_the_house_held(string? passphrase)
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder, photos: 5);
        var made = Make(data, withKeys: false, folder["a.backup"], passphrase);
        Assert.Empty(made.Concerns);
        Assert.Equal(passphrase is not null, made.IsEncrypted);
        var restored = Restoring.Into(made.Path, folder["back"], passphrase, cancellation: Cancellation);
        Assert.Empty(restored.Faults);
        Assert.Equal(
            await ShapeAsync(Path.Combine(data, "journal.db")),
            await ShapeAsync(Path.Combine(folder["back"], "journal.db"))
        );
        var (before, after) = (
            PhotoFolder.Beside(Path.Combine(data, "journal.db")),
            PhotoFolder.Beside(Path.Combine(folder["back"], "journal.db"))
        );
        Assert.Equal(5, after.All().Count);
        Assert.Equal(before.All(), after.All());
        Assert.All(after.All(), hash => Assert.True(after.Read(hash)!.Succeeded));
        using var house = HouseFile.Open(Path.Combine(folder["back"], "house.db"));
        Assert.Equal(["Ada"], new HousePeople(house).All().Select(person => person.Name));
        Assert.Equal(
            ["a.backup", "back", "data"],
            Directory
                .EnumerateFileSystemEntries(folder[""])
                .Select(Path.GetFileName)
                .Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public async Task Two_entries_that_a_store_keeps_under_one_number_stop_no_backup_and_are_no_damage()
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder);
        var path = Path.Combine(data, "journal.db");
        await using (var journal = await SqliteJournal.OpenAsync(path, "server", Cancellation))
        {
            var other = Samples.NewReplica();
            var first = Samples.Seal(Samples.Note("one"), other, 1, null);
            var rival = Samples.Seal(Samples.Note("another"), other, 1, null);
            await journal.TakeAsync([first, rival], Cancellation);
            var verified = await Verification.OfAsync(
                journal,
                path,
                Instant.FromUtc(2026, 3, 1, 12, 0),
                DateTimeZone.Utc,
                Cancellation
            );
            Assert.Empty(verified.Faults);
            Assert.Contains(verified.Notes, note => note.Code == "number-twice");
        }

        var made = Make(data, withKeys: false, folder["a.backup"], null);
        Assert.Equal("number-twice", Assert.Single(made.Concerns).Code);
        var restored = Restoring.Into(made.Path, folder["back"], null, cancellation: Cancellation);
        Assert.Empty(restored.Faults);
        Assert.Equal(
            await DigestsAsync(path),
            await DigestsAsync(Path.Combine(folder["back"], "journal.db"))
        );
    }

    [Fact]
    public async Task A_restored_store_begins_a_new_life_and_the_old_one_goes_on()
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder);
        Make(data, withKeys: false, folder["a.backup"], null);
        Restoring.Into(folder["a.backup"], folder["back"], null, cancellation: Cancellation);
        await using var old = await SqliteJournal.OpenAsync(
            Path.Combine(data, "journal.db"),
            "cli",
            cancellation: Cancellation
        );
        await using var restored = await SqliteJournal.OpenAsync(
            Path.Combine(folder["back"], "journal.db"),
            "cli",
            cancellation: Cancellation
        );
        Assert.NotEqual(old.Replica, restored.Replica);
        Assert.Contains(
            old.Replica,
            (await restored.ReadAllAsync(Cancellation)).Select(entry => entry.Envelope.Replica)
        );
    }

    [Fact]
    public async Task A_backup_taken_while_somebody_writes_holds_whole_batches()
    {
        using var folder = new Folder();
        var path = folder["journal.db"];
        await using var journal = await SqliteJournal.OpenAsync(path, "cli", cancellation: Cancellation);
        await journal.AppendAsync([Samples.Note("first")], Cancellation);
        using var enough = new CancellationTokenSource();
        var begun = new TaskCompletionSource();
        var writing = Task.Run(
            async () =>
            {
                for (var i = 0; !enough.IsCancellationRequested; i++)
                {
                    await journal.AppendAsync([
                        .. Enumerable.Range(0, 7).Select(_ => Samples.Note($"{i}/7")),
                    ]);
                    begun.TrySetResult();
                }
            },
            Cancellation
        );
        await begun.Task;
        for (var i = 0; i < 3; i++)
        {
            var made = BackupMaking.OfJournal(
                path,
                folder[$"{i}.backup"],
                null,
                Now,
                cancellation: Cancellation
            );
            Restoring.Into(made.Path, folder[$"back{i}"], null, cancellation: Cancellation);
            await using var back = await SqliteJournal.OpenAsync(
                folder[$"back{i}/journal.db"],
                "cli",
                cancellation: Cancellation
            );
            Assert.Empty(await back.VerifyAsync(Cancellation));
            Assert.Equal(1, made.List.EntryCount % 7);
        }

        await enough.CancelAsync();
        await writing;
    }

    [Fact]
    public async Task Nothing_that_is_there_is_replaced()
    {
        using var folder = new Folder();
        var file = await SmallAsync(folder, null);
        Assert.Equal(
            "backup-is-there",
            Assert.Throws<StoreUnusableException>(() => Make(folder["data"], false, file, null)).Reason.Code
        );
        Directory.CreateDirectory(folder["back"]);
        await File.WriteAllTextAsync(folder["back/mine.txt"], "mine", Cancellation);
        Assert.Equal(
            "restore-folder-not-empty",
            Assert
                .Throws<StoreUnusableException>(() =>
                    Restoring.Into(file, folder["back"], null, cancellation: Cancellation)
                )
                .Reason.Code
        );
        Assert.Equal(
            ["mine.txt"],
            Directory.EnumerateFileSystemEntries(folder["back"]).Select(Path.GetFileName)
        );
        Assert.Equal(
            "restore-folder-not-empty",
            Assert
                .Throws<StoreUnusableException>(() =>
                    Restoring.Into(file, file, null, cancellation: Cancellation)
                )
                .Reason.Code
        );
        Directory.CreateDirectory(folder["empty"]);
        Assert.True(
            File.Exists(
                Path.Combine(
                    Restoring.Into(file, folder["empty"], null, cancellation: Cancellation).Folder,
                    "journal.db"
                )
            )
        );
    }

    [Fact]
    public async Task Keys_come_along_only_when_asked_and_only_under_a_passphrase()
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder);
        Directory.CreateDirectory(Path.Combine(data, "certificates"));
        var key = Path.Combine(data, "certificates", "authority.pem");
        await File.WriteAllTextAsync(key, "the key", Cancellation);
        await File.WriteAllTextAsync(
            Path.Combine(data, "settings.json"),
            "{\"password\":\"x\"}",
            Cancellation
        );
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        var unasked = Make(data, withKeys: false, folder["a.backup"], "right");
        Assert.DoesNotContain(
            unasked.List.Files,
            file =>
                file.Name.Contains("authority", StringComparison.Ordinal)
                || file.Name.Contains("settings", StringComparison.Ordinal)
        );
        Assert.Equal(
            "backup-keys-want-passphrase",
            Assert
                .Throws<StoreUnusableException>(() => Make(data, true, folder["b.backup"], null))
                .Reason.Code
        );
        Make(data, withKeys: true, folder["b.backup"], "right");
        Restoring.Into(folder["b.backup"], folder["back"], "right", cancellation: Cancellation);
        var back = folder["back/certificates/authority.pem"];
        Assert.Equal("the key", await File.ReadAllTextAsync(back, Cancellation));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(back));
        }
    }

    [Fact]
    public async Task Of_many_backups_the_newest_stay_and_nothing_else_is_touched()
    {
        using var folder = new Folder();
        await HouseAsync(folder);
        Directory.CreateDirectory(folder["kept"]);
        await File.WriteAllTextAsync(
            folder["kept/broodtide-20200101T000000Z.backup"],
            "named like one",
            Cancellation
        );
        string last = "";
        for (var i = 0; i < 4; i++)
        {
            last = BackupFolder.NewName(folder["kept"], Now + Duration.FromHours(i / 2));
            Make(folder["data"], withKeys: false, last, null);
        }

        Assert.Equal(2, BackupFolder.Thin(folder["kept"], 2, last).Count);
        Assert.Equal(
            [last, last.Replace("-2.backup", ".backup", StringComparison.Ordinal)],
            BackupFolder.All(folder["kept"]).Select(one => one.Path)
        );
        Assert.True(File.Exists(folder["kept/broodtide-20200101T000000Z.backup"]));
        // A clock that ran back names the newest as the oldest: it stays.
        var early = BackupFolder.NewName(folder["kept"], Now - Duration.FromDays(900));
        Make(folder["data"], withKeys: false, early, null);
        BackupFolder.Thin(folder["kept"], 1, early);
        Assert.Equal([early], BackupFolder.All(folder["kept"]).Select(one => one.Path));
    }

    [Fact]
    public async Task A_damaged_store_is_not_backed_up_over_good_backups()
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder);
        var path = Path.Combine(data, "journal.db");
        using (var stream = new FileStream(path, FileMode.Open, FileAccess.ReadWrite))
        {
            stream.Position = stream.Length - 300;
            stream.Write("somebody wrote this into the middle of a page"u8);
        }

        var refused = Assert.Throws<StoreUnusableException>(() =>
            Make(data, withKeys: false, folder["a.backup"], null)
        );
        Assert.Contains(refused.Reason.Code, (string[])["backup-of-damaged", "store-damaged"]);
        Assert.Equal(["data"], Directory.EnumerateFileSystemEntries(folder[""]).Select(Path.GetFileName));
    }

    private static async Task<List<Digest>> DigestsAsync(string path)
    {
        await using var journal = await SqliteJournal.OpenAsync(path, "look", Cancellation);
        return [.. (await journal.ReadAllAsync(Cancellation)).Select(entry => entry.Digest)];
    }
}
