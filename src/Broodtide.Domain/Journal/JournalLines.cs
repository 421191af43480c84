using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>
/// The journal as JSON Lines: one line that says what the file is, one line an entry with its two byte strings,
/// one closing line with the number of entries and a hash over all lines before it. Lossless; reading it twice
/// changes nothing.
/// </summary>
public static class JournalLines
{
    /// <summary>What the first line says.</summary>
    public const string Format = "broodtide-journal";

    /// <summary>The version that is written, and the newest that is read.</summary>
    public const int Version = 1;

    /// <summary>The lines of a file, without line ends, in the order of replica and running number.</summary>
    public static IEnumerable<string> Write(IEnumerable<Entry> entries)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var first = Line(json =>
        {
            json.WriteString("format"u8, Format);
            json.WriteNumber("version"u8, Version);
        });
        Hash(hash, first);
        yield return first;
        var count = 0;
        foreach (
            var entry in entries
                .OrderBy(entry => entry.Envelope.Replica.Value)
                .ThenBy(entry => entry.Envelope.Sequence)
                .ThenBy(entry => entry.Digest)
        )
        {
            var line = Line(json => WriteEntry(json, entry.Bytes));
            Hash(hash, line);
            count++;
            yield return line;
        }

        yield return Line(json =>
        {
            json.WriteNumber("entries"u8, count);
            json.WriteString("sha256"u8, Convert.ToHexStringLower(hash.GetHashAndReset()));
        });
    }

    /// <summary>
    /// Reads a file. Whole or not at all: a file that is foreign, cut short or changed gives a reason with its
    /// line, and what could still be read is counted in it.
    /// </summary>
    public static Parsed<IReadOnlyList<Entry>> Read(IEnumerable<string> lines)
    {
        var found = Scan(lines);
        return found.Fault is null
            ? Parsed<IReadOnlyList<Entry>>.Of(found.Entries)
            : Parsed<IReadOnlyList<Entry>>.No(found.Fault);
    }

    /// <summary>
    /// Reads what is whole in a damaged file: every entry whose bytes verify and whom the entry after it names, and the first
    /// thing that is wrong.
    /// </summary>
    public static (IReadOnlyList<Entry> Entries, Remark? Fault) Salvage(IEnumerable<string> lines)
    {
        var (entries, fault) = Scan(lines);
        // As many as was said, each readable, and yet not the same: one of them is not what it was.
        var isOneChanged =
            fault?.Code == "file-changed" && fault["entriesSaid"] is long said && said == entries.Count;
        return (fault is null ? entries : Vouched.Of(entries, isOneChanged), fault);
    }

    private static (IReadOnlyList<Entry> Entries, Remark? Fault) Scan(IEnumerable<string> lines)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var entries = new List<Entry>();
        Remark? fault = null;
        var number = 0;
        var closed = false;
        foreach (var line in lines)
        {
            number++;
            if (closed)
            {
                if (string.IsNullOrWhiteSpace(line))
                {
                    continue;
                }

                fault ??= Fault("line-after-the-end", number);
                break;
            }

            if (number == 1)
            {
                // Some editors put a byte order mark in front.
                var opening = line.TrimStart('\uFEFF');
                if (Opening(opening) is { } wrong)
                {
                    return (entries, wrong);
                }

                Hash(hash, opening);
                continue;
            }

            var read = ReadLine(line);
            switch (read)
            {
                case (EntryBytes bytes, null):
                    var entry = Entry.Read(bytes);
                    if (entry.Succeeded)
                    {
                        entries.Add(entry.Value);
                    }
                    else
                    {
                        fault ??= new Remark(
                            "entry-not-whole",
                            new("line", number),
                            new("reason", entry.Reason.ToString())
                        );
                    }

                    Hash(hash, line);
                    break;
                case (null, (long count, string sha256)):
                    closed = true;
                    var whole = Convert.ToHexStringLower(hash.GetHashAndReset());
                    if (count != entries.Count || !string.Equals(whole, sha256, StringComparison.Ordinal))
                    {
                        fault ??= new Remark(
                            "file-changed",
                            new("line", number),
                            new("entriesSaid", count),
                            new("entriesFound", entries.Count)
                        );
                    }

                    break;
                default:
                    fault ??= Fault("line-not-an-entry", number);
                    break;
            }
        }

        if (number == 0)
        {
            fault = Fault("file-empty", 1);
        }
        else if (!closed)
        {
            // Said first, since a torn last line follows from it.
            fault = new Remark("file-cut-short", new("line", number), new("entriesWhole", entries.Count));
        }

        return (entries, fault);
    }

    private static Remark Fault(string code, int line) => new(code, new Argument("line", line));

    private static Remark? Opening(string line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            var root = document.RootElement;
            return root.ValueKind != JsonValueKind.Object
                || !root.TryGetProperty("format"u8, out var format)
                || format.ValueKind != JsonValueKind.String
                || format.GetString() != Format
                    ? Foreign()
                : !root.TryGetProperty("version"u8, out var version)
                || !version.TryGetInt32(out var number)
                || number < 1
                    ? Foreign()
                : number > Version
                    ? new Remark(
                        "file-newer",
                        new("line", 1),
                        new("version", number),
                        new("allowed", Version)
                    )
                : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return Foreign();
        }
    }

    private static Remark Foreign() => new("file-foreign", new("line", 1), new("allowed", Format));

    // Either an entry, or the closing line, or neither.
    private static (EntryBytes? Entry, (long Count, string Sha256)? End) ReadLine(string line)
    {
        try
        {
            using var document = JsonDocument.Parse(line);
            var root = document.RootElement;
            if (root.TryGetProperty("envelope"u8, out var envelope))
            {
                var bytes = Encoding.UTF8.GetBytes(envelope.GetString()!);
                if (!root.TryGetProperty("body"u8, out var body))
                {
                    return (new EntryBytes(bytes, default), null);
                }

                var salt = root.GetProperty("salt"u8).GetBytesFromBase64();
                return (
                    new EntryBytes(bytes, (byte[])[.. salt, .. Encoding.UTF8.GetBytes(body.GetString()!)]),
                    null
                );
            }

            return (
                null,
                (root.GetProperty("entries"u8).GetInt64(), root.GetProperty("sha256"u8).GetString()!)
            );
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or InvalidOperationException
                        or FormatException
                        or KeyNotFoundException
                        or ArgumentException
            )
        {
            return (null, null);
        }
    }

    private static void WriteEntry(Utf8JsonWriter json, EntryBytes bytes)
    {
        json.WriteString("envelope"u8, bytes.Envelope.Span);
        if (!bytes.SaltedBody.IsEmpty)
        {
            json.WriteString("body"u8, bytes.SaltedBody.Span[EntryBytes.SaltLength..]);
            json.WriteBase64String("salt"u8, bytes.SaltedBody.Span[..EntryBytes.SaltLength]);
        }
    }

    private static string Line(Action<Utf8JsonWriter> write)
    {
        var output = new ArrayBufferWriter<byte>(1024);
        using (var json = new Utf8JsonWriter(output, new JsonWriterOptions { Encoder = Plain }))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(output.WrittenSpan);
    }

    // Letters of every language stay readable in the file.
    private static readonly JavaScriptEncoder Plain = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;

    private static void Hash(IncrementalHash hash, string line)
    {
        hash.AppendData(Encoding.UTF8.GetBytes(line));
        hash.AppendData("\n"u8);
    }
}
