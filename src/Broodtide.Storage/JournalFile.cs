using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;

namespace Broodtide.Storage;

/// <summary>
/// A whole journal as one file of JSON Lines: to keep elsewhere, to carry to another house. A file is there whole or
/// not at all, and is taken in whole or not at all.
/// </summary>
public static class JournalFile
{
    // The longest entry with every character escaped stays below this.
    private const int LongestLine = 8 * EntryBytes.LongestBody;

    /// <summary>Writes everything a store holds.</summary>
    /// <param name="journal">The store.</param>
    /// <param name="path">Place of the file; an older one is replaced only once the new one is on the disk.</param>
    /// <param name="cancellation">Leaves the older file as it was.</param>
    /// <returns>How many entries were written.</returns>
    public static async Task<int> ExportAsync(
        IJournal journal,
        string path,
        CancellationToken cancellation = default
    )
    {
        var entries = await journal.ReadAllAsync(cancellation);
        Write(path, entries, cancellation);
        return entries.Count;
    }

    /// <summary>Takes a file into a store: first the whole file is verified, then all of it goes in, or none.</summary>
    /// <param name="journal">The store.</param>
    /// <param name="path">Place of the file.</param>
    /// <param name="cancellation">Leaves the store as it was.</param>
    /// <returns>What became of the entries; or what is wrong with the file, with its line, and nothing was taken.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    public static async Task<Parsed<Intake>> ImportAsync(
        IJournal journal,
        string path,
        CancellationToken cancellation = default
    )
    {
        var read = Read(path);
        return read.Succeeded
            ? Parsed<Intake>.Of(await journal.TakeAsync(read.Value, cancellation))
            : Parsed<Intake>.No(read.Reason);
    }

    /// <summary>Reads and verifies a file.</summary>
    /// <returns>Its entries; or what is wrong, with the line.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    public static Parsed<IReadOnlyList<Entry>> Read(string path)
    {
        using var reader = Open(path);
        return JournalLines.Read(Lines(reader));
    }

    /// <summary>Reads what is whole in a damaged file, and the first thing that is wrong with it.</summary>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    public static (IReadOnlyList<Entry> Entries, Remark? Fault) Salvage(string path)
    {
        using var reader = Open(path);
        return JournalLines.Salvage(Lines(reader));
    }

    /// <summary>Writes entries as a file: beside it first, then onto the disk, then in its place.</summary>
    /// <exception cref="IOException">The disk is full or the folder cannot be written; an older file is as it was.</exception>
    public static void Write(
        string path,
        IEnumerable<Entry> entries,
        CancellationToken cancellation = default
    )
    {
        var beside = path + ".partial";
        try
        {
            using (var stream = new FileStream(beside, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                using (
                    var writer = new StreamWriter(
                        stream,
                        new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
                        bufferSize: 1 << 16,
                        leaveOpen: true
                    )
                )
                {
                    foreach (var line in JournalLines.Write(entries))
                    {
                        cancellation.ThrowIfCancellationRequested();
                        writer.Write(line);
                        writer.Write('\n');
                    }
                }

                stream.Flush(flushToDisk: true);
            }

            File.Move(beside, path, overwrite: true);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }

        Disk.SyncFolder(Disk.FolderOf(path));
    }

    private static StreamReader Open(string path) =>
        new(
            new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16),
            Encoding.UTF8,
            detectEncodingFromByteOrderMarks: false
        );

    // Line by line, and never more than one line of memory: a foreign file may be one endless line.
    private static IEnumerable<string> Lines(StreamReader reader)
    {
        var line = new StringBuilder();
        var buffer = new char[1 << 16];
        int count;
        while ((count = reader.Read(buffer, 0, buffer.Length)) > 0)
        {
            var rest = buffer.AsMemory(0, count);
            int end;
            while ((end = rest.Span.IndexOf('\n')) >= 0)
            {
                line.Append(rest.Span[..end]);
                rest = rest[(end + 1)..];
                yield return Take(line);
            }

            line.Append(rest.Span);
            if (line.Length > LongestLine)
            {
                // No entry is as long: what follows cannot be one, and the reader says so with its line.
                yield return Take(line);
                yield break;
            }
        }

        if (line.Length > 0)
        {
            yield return Take(line);
        }
    }

    private static string Take(StringBuilder line)
    {
        // A file that went through a program for another system may have got its line ends.
        var length = line.Length > 0 && line[^1] == '\r' ? line.Length - 1 : line.Length;
        var text = line.ToString(0, length);
        line.Clear();
        return text;
    }
}
