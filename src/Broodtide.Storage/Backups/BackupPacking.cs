using System.Security.Cryptography;
using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>Puts files into a backup that is being written, piece by piece.</summary>
internal static class BackupPacking
{
    /// <summary>Puts one file behind those before it; none where it went away since it was listed.</summary>
    public static BackupItem? Put(
        BackupWriter writer,
        string file,
        string name,
        string sort,
        string original,
        List<Remark> concerns,
        CancellationToken cancellation
    )
    {
        FileStream stream;
        try
        {
            stream = new FileStream(
                file,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite | FileShare.Delete
            );
        }
        catch (Exception gone) when (gone is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }

        using (stream)
        using (var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256))
        {
            var buffer = new byte[BackupSeal.PieceBytes];
            var bytes = 0L;
            int read;
            while ((read = stream.Read(buffer)) > 0)
            {
                cancellation.ThrowIfCancellationRequested();
                hash.AppendData(buffer, 0, read);
                writer.Write(buffer.AsSpan(0, read));
                bytes += read;
            }

            var sum = Convert.ToHexStringLower(hash.GetHashAndReset());
            if (sort == BackupItem.Photo && !name.EndsWith(sum, StringComparison.Ordinal))
            {
                // It is kept as it is: perhaps somebody can still see something on it.
                concerns.Add(new Remark("photo-file-damaged", new Argument("file", file)));
            }

            return new(
                name,
                sort,
                bytes,
                sum,
                new DateTimeOffset(File.GetLastWriteTimeUtc(original)).ToUnixTimeMilliseconds(),
                IsPrivate(original)
            );
        }
    }

    private static bool IsPrivate(string file) =>
        !OperatingSystem.IsWindows()
        && File.Exists(file)
        && (
            File.GetUnixFileMode(file)
            & ~(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute)
        ) == UnixFileMode.None;
}
