using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>
/// What belongs into a backup: the journal's file, and whatever lies beside it under its name (journal.db has journal.photos,
/// journal.dossiers and perhaps other stores); of a server's folder the file of the house too, and its keys if asked.
/// </summary>
internal sealed record BackupParts(
    string Folder,
    string Journal,
    IReadOnlyList<string> Stores,
    IReadOnlyList<string> Folders
)
{
    private const string House = "house.db";

    private static readonly string[] Sidecars = ["-wal", "-shm", "-journal", "-life"];

    private static readonly string[] KeyFolders = ["keys", "certificates"];

    /// <summary>A journal and what is beside it.</summary>
    /// <exception cref="StoreUnusableException">There is no journal.</exception>
    public static BackupParts OfJournal(string path)
    {
        var journal = Path.GetFullPath(path);
        if (!File.Exists(journal))
        {
            throw new StoreUnusableException(new Remark("file-not-there", new Argument("file", journal)));
        }

        var folder = Disk.FolderOf(journal);
        var beginning = Path.GetFileNameWithoutExtension(journal) + ".";
        return new(
            folder,
            Path.GetFileName(journal),
            [
                .. Directory
                    .EnumerateFiles(folder)
                    .Where(file => !string.Equals(file, journal, StringComparison.Ordinal))
                    .Select(file => Path.GetFileName(file))
                    .Where(name => name.StartsWith(beginning, StringComparison.Ordinal))
                    .Where(name =>
                        !Array.Exists(Sidecars, end => name.EndsWith(end, StringComparison.Ordinal))
                    )
                    .Where(name => IsStore(Path.Combine(folder, name)))
                    .Order(StringComparer.Ordinal),
            ],
            [
                .. Directory
                    .EnumerateDirectories(folder)
                    .Select(inside => Path.GetFileName(inside))
                    .Where(name => name.StartsWith(beginning, StringComparison.Ordinal))
                    .Where(name => !name.EndsWith(".backups", StringComparison.Ordinal))
                    .Where(name => !name.Contains(BackupMaking.Making, StringComparison.Ordinal))
                    .Order(StringComparer.Ordinal),
            ]
        );
    }

    /// <summary>The folder that a server keeps its data in.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="withKeys">Whether the keys of sign-ins and of the house's authority come along.</param>
    /// <exception cref="StoreUnusableException">There is no journal.</exception>
    public static BackupParts OfHouse(string folder, bool withKeys)
    {
        var parts = OfJournal(Path.Combine(folder, "journal.db"));
        return parts with
        {
            Stores = File.Exists(Path.Combine(parts.Folder, House)) ? [House, .. parts.Stores] : parts.Stores,
            Folders = withKeys
                ?
                [
                    .. parts.Folders,
                    .. KeyFolders.Where(name => Directory.Exists(Path.Combine(parts.Folder, name))),
                ]
                : parts.Folders,
        };
    }

    /// <summary>
    /// The stores as they are copied, one after another. The house comes before the journal: what it still holds back may be
    /// in the journal already, never the other way round.
    /// </summary>
    public IEnumerable<string> StoresInOrder => Stores.Prepend(Journal).OrderBy(name => name != House);

    /// <summary>The files of the folders, each by its name in the backup, in order.</summary>
    public IEnumerable<string> FilesInFolders()
    {
        foreach (var folder in Folders)
        {
            var root = Path.Combine(Folder, folder);
            foreach (
                var file in Directory
                    .EnumerateFiles(
                        root,
                        "*",
                        // A link inside is not followed: it may lead anywhere.
                        new EnumerationOptions
                        {
                            RecurseSubdirectories = true,
                            AttributesToSkip = FileAttributes.ReparsePoint,
                        }
                    )
                    .Order(StringComparer.Ordinal)
            )
            {
                var inside = Path.GetRelativePath(root, file).Replace(Path.DirectorySeparatorChar, '/');
                // What is still being written has not its name yet.
                if (
                    !inside.StartsWith("coming/", StringComparison.Ordinal)
                    && !inside.EndsWith(".partial", StringComparison.Ordinal)
                )
                {
                    yield return $"{folder}/{inside}";
                }
            }
        }
    }

    /// <summary>What a file in a folder is.</summary>
    public static string SortOf(string name) =>
        name.Split('/')[0] switch
        {
            var folder when folder.EndsWith(".photos", StringComparison.Ordinal) => BackupItem.Photo,
            var folder when folder.EndsWith(".dossiers", StringComparison.Ordinal) => BackupItem.Dossier,
            _ => BackupItem.File,
        };

    private static bool IsStore(string path)
    {
        var head = new byte[16];
        using var stream = new FileStream(
            path,
            FileMode.Open,
            FileAccess.Read,
            FileShare.ReadWrite | FileShare.Delete
        );
        return stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length
            && head.AsSpan().SequenceEqual("SQLite format 3\0"u8);
    }
}
