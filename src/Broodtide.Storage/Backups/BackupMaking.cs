using Broodtide.Storage.Sqlite;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Storage.Backups;

/// <summary>
/// Makes a backup of what is in use: copies of the stores at one instant each, every other file, a list with hashes. It has
/// its name only once it is on the disk and was restored into a scratch folder and compared.
/// </summary>
public static class BackupMaking
{
    internal const string Format = "broodtide-backup";

    /// <summary>In the name of what is not finished.</summary>
    internal const string Making = ".making-";

    // A stranded beginning this old belongs to no program that still runs.
    private static readonly TimeSpan Stranded = TimeSpan.FromDays(1);

    /// <summary>Backs up a journal with its photos and dossiers.</summary>
    /// <param name="journal">The journal's file; may be in use.</param>
    /// <param name="place">Where the backup goes; nothing may be there.</param>
    /// <param name="passphrase">What opens it; none for a backup that everybody can read.</param>
    /// <param name="now">The instant it bears.</param>
    /// <param name="cancellation">Leaves nothing behind.</param>
    /// <exception cref="StoreUnusableException">
    /// Something is there already, the store is damaged, or the disk is full; nothing is left behind.
    /// </exception>
    public static BackupMade OfJournal(
        string journal,
        string place,
        string? passphrase,
        Instant now,
        CancellationToken cancellation = default
    ) => Make(() => BackupParts.OfJournal(journal), place, passphrase, now, BackupSeal.Rounds, cancellation);

    /// <summary>Backs up a server's folder: journal, house, photos, dossiers.</summary>
    /// <param name="data">The folder; the server may run.</param>
    /// <param name="withKeys">
    /// Whether the keys of sign-ins and the key of the house's authority come along; only with a passphrase.
    /// </param>
    /// <param name="place">Where the backup goes; nothing may be there.</param>
    /// <param name="passphrase">What opens it; none for a backup that everybody can read.</param>
    /// <param name="now">The instant it bears.</param>
    /// <param name="cancellation">Leaves nothing behind.</param>
    /// <exception cref="StoreUnusableException">
    /// Something is there already, the store is damaged, the keys are asked for without a passphrase, or the disk is full;
    /// nothing is left behind.
    /// </exception>
    public static BackupMade OfHouse(
        string data,
        bool withKeys,
        string place,
        string? passphrase,
        Instant now,
        CancellationToken cancellation = default
    ) => OfHouse(data, withKeys, place, passphrase, now, BackupSeal.Rounds, cancellation);

    /// <summary>With other rounds from passphrase to key, for tests that make many.</summary>
    internal static BackupMade OfHouse(
        string data,
        bool withKeys,
        string place,
        string? passphrase,
        Instant now,
        int rounds,
        CancellationToken cancellation
    ) =>
        withKeys && passphrase is null
            ? throw new StoreUnusableException(new Remark("backup-keys-want-passphrase"))
            : Make(() => BackupParts.OfHouse(data, withKeys), place, passphrase, now, rounds, cancellation);

    private static BackupMade Make(
        Func<BackupParts> parts,
        string place,
        string? passphrase,
        Instant now,
        int rounds,
        CancellationToken cancellation
    )
    {
        if (passphrase is { Length: 0 })
        {
            throw new StoreUnusableException(new Remark("backup-passphrase-empty"));
        }

        var path = Path.GetFullPath(place);
        if (Path.Exists(path))
        {
            throw new StoreUnusableException(new Remark("backup-is-there", new Argument("file", path)));
        }

        var scratch = $"{path}{Making}{Guid.NewGuid():N}";
        try
        {
            Sweep(Disk.FolderOf(path));
            Directory.CreateDirectory(scratch);
            var made = Into(scratch, parts(), path, passphrase, now, rounds, cancellation);
            File.Move(Path.Combine(scratch, "backup"), path, overwrite: true);
            Disk.SyncFolder(Disk.FolderOf(path));
            return made;
        }
        catch (Exception failure) when (DiskFull.Is(failure))
        {
            throw DiskFull.At(path, failure);
        }
        finally
        {
            Scratch.Remove(scratch);
        }
    }

