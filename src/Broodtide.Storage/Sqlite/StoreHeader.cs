using System.Buffers.Binary;
using Broodtide.Units;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Looks at the first 100 bytes of a file before SQLite touches it, so that a file that is not ours is left as it
/// is. Places of the fields: SQLite's description of its file format, section 1.3.
/// </summary>
internal static class StoreHeader
{
    /// <summary>"BrTd" in the header's field for the application: this file is a store of Broodtide.</summary>
    public const int Application = 0x42725464;

    /// <summary>The shape of the tables that is written, and the newest that is read.</summary>
    public const int Version = 1;

    // The header, and of the first page's own header what says how many rows it has (sections 1.3 and 1.6).
    private const int Length = 108;

    private const byte LeafOfTable = 0x0D;

    private static ReadOnlySpan<byte> Magic => "SQLite format 3\0"u8;

    /// <summary>Returns for a file that may be opened, or one that is not there yet.</summary>
    /// <exception cref="StoreUnusableException">The file is foreign, newer or cut short; it is as it was.</exception>
    public static void Inspect(string path)
    {
        var log = new FileInfo(path + "-wal");
        var file = new FileInfo(path);
        if (!file.Exists || file.Length == 0)
        {
            return;
        }

        Span<byte> header = stackalloc byte[Length];
        using (var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite))
        {
            if (
                stream.ReadAtLeast(header, Length, throwOnEndOfStream: false) < Length
                || !header.StartsWith(Magic)
            )
            {
                throw Foreign(path);
            }
        }

        var application = BinaryPrimitives.ReadInt32BigEndian(header[68..]);
        var version = BinaryPrimitives.ReadInt32BigEndian(header[60..]);
        // A store whose making was interrupted has its first page in the log still, or holds nothing at all.
        var isUnfinished =
            application == 0
            && version == 0
            && (log is { Exists: true, Length: > 0 } || HoldsNothing(header));
        if (application != Application && !isUnfinished)
        {
            throw Foreign(path);
        }

        Require(path, version);
        var pageBytes = (int)BinaryPrimitives.ReadUInt16BigEndian(header[16..]);
        pageBytes = pageBytes == 1 ? 65_536 : pageBytes;
        var pages = BinaryPrimitives.ReadUInt32BigEndian(header[28..]);
        // While a log is being written back the length may lag behind.
        if (file.Length < (long)pages * pageBytes && log is not { Exists: true, Length: > 0 })
        {
            throw new StoreUnusableException(
                new Remark(
                    "store-cut-short",
                    new("file", path),
                    new("bytes", file.Length),
                    new("wantedBytes", (long)pages * pageBytes)
                )
            );
        }
    }

    /// <summary>Returns if a version can be read here.</summary>
    /// <exception cref="StoreUnusableException">It is newer.</exception>
    public static void Require(string path, int version)
    {
        if (version > Version)
        {
            throw new StoreUnusableException(
                new Remark("store-newer", new("file", path), new("version", version), new("allowed", Version))
            );
        }
    }

    // One page, and no table described on it.
    private static bool HoldsNothing(ReadOnlySpan<byte> header) =>
        BinaryPrimitives.ReadUInt32BigEndian(header[28..]) <= 1
        && header[100] == LeafOfTable
        && BinaryPrimitives.ReadUInt16BigEndian(header[103..]) == 0;

    public static StoreUnusableException Foreign(string path) =>
        new(new Remark("store-foreign", new("file", path), new("allowed", "a Broodtide store")));
}
