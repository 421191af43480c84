using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

public sealed class BackupTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 11, 26, 15, 4, 5);

    private const string Secret = "tide comes in at ten";

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

    [Theory]
    [InlineData(null)]
    [InlineData(Secret)]
    public async Task A_changed_byte_anywhere_is_found_and_nothing_is_restored(string? passphrase)
    {
        using var folder = new Folder();
        var file = await SmallAsync(folder, passphrase);
        var whole = await File.ReadAllBytesAsync(file, Cancellation);
        var random = new Random(11);
        var places = Enumerable
            .Range(0, 3)
            .Select(i => i * 40)
            .Concat(Enumerable.Range(0, 12).Select(_ => random.Next(whole.Length)));
        foreach (var place in places)
        {
            var changed = (byte[])whole.Clone();
            changed[place] ^= (byte)(1 << random.Next(8));
            await File.WriteAllBytesAsync(file, changed, Cancellation);
            var refused = Assert.Throws<StoreUnusableException>(() =>
                Restoring.Into(file, folder["back"], passphrase, cancellation: Cancellation)
            );
            Assert.StartsWith("backup-", refused.Reason.Code, StringComparison.Ordinal);
            Assert.False(Path.Exists(folder["back"]), $"byte {place}");
        }

        Assert.Equal(
            ["a.backup", "data"],
            Directory
                .EnumerateFileSystemEntries(folder[""])
                .Select(Path.GetFileName)
                .Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [InlineData(null)]
    [InlineData(Secret)]
    public async Task A_backup_that_lost_its_end_says_so(string? passphrase)
    {
        using var folder = new Folder();
        var file = await SmallAsync(folder, passphrase);
        var whole = await File.ReadAllBytesAsync(file, Cancellation);
        const int piece = BackupSeal.PieceBytes + BackupSeal.TagBytes;
        int[] lengths =
        [
            0,
            50,
            96,
            97,
            96 + piece,
            whole.Length / 2,
            whole.Length - 1,
            96 + ((whole.Length - 97) / piece * piece),
        ];
        foreach (var length in lengths)
        {
            await File.WriteAllBytesAsync(file, whole[..length], Cancellation);
            var refused = Assert.Throws<StoreUnusableException>(() =>
                Restoring.Into(file, folder["back"], passphrase, cancellation: Cancellation)
            );
            Assert.Contains(
                refused.Reason.Code,
                (string[])["backup-foreign", "backup-cut-short", "backup-damaged"]
            );
            Assert.False(Path.Exists(folder["back"]));
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData(Secret)]
    public async Task Pieces_that_change_places_or_come_from_another_backup_are_found(string? passphrase)
    {
        using var folder = new Folder();
        var file = await SmallAsync(folder, passphrase);
        var whole = await File.ReadAllBytesAsync(file, Cancellation);
        var other = folder["b.backup"];
        Make(folder["data"], withKeys: false, other, passphrase);
        const int piece = BackupSeal.PieceBytes + BackupSeal.TagBytes;
        const int head = BackupSeal.HeadBytes;
        var swapped = (byte[])whole.Clone();
        whole.AsSpan(head, piece).CopyTo(swapped.AsSpan(head + piece));
        whole.AsSpan(head + piece, piece).CopyTo(swapped.AsSpan(head));
        var foreign = (byte[])whole.Clone();
        (await File.ReadAllBytesAsync(other, Cancellation)).AsSpan(head, piece).CopyTo(foreign.AsSpan(head));
        var doubled = whole[..(head + piece)].Concat(whole[head..]).ToArray();
        foreach (var wrong in (byte[][])[swapped, foreign, doubled])
        {
            await File.WriteAllBytesAsync(file, wrong, Cancellation);
            Assert.Throws<StoreUnusableException>(() =>
                Restoring.Into(file, folder["back"], passphrase, cancellation: Cancellation)
            );
            Assert.False(Path.Exists(folder["back"]));
        }
    }

    [Fact]
    public async Task A_wrong_passphrase_is_called_that_and_a_backup_without_one_is_not_believed_with_one()
    {
        using var folder = new Folder();
        var file = await SmallAsync(folder, "right");
        Assert.Equal("backup-passphrase-wrong", CodeOf("wrong"));
        Assert.Equal("backup-passphrase-wanted", CodeOf(null));
        Assert.DoesNotContain(
            "a note that is secret",
            Encoding.Latin1.GetString(await File.ReadAllBytesAsync(file, Cancellation)),
            StringComparison.Ordinal
        );
        File.Delete(file);
        Make(folder["data"], withKeys: false, file, null);
        Assert.Contains(
            "a note that is secret",
            Encoding.Latin1.GetString(await File.ReadAllBytesAsync(file, Cancellation)),
            StringComparison.Ordinal
        );
        Assert.Equal("backup-not-encrypted", CodeOf("right"));

        string CodeOf(string? passphrase) =>
            Assert
                .Throws<StoreUnusableException>(() => Restoring.Into(file, folder["back"], passphrase))
                .Reason.Code;
    }

    [Fact]
    public async Task Of_a_damaged_backup_what_is_whole_can_be_had_and_the_rest_is_named()
    {
        using var folder = new Folder();
        var data = await HouseAsync(folder, photos: 6);
        var made = Make(data, withKeys: false, folder["a.backup"], null);
        var victim = made.List.Files.Last(file => file.Sort == "photo");
        var place =
            made.List.Files.TakeWhile(file => file != victim).Sum(file => file.Bytes) + (victim.Bytes / 2);
        var bytes = await File.ReadAllBytesAsync(made.Path, Cancellation);
        bytes[BackupSeal.HeadBytes + place + (place / BackupSeal.PieceBytes * BackupSeal.TagBytes)] ^= 1;
        await File.WriteAllBytesAsync(made.Path, bytes, Cancellation);
        Assert.Contains(
            Restoring.Check(made.Path, null, Cancellation).Faults,
            fault => fault["file"]!.Equals(victim.Name)
        );
        var restored = Restoring.Into(
            made.Path,
            folder["back"],
            null,
            whatIsWhole: true,
            cancellation: Cancellation
        );
        Assert.Contains(restored.Faults, fault => fault["file"]!.Equals(victim.Name));
        var photos = PhotoFolder.Beside(folder["back/journal.db"]);
        Assert.InRange(photos.All().Count, 4, 5);
        Assert.All(photos.All(), hash => Assert.True(photos.Read(hash)!.Succeeded));
        Assert.Equal(
            await ShapeAsync(Path.Combine(data, "journal.db")),
            await ShapeAsync(folder["back/journal.db"])
        );
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

    [Theory]
    [InlineData("../outside")]
    [InlineData("/etc/passwd")]
    [InlineData("a/../../outside")]
    [InlineData("a\\b")]
    [InlineData("")]
    public void A_backup_whose_names_lead_outside_is_not_unpacked(string name)
    {
        using var folder = new Folder();
        using (var stream = File.Create(folder["evil.backup"]))
        using (var seal = BackupSeal.Make(null))
        {
            var writer = new BackupWriter(stream, seal);
            writer.Begin();
            writer.Write("evil"u8);
            writer.End(
                new BackupList(
                    "broodtide-backup",
                    1,
                    "2026-11-26T15:04:05Z",
                    "journal.db",
                    0,
                    [
                        new(
                            name,
                            "file",
                            4,
                            Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData("evil"u8)),
                            0,
                            false
                        ),
                    ]
                )
            );
        }

        Assert.Throws<StoreUnusableException>(() =>
            Restoring.Into(
                folder["evil.backup"],
                folder["back"],
                null,
                whatIsWhole: true,
                cancellation: Cancellation
            )
        );
        Assert.Equal(
            ["evil.backup"],
            Directory.EnumerateFileSystemEntries(folder[""]).Select(Path.GetFileName)
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

    // Few rounds from passphrase to key: how many there are is none of these tests' business.
    private static BackupMade Make(string data, bool withKeys, string place, string? passphrase) =>
        BackupMaking.OfHouse(data, withKeys, place, passphrase, Now, rounds: 1000, Cancellation);

    private static async Task<string> SmallAsync(Folder folder, string? passphrase)
    {
        var data = await HouseAsync(folder);
        return Make(data, withKeys: false, folder["a.backup"], passphrase).Path;
    }

    private static async Task<string> HouseAsync(Folder folder, int photos = 1)
    {
        var data = folder["data"];
        Directory.CreateDirectory(data);
        var path = Path.Combine(data, "journal.db");
        await using (var journal = await SqliteJournal.OpenAsync(path, "cli"))
        {
            var written = await journal.AppendAsync(
                [Samples.Note("a note that is secret"), Samples.Note("gone")],
                Cancellation
            );
            await journal.AppendAsync([Samples.Erasure(written[1].Id)]);
            await journal.AppendAsync([
                .. Enumerable.Range(0, 20).Select(i => Samples.Note(new string('x', 50 * i), i)),
            ]);
        }

        var random = new Random(5);
        for (var i = 0; i < photos; i++)
        {
            var bytes = new byte[random.Next(1_000, 150_000)];
            random.NextBytes(bytes);
            PhotoFolder.Beside(path).Put(bytes);
        }

        using var house = HouseFile.Open(Path.Combine(data, "house.db"));
        new HousePeople(house).AddFirstOwner(
            new(new PersonId(Guid.CreateVersion7()), "Ada", Role.Owner, "hash", Now, null)
        );
        return data;
    }

    private static async Task<IReadOnlyList<string>> ShapeAsync(string path)
    {
        await using var journal = await SqliteJournal.OpenAsync(path, "cli");
        Assert.Empty(await journal.VerifyAsync());
        return Samples.Shape(await journal.ReadAllAsync());
    }
}