    private static BackupMade Into(
        string scratch,
        BackupParts parts,
        string path,
        string? passphrase,
        Instant now,
        int rounds,
        CancellationToken cancellation
    )
    {
        var copies = Path.Combine(scratch, "stores");
        Directory.CreateDirectory(copies);
        var concerns = new List<Remark>();
        var items = new List<BackupItem>();
        var entries = 0;
        var beside = Path.Combine(scratch, "backup");
        BackupList list;
        using var seal = BackupSeal.Make(passphrase, rounds);
        using (var stream = new FileStream(beside, FileMode.CreateNew, FileAccess.Write, FileShare.None))
        {
            var writer = new BackupWriter(stream, seal);
            writer.Begin();
            foreach (var store in parts.StoresInOrder)
            {
                cancellation.ThrowIfCancellationRequested();
                var isJournal = store == parts.Journal;
                var (live, copy) = (Path.Combine(parts.Folder, store), Path.Combine(copies, store));
                if (isJournal)
                {
                    StoreHeader.Inspect(live);
                }

                StoreCopy.Take(live, copy);
                var (faults, count) = StoreCopy.Check(copy, isJournal, cancellation);
                concerns.AddRange(faults.Where(StoreCheck.IsKeptOnPurpose));
                if (faults.FirstOrDefault(fault => !StoreCheck.IsKeptOnPurpose(fault)) is { } damage)
                {
                    throw new StoreUnusableException(
                        new Remark("backup-of-damaged", new("file", live), new("reason", damage.ToString()))
                    );
                }

                entries += count;
                items.Add(
                    BackupPacking.Put(
                        writer,
                        copy,
                        store,
                        isJournal ? BackupItem.Journal : BackupItem.Store,
                        live,
                        concerns,
                        cancellation
                    )!
                );
                File.Delete(copy);
            }

            foreach (var name in parts.FilesInFolders())
            {
                var file = Path.Combine(parts.Folder, Path.Combine(name.Split('/')));
                if (
                    BackupPacking.Put(
                        writer,
                        file,
                        name,
                        BackupParts.SortOf(name),
                        file,
                        concerns,
                        cancellation
                    ) is
                    { } item
                )
                {
                    items.Add(item);
                }
            }

            list = new BackupList(
                Format,
                BackupSeal.Version,
                InstantPattern.General.Format(now),
                parts.Journal,
                entries,
                items
            );
            writer.End(list);
            stream.Flush(flushToDisk: true);
        }

        Prove(beside, path, Path.Combine(scratch, "restored"), passphrase, entries, cancellation);
        return new(path, new FileInfo(beside).Length, seal.IsEncrypted, list, concerns);
    }

    // What cannot be restored is no backup: it is restored, and compared, before it gets its name.
    private static void Prove(
        string beside,
        string path,
        string scratch,
        string? passphrase,
        int entries,
        CancellationToken cancellation
    )
    {
        using var opened = Restoring.Open(beside, passphrase);
        var faults = opened.IsWhole(cancellation)
            ? Restoring.Unpack(opened, scratch, cancellation)
            : [new Remark("backup-damaged", new Argument("file", path))];
        var (wrong, count) =
            faults.Count > 0
                ? (faults, 0)
                : StoreCopy.Check(Path.Combine(scratch, opened.List.Journal), isJournal: true, cancellation);
        if (
            wrong.FirstOrDefault(fault => !StoreCheck.IsKeptOnPurpose(fault)) is var damage
            && (damage is not null || count != entries)
        )
        {
            throw new StoreUnusableException(
                new Remark(
                    "backup-not-proved",
                    new("file", path),
                    new("reason", damage?.ToString() ?? $"{count} of {entries}")
                )
            );
        }
    }

    private static void Sweep(string folder)
    {
        var before = TimeProvider.System.GetUtcNow().UtcDateTime - Stranded;
        foreach (var left in Directory.EnumerateDirectories(folder, $"*{Making}*"))
        {
            if (Directory.GetLastWriteTimeUtc(left) < before)
            {
                Scratch.Remove(left);
            }
        }
    }
}

/// <summary>A backup that was made.</summary>
/// <param name="Path">Its file.</param>
/// <param name="Bytes">The file's length.</param>
/// <param name="IsEncrypted">Whether a passphrase opens it.</param>
/// <param name="List">What is in it.</param>
/// <param name="Concerns">What was found damaged and taken as it is.</param>
public sealed record BackupMade(
    string Path,
    long Bytes,
    bool IsEncrypted,
    BackupList List,
    IReadOnlyList<Remark> Concerns
);
