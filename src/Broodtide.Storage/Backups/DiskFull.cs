using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>What the framework says of a full disk, which has no exception of its own.</summary>
internal static class DiskFull
{
    // ENOSPC and EDQUOT of Linux, EDQUOT of macOS, ERROR_DISK_FULL of Windows.
    private static readonly int[] Codes = [28, 122, 69, unchecked((int)0x80070070)];

    public static bool Is(Exception failure) =>
        failure is IOException and not StoreUnusableException && Codes.Contains(failure.HResult);

    public static StoreUnusableException At(string path, Exception failure) =>
        new(new Remark("disk-full", new("file", path), new("reason", failure.Message)), failure);
}

/// <summary>Folders that are thrown away.</summary>
internal static class Scratch
{
    public static void Remove(string folder)
    {
        try
        {
            if (Directory.Exists(folder))
            {
                Directory.Delete(folder, recursive: true);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // It is swept away later; what went wrong before is the thing to tell.
        }
    }
}
