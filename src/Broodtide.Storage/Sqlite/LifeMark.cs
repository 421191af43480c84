using System.Globalization;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// A small file beside the store that says which life of which file it belongs to and how far the store had come.
/// A store that was copied, restored or put back finds no mark, the mark of another file, or a mark that is
/// further than itself; then it begins a new life, and its doors write as new replicas.
/// </summary>
/// <param name="Life">The life, also kept inside the store.</param>
/// <param name="File">Which file: see <see cref="Disk.IdentityOf"/>.</param>
/// <param name="Last">Number of the last entry row when the mark was set.</param>
internal sealed record LifeMark(Guid Life, string File, long Last)
{
    private const string Title = "broodtide-life-1";

    public static string PathOf(string store) => store + "-life";

    public static LifeMark? Read(string store)
    {
        try
        {
            var parts = System.IO.File.ReadAllText(PathOf(store)).Split(' ', '\n');
            return
                parts is [Title, var life, var file, var last, ""]
                && Guid.TryParseExact(life, "N", out var id)
                && last.Length == 19
                && long.TryParse(last, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                ? new(id, file, number)
                : null;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
    }

    /// <summary>Sets the mark of a life that begins; on the disk when this returns.</summary>
    public void Begin(string store)
    {
        // Who has this store open holds its mark open too.
        using (
            var stream = new FileStream(
                PathOf(store),
                FileMode.Create,
                FileAccess.Write,
                FileShare.ReadWrite | FileShare.Delete
            )
        )
        {
            stream.Write(Bytes());
            stream.Flush(flushToDisk: true);
        }

        Disk.SyncFolder(Disk.FolderOf(store));
    }

    /// <summary>The mark's file, for writing over it.</summary>
    public static SafeFileHandle ToWrite(string store) =>
        System.IO.File.OpenHandle(
            PathOf(store),
            FileMode.OpenOrCreate,
            FileAccess.Write,
            FileShare.ReadWrite | FileShare.Delete
        );

    /// <summary>The whole mark; <see cref="LastOf"/> is its end.</summary>
    public byte[] Bytes() =>
        [
            .. Encoding.ASCII.GetBytes(
                string.Create(CultureInfo.InvariantCulture, $"{Title} {Life:N} {File} ")
            ),
            .. LastOf(Last),
        ];

    /// <summary>The part of a mark that moves on: as long for every number.</summary>
    public static byte[] LastOf(long last) =>
        Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{last:D19}\n"));
}
