using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Photos;
using static Broodtide.Storage.Tests.BackupKit;

namespace Broodtide.Storage.Tests;

public sealed class BackupDamageTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

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
}
