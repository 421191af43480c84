using Broodtide.Units;

namespace Broodtide.Storage;

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
