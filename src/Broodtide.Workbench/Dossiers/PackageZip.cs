using System.IO.Compression;
using Broodtide.Units;

namespace Broodtide.Workbench.Dossiers;

/// <summary>A data package in one packed file. Nothing is unpacked beyond the limits, whatever its headers say.</summary>
public static class PackageZip
{
    private const int Piece = 1 << 16;
    private const int FileTypeMask = 0xF000;
    private const int RegularFile = 0x8000;
    private const int Folder = 0x4000;

    // The same files give the same bytes: no clock goes in.
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Packs files.</summary>
    public static byte[] Write(IReadOnlyList<PackedFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        using var packed = new MemoryStream();
        using (var zip = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in files)
            {
                var entry = zip.CreateEntry(file.Path, CompressionLevel.Optimal);
                entry.LastWriteTime = NoTime;
                using var stream = entry.Open();
                stream.Write(file.Bytes.Span);
            }
        }

        return packed.ToArray();
    }

    /// <summary>Unpacks a file that a stranger made.</summary>
    /// <param name="packed">The packed file; its length is known.</param>
    /// <param name="cancellation">Gives up between pieces.</param>
    /// <returns>Its files; or why it is refused.</returns>
    public static Parsed<IReadOnlyList<PackedFile>> Read(
        Stream packed,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(packed);
        if (packed.Length > PackageLimits.LargestPacked)
        {
            return TooLarge(PackageLimits.LargestPacked);
        }

        try
        {
            using var zip = new ZipArchive(packed, ZipArchiveMode.Read, leaveOpen: true);
            return ReadAll(zip, cancellation);
        }
        catch (Exception broken)
            when (broken is InvalidDataException or EndOfStreamException or NotSupportedException)
        {
            return Parsed<IReadOnlyList<PackedFile>>.No("package-not-zip");
        }
    }

    private static Parsed<IReadOnlyList<PackedFile>> ReadAll(ZipArchive zip, CancellationToken cancellation)
    {
        if (zip.Entries.Count > PackageLimits.MostFiles)
        {
            return Parsed<IReadOnlyList<PackedFile>>.No(
                "package-too-many-files",
                new("files", zip.Entries.Count),
                new("allowed", PackageLimits.MostFiles)
            );
        }

        var files = new List<PackedFile>();
        var left = PackageLimits.LargestUnpacked;
        foreach (var entry in zip.Entries)
        {
            cancellation.ThrowIfCancellationRequested();
            var isFolder = entry.FullName.EndsWith('/');
            var name = isFolder ? entry.FullName[..^1] : entry.FullName;
            if (PackagePath.WrongWith(name) is { } unsafePath)
            {
                return Parsed<IReadOnlyList<PackedFile>>.No(unsafePath);
            }

            var type = (entry.ExternalAttributes >> 16) & FileTypeMask;
            if (type is not (0 or RegularFile or Folder))
            {
                return Parsed<IReadOnlyList<PackedFile>>.No("package-link", new Argument("file", name));
            }

            if (isFolder)
            {
                continue;
            }

            var read = ReadOne(entry, left, cancellation);
            if (!read.Succeeded)
            {
                return Parsed<IReadOnlyList<PackedFile>>.No(read.Reason);
            }

            left -= read.Value.Bytes.Length;
            files.Add(read.Value);
        }

        return Parsed<IReadOnlyList<PackedFile>>.Of(files);
    }

    private static Parsed<PackedFile> ReadOne(
        ZipArchiveEntry entry,
        long left,
        CancellationToken cancellation
    )
    {
        using var stream = entry.Open();
        using var bytes = new MemoryStream();
        var piece = new byte[Piece];
        int count;
        while ((count = stream.Read(piece, 0, piece.Length)) > 0)
        {
            cancellation.ThrowIfCancellationRequested();
            var length = bytes.Length + count;
            if (length > Math.Min(left, PackageLimits.LargestFile))
            {
                return Parsed<PackedFile>.No(
                    "package-too-large",
                    new Argument("allowedMegabytes", PackageLimits.LargestUnpacked / 1_000_000)
                );
            }

            if (
                length > PackageLimits.RatioFrom
                && length / PackageLimits.MostRatio > Math.Max(1, entry.CompressedLength)
            )
            {
                return Parsed<PackedFile>.No("package-unpacks-too-far", new Argument("file", entry.FullName));
            }

            bytes.Write(piece, 0, count);
        }

        return Parsed<PackedFile>.Of(new(entry.FullName, bytes.ToArray()));
    }

    private static Parsed<IReadOnlyList<PackedFile>> TooLarge(long allowed) =>
        Parsed<IReadOnlyList<PackedFile>>.No(
            "package-too-large",
            new Argument("allowedMegabytes", allowed / 1_000_000)
        );
}
