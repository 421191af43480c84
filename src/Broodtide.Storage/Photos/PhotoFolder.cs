using Broodtide.Units;
using Broodtide.Workbench.Photos;

namespace Broodtide.Storage.Photos;

/// <summary>
/// Photos as files, each by the hash of its bytes. A file has its name only once all of it is on the disk, so a sudden
/// end leaves no half photo under a name; and no file is given out whose bytes are not those that its name vouches for.
/// May be open in several programs at once.
/// </summary>
public sealed class PhotoFolder : IPhotoShelf
{
    // A stranded beginning this old belongs to no program that still writes.
    private static readonly TimeSpan Stranded = TimeSpan.FromDays(1);

    private readonly string _coming;

    private PhotoFolder(string path)
    {
        Path = path;
        _coming = System.IO.Path.Combine(path, "coming");
    }

    /// <summary>Where the photos lie.</summary>
    public string Path { get; }

    /// <summary>The folder beside a journal's file that belongs to it: journal.db has journal.photos.</summary>
    /// <param name="journalPath">The journal's file.</param>
    public static PhotoFolder Beside(string journalPath)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(journalPath);
        return Open(System.IO.Path.ChangeExtension(System.IO.Path.GetFullPath(journalPath), ".photos"));
    }

    /// <summary>A folder of photos. It is made when the first photo comes; what a sudden end left is swept away.</summary>
    /// <param name="path">The folder.</param>
    public static PhotoFolder Open(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        var folder = new PhotoFolder(System.IO.Path.GetFullPath(path));
        folder.Sweep();
        return folder;
    }

    /// <inheritdoc/>
    public (string Sha256, bool IsNew) Put(ReadOnlySpan<byte> bytes)
    {
        var hash = PhotoIntake.HashOf(bytes);
        var place = PlaceOf(hash);
        var wasThere = File.Exists(place);
        if (wasThere && PhotoIntake.HashOf(File.ReadAllBytes(place)) == hash)
        {
            return (hash, false);
        }

        Directory.CreateDirectory(_coming);
        MakeFolders(place);
        var coming = System.IO.Path.Combine(_coming, $"{hash}-{Guid.NewGuid():N}");
        try
        {
            using (var file = new FileStream(coming, FileMode.CreateNew, FileAccess.Write))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }

            File.Move(coming, place, overwrite: true);
        }
        catch
        {
            File.Delete(coming);
            throw;
        }

        Disk.SyncFolder(Disk.FolderOf(place));
        return (hash, !wasThere);
    }

    /// <inheritdoc/>
    public bool Has(string sha256) => File.Exists(PlaceOf(sha256));

    /// <inheritdoc/>
    public Parsed<byte[]>? Read(string sha256)
    {
        var place = PlaceOf(sha256);
        byte[] bytes;
        try
        {
            bytes = File.ReadAllBytes(place);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }

        return PhotoIntake.HashOf(bytes) == sha256
            ? Parsed<byte[]>.Of(bytes)
            : Parsed<byte[]>.No("photo-file-damaged", new Argument("file", place));
    }

    /// <inheritdoc/>
    public bool Remove(string sha256)
    {
        var place = PlaceOf(sha256);
        if (!File.Exists(place))
        {
            return false;
        }

        File.Delete(place);
        Disk.SyncFolder(Disk.FolderOf(place));
        return true;
    }

    /// <inheritdoc/>
    public IReadOnlyList<string> Lacking(IEnumerable<string> hashes) => [.. hashes.Where(hash => !Has(hash))];

    /// <inheritdoc/>
    public IReadOnlyList<string> All() =>
        Directory.Exists(Path)
            ?
            [
                .. Directory
                    .EnumerateFiles(Path, "*", SearchOption.AllDirectories)
                    .Where(file => !file.StartsWith(_coming, StringComparison.Ordinal))
                    .Select(file => System.IO.Path.GetFileName(file))
                    .Where(PhotoIntake.IsHash)
                    .Order(StringComparer.Ordinal),
            ]
            : [];

    /// <summary>Where a photo's file lies or would lie.</summary>
    /// <param name="sha256">64 lower-case hex figures.</param>
    /// <exception cref="ArgumentException">The text is no hash: nothing else may become a path.</exception>
    public string PlaceOf(string sha256) =>
        PhotoIntake.IsHash(sha256)
            ? System.IO.Path.Combine(Path, sha256[..2], sha256[2..4], sha256)
            : throw new ArgumentException("A photo is named by 64 hex figures.", nameof(sha256));

    // Each folder's own name must be on the disk before a file in it can be found after a power cut.
    private void MakeFolders(string place)
    {
        var inner = Disk.FolderOf(place);
        var outer = Disk.FolderOf(inner);
        if (!Directory.Exists(inner))
        {
            Directory.CreateDirectory(inner);
            Disk.SyncFolder(outer);
            Disk.SyncFolder(Path);
            Disk.SyncFolder(Disk.FolderOf(Path));
        }
    }

    private void Sweep()
    {
        if (!Directory.Exists(_coming))
        {
            return;
        }

        var before = TimeProvider.System.GetUtcNow().UtcDateTime - Stranded;
        foreach (var file in Directory.EnumerateFiles(_coming))
        {
            if (File.GetLastWriteTimeUtc(file) < before)
            {
                File.Delete(file);
            }
        }
    }
}
