using Broodtide.Units;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Storage.Dossiers;

/// <summary>
/// Dossiers as folders and packed files. What is written is there whole or not at all; what is read is a stranger's and is
/// taken whole or not at all.
/// </summary>
public static class DossierFiles
{
    /// <summary>Writes a file, beside its place first; an older one is replaced only once the new one is on the disk.</summary>
    /// <param name="path">Its place.</param>
    /// <param name="bytes">What is in it.</param>
    /// <exception cref="IOException">The disk is full or the folder cannot be written; an older file is as it was.</exception>
    public static void WriteFile(string path, ReadOnlySpan<byte> bytes)
    {
        var beside = path + ".partial";
        try
        {
            WriteTo(beside, bytes);
            File.Move(beside, path, overwrite: true);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }

        Disk.SyncFolder(Disk.FolderOf(path));
    }

    /// <summary>Writes a package as a folder, which must not be there yet.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="files">The files of the package.</param>
    /// <exception cref="IOException">Something is there already, or the disk is full; nothing is left behind.</exception>
    public static void WriteFolder(string path, IReadOnlyList<PackedFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        var place = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        if (Directory.Exists(place) || File.Exists(place))
        {
            throw new IOException($"{place} is there already.");
        }

        var beside = place + ".partial";
        try
        {
            foreach (var file in files)
            {
                var inside = Path.Combine(beside, Path.Combine(file.Path.Split('/')));
                Directory.CreateDirectory(Disk.FolderOf(inside));
                WriteTo(inside, file.Bytes.Span);
            }

            Directory.Move(beside, place);
        }
        catch
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }

            throw;
        }

        Disk.SyncFolder(Disk.FolderOf(place));
    }

    /// <summary>Reads and verifies a package, packed or as a folder.</summary>
    /// <param name="path">The file or folder.</param>
    /// <param name="cancellation">Gives up between files.</param>
    /// <returns>The dossier; or why it is refused.</returns>
    /// <exception cref="IOException">It is not there or cannot be read.</exception>
    public static Parsed<ForeignDossier> Read(string path, CancellationToken cancellation = default)
    {
        Parsed<IReadOnlyList<PackedFile>> files;
        if (Directory.Exists(path))
        {
            files = ReadFolder(path, cancellation);
        }
        else
        {
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            files = PackageZip.Read(stream, cancellation);
        }

        return files.Succeeded ? ForeignPackage.Read(files.Value) : Parsed<ForeignDossier>.No(files.Reason);
    }

    private static Parsed<IReadOnlyList<PackedFile>> ReadFolder(string path, CancellationToken cancellation)
    {
        var files = new List<PackedFile>();
        var left = PackageLimits.LargestUnpacked;
        foreach (
            var item in new DirectoryInfo(path).EnumerateFileSystemInfos(
                "*",
                // A link is looked at and never followed.
                new EnumerationOptions
                {
                    RecurseSubdirectories = true,
                    AttributesToSkip = FileAttributes.None,
                    IgnoreInaccessible = false,
                }
            )
        )
        {
            cancellation.ThrowIfCancellationRequested();
            var name = Path.GetRelativePath(path, item.FullName).Replace(Path.DirectorySeparatorChar, '/');
            if (PackagePath.WrongWith(name) is { } unsafePath)
            {
                return Parsed<IReadOnlyList<PackedFile>>.No(unsafePath);
            }

            if (item.LinkTarget is not null || item.Attributes.HasFlag(FileAttributes.ReparsePoint))
            {
                return Parsed<IReadOnlyList<PackedFile>>.No("package-link", new Argument("file", name));
            }

            if (item is not FileInfo file)
            {
                continue;
            }

            left -= file.Length;
            if (left < 0 || file.Length > PackageLimits.LargestFile)
            {
                return Parsed<IReadOnlyList<PackedFile>>.No(
                    "package-too-large",
                    new Argument("allowedMegabytes", PackageLimits.LargestUnpacked / 1_000_000)
                );
            }

            if (files.Count == PackageLimits.MostFiles)
            {
                return Parsed<IReadOnlyList<PackedFile>>.No(
                    "package-too-many-files",
                    new("files", files.Count + 1),
                    new("allowed", PackageLimits.MostFiles)
                );
            }

            files.Add(new(name, File.ReadAllBytes(file.FullName)));
        }

        return Parsed<IReadOnlyList<PackedFile>>.Of(files);
    }

    private static void WriteTo(string path, ReadOnlySpan<byte> bytes)
    {
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None);
        stream.Write(bytes);
        stream.Flush(flushToDisk: true);
    }
}
