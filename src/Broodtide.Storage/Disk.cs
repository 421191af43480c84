using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace Broodtide.Storage;

/// <summary>What the framework does not tell about files: which file a file is, and that a new name is on the disk.</summary>
internal static partial class Disk
{
    private const int CurrentFolder = -100;
    private const uint WantInode = 0x100;
    private const uint WantBirth = 0x800;
    private const int ReadOnly = 0;

    /// <summary>
    /// A text that a copy of the file does not share. On Linux the inode with the birth time, which no copying
    /// tool can set; where the file system keeps no birth time, and on other systems, the inode or the creation
    /// time with the place.
    /// </summary>
    public static string IdentityOf(string path)
    {
        if (
            OperatingSystem.IsLinux()
            && Statx(CurrentFolder, path, 0, WantInode | WantBirth, out var found) == 0
        )
        {
            return (found.Mask & WantBirth) != 0
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"inode-{found.Inode}-born-{found.BirthSeconds}.{found.BirthNanoseconds:D9}"
                )
                : string.Create(CultureInfo.InvariantCulture, $"inode-{found.Inode}-at-{PlaceOf(path)}");
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"born-{File.GetCreationTimeUtc(path).Ticks}-at-{PlaceOf(path)}"
        );
    }

    private static string PlaceOf(string path) =>
        Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes(Path.GetFullPath(path))).AsSpan(0, 8)
        );

    /// <summary>Returns once the names in a folder (files made, renamed) are on the disk, where the system can say so.</summary>
    public static void SyncFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            // NTFS journals names itself and gives no way to wait for it.
            return;
        }

        var handle = Open(folder, ReadOnly);
        if (handle < 0)
        {
            throw new IOException($"The folder {folder} cannot be opened to sync it.");
        }

        try
        {
            if (Fsync(handle) != 0)
            {
                throw new IOException($"The folder {folder} cannot be synced.");
            }
        }
        finally
        {
            _ = Close(handle);
        }
    }

    /// <summary>Whether there is no room beside a file: one more small file does not fit.</summary>
    public static bool IsFull(string path)
    {
        try
        {
            using var probe = new FileStream(
                $"{Path.GetFullPath(path)}.probe-{Guid.NewGuid():N}",
                FileMode.CreateNew,
                FileAccess.Write,
                FileShare.None,
                bufferSize: 0,
                FileOptions.DeleteOnClose
            );
            probe.Write(new byte[1 << 16]);
            return false;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return DiskFull.Is(failure);
        }
    }

    /// <summary>The folder a file lies in.</summary>
    public static string FolderOf(string path) => Path.GetDirectoryName(Path.GetFullPath(path))!;

    [LibraryImport(
        "libc",
        EntryPoint = "statx",
        StringMarshalling = StringMarshalling.Utf8,
        SetLastError = true
    )]
    private static partial int Statx(int folder, string path, int flags, uint mask, out StatxAnswer answer);

    [LibraryImport(
        "libc",
        EntryPoint = "open",
        StringMarshalling = StringMarshalling.Utf8,
        SetLastError = true
    )]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Fsync(int handle);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int handle);

    // struct statx of the Linux kernel (include/uapi/linux/stat.h): the same layout on every machine.
    [StructLayout(LayoutKind.Explicit, Size = 256)]
    private struct StatxAnswer
    {
        [FieldOffset(0)]
        public uint Mask;

        [FieldOffset(32)]
        public ulong Inode;

        [FieldOffset(80)]
        public long BirthSeconds;

        [FieldOffset(88)]
        public uint BirthNanoseconds;
    }
}
