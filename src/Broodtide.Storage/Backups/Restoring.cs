using Broodtide.Storage.Sqlite;
using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>Puts a backup into a new folder: all of it or nothing, and over nothing that is there.</summary>
public static class Restoring
{
    private const UnixFileMode Own = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Restores a backup.</summary>
    /// <param name="backup">The file.</param>
    /// <param name="folder">Where to; must not be there, or be empty.</param>
    /// <param name="passphrase">What it was encrypted with; none for one that was not.</param>
    /// <param name="whatIsWhole">Of a damaged backup, restore every file that is whole and name the others.</param>
    /// <param name="cancellation">Leaves nothing behind.</param>
    /// <exception cref="StoreUnusableException">
    /// The backup is damaged or cut, the passphrase is wrong, something is in the folder, or the disk is full. Nothing is
    /// left behind.
    /// </exception>
    public static Restored Into(
        string backup,
        string folder,
        string? passphrase,
        bool whatIsWhole = false,
        CancellationToken cancellation = default
    )
    {
        var place = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        var isEmpty = Directory.Exists(place) && !Directory.EnumerateFileSystemEntries(place).Any();
        if (Path.Exists(place) && !isEmpty)
        {
            throw new StoreUnusableException(
                new Remark("restore-folder-not-empty", new Argument("file", place))
            );
        }

        var scratch = $"{place}{BackupMaking.Making}{Guid.NewGuid():N}";
        try
        {
            using var opened = Open(backup, passphrase);
            if (!whatIsWhole && !opened.IsWhole(cancellation))
            {
                throw new StoreUnusableException(new Remark("backup-damaged", new Argument("file", backup)));
            }

            var faults = Unpack(opened, scratch, cancellation);
            if (faults.Count > 0 && !whatIsWhole)
            {
                throw new StoreUnusableException(faults[0]);
            }

            var (wrong, count) = CheckJournal(opened.List, scratch, cancellation);
            if (wrong.Count > 0 && !whatIsWhole)
            {
                throw new StoreUnusableException(wrong[0]);
            }

            SyncFolders(scratch);
            if (isEmpty)
            {
                Directory.Delete(place);
            }

            Directory.Move(scratch, place);
            Disk.SyncFolder(Disk.FolderOf(place));
            return new(place, opened.List, count, [.. faults, .. wrong]);
        }
        catch (Exception failure) when (DiskFull.Is(failure))
        {
            throw DiskFull.At(place, failure);
        }
        finally
        {
            Scratch.Remove(scratch);
        }
    }

    /// <summary>Reads every byte of a backup, and restores nothing.</summary>
    /// <returns>What is in it, and what is wrong.</returns>
    /// <exception cref="StoreUnusableException">It cannot be opened: foreign, cut, wrong passphrase.</exception>
    public static BackupChecked Check(
        string backup,
        string? passphrase,
        CancellationToken cancellation = default
    )
    {
        using var opened = Open(backup, passphrase);
        var faults = new List<Remark>();
        if (!opened.IsWhole(cancellation))
        {
            faults.Add(new Remark("backup-damaged", new Argument("file", backup)));
        }

        var place = 0L;
        foreach (var item in opened.List.Files)
        {
            if (!opened.CopyTo(item, place, Stream.Null, cancellation))
            {
                faults.Add(new Remark("backup-file-damaged", new Argument("file", item.Name)));
            }

            place += item.Bytes;
        }

        return new(opened.List, opened.IsEncrypted, faults);
    }

    /// <summary>Whether a file begins as a backup does.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static bool IsBackup(string path)
    {
        var head = new byte[BackupSeal.Magic.Length];
        using var stream = new FileStream(
            path,
            FileMode.Open,
            FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete
        );
        return stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length
            && head.AsSpan().SequenceEqual(BackupSeal.Magic);
    }

    internal static BackupReader Open(string backup, string? passphrase)
    {
        var opened = BackupReader.Open(backup, passphrase);
        return opened.Succeeded ? opened.Value : throw new StoreUnusableException(opened.Reason);
    }

    /// <summary>Writes every file that is whole; on the disk when this returns.</summary>
    /// <returns>The files that are not, and are not there.</returns>
    internal static IReadOnlyList<Remark> Unpack(
        BackupReader opened,
        string folder,
        CancellationToken cancellation
    )
    {
        var faults = new List<Remark>();
        Directory.CreateDirectory(folder);
        var place = 0L;
        foreach (var item in opened.List.Files)
        {
            var path = Path.Combine(folder, Path.Combine(item.Name.Split('/')));
            Directory.CreateDirectory(Disk.FolderOf(path));
            bool isWhole;
            using (var stream = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                if (item.IsPrivate && !OperatingSystem.IsWindows())
                {
                    File.SetUnixFileMode(stream.SafeFileHandle, Own);
                }

                isWhole = opened.CopyTo(item, place, stream, cancellation);
                stream.Flush(flushToDisk: true);
            }

            place += item.Bytes;
            if (isWhole)
            {
                File.SetLastWriteTimeUtc(
                    path,
                    DateTimeOffset
                        .FromUnixTimeMilliseconds(
                            Math.Clamp(item.ChangedUnixMilliseconds, 0, 253_402_300_799_999)
                        )
                        .UtcDateTime
                );
            }
            else
            {
                File.Delete(path);
                faults.Add(new Remark("backup-file-damaged", new Argument("file", item.Name)));
            }
        }

        return faults;
    }

    private static (IReadOnlyList<Remark> Faults, int Entries) CheckJournal(
        BackupList list,
        string folder,
        CancellationToken cancellation
    )
    {
        var journal = Path.Combine(folder, list.Journal);
        if (!File.Exists(journal))
        {
            return ([new Remark("backup-without-journal", new Argument("file", list.Journal))], 0);
        }

        var (found, entries) = StoreCopy.Check(journal, isJournal: true, cancellation);
        return ([.. found.Where(fault => !StoreCheck.IsKeptOnPurpose(fault))], entries);
    }

    private static void SyncFolders(string folder)
    {
        foreach (var inside in Directory.EnumerateDirectories(folder, "*", SearchOption.AllDirectories))
        {
            Disk.SyncFolder(inside);
        }

        Disk.SyncFolder(folder);
    }
}

/// <summary>A backup that was restored.</summary>
/// <param name="Folder">Where it lies.</param>
/// <param name="List">What was in it.</param>
/// <param name="EntryCount">Entries in the journal.</param>
/// <param name="Faults">What was damaged and is not there; nothing unless that was asked for.</param>
public sealed record Restored(string Folder, BackupList List, int EntryCount, IReadOnlyList<Remark> Faults);

/// <summary>A backup that was read.</summary>
/// <param name="List">What is in it.</param>
/// <param name="IsEncrypted">Whether a passphrase opens it.</param>
/// <param name="Faults">What is wrong.</param>
public sealed record BackupChecked(BackupList List, bool IsEncrypted, IReadOnlyList<Remark> Faults);
