using System.Buffers.Binary;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// Entries on the way between phone and house: a first byte that says how they are packed, then for each entry the
/// lengths of its two byte strings (4 bytes each, little-endian) and the strings. Nothing vouches for the whole, since
/// each entry vouches for itself.
/// </summary>
internal static class EntryBatch
{
    // No text of the journal begins with it.
    private const byte Packed = 1;
    private const int HeadLength = 2 * sizeof(int);
    private const int Piece = 64;

    public static byte[] Pack(IReadOnlyList<Entry> entries)
    {
        var bytes = new byte[1 + entries.Sum(LengthOf)];
        bytes[0] = Packed;
        var rest = bytes.AsSpan(1);
        foreach (var entry in entries)
        {
            var envelope = entry.Bytes.Envelope.Span;
            var salted = entry.Bytes.SaltedBody.Span;
            BinaryPrimitives.WriteInt32LittleEndian(rest, envelope.Length);
            BinaryPrimitives.WriteInt32LittleEndian(rest[sizeof(int)..], salted.Length);
            envelope.CopyTo(rest[HeadLength..]);
            salted.CopyTo(rest[(HeadLength + envelope.Length)..]);
            rest = rest[LengthOf(entry)..];
        }

        return bytes;
    }

    public static bool Is(ReadOnlySpan<byte> bytes) => !bytes.IsEmpty && bytes[0] == Packed;

    /// <summary>Whole or not at all; every entry is verified. The entries lie in the bytes they came in.</summary>
    public static Parsed<IReadOnlyList<Entry>> Read(ReadOnlyMemory<byte> bytes)
    {
        var entries = new List<Entry>();
        return ReadNext(bytes[1..], entries, int.MaxValue, out _) is { } wrong
            ? Parsed<IReadOnlyList<Entry>>.No(wrong)
            : Parsed<IReadOnlyList<Entry>>.Of(entries);
    }

    /// <summary>The same for who may not be held up: a pause after every few.</summary>
    public static async Task<Parsed<IReadOnlyList<Entry>>> ReadInPiecesAsync(ReadOnlyMemory<byte> bytes)
    {
        if (!Is(bytes.Span))
        {
            return Parsed<IReadOnlyList<Entry>>.No(SharingText.NotUnderstood);
        }

        var entries = new List<Entry>();
        for (var rest = bytes[1..]; !rest.IsEmpty; await Task.Yield())
        {
            if (ReadNext(rest, entries, Piece, out rest) is { } wrong)
            {
                return Parsed<IReadOnlyList<Entry>>.No(wrong);
            }
        }

        return Parsed<IReadOnlyList<Entry>>.Of(entries);
    }

    // What is wrong with the next so many; nothing if all of them are entries.
    private static Remark? ReadNext(
        ReadOnlyMemory<byte> bytes,
        List<Entry> entries,
        int most,
        out ReadOnlyMemory<byte> rest
    )
    {
        rest = bytes;
        for (var count = 0; count < most && !rest.IsEmpty; count++)
        {
            if (Next(ref rest) is not { } found)
            {
                return SharingText.NotUnderstood;
            }

            var entry = Entry.Read(found);
            if (!entry.Succeeded)
            {
                return new Remark(
                    "entry-not-whole",
                    new("line", entries.Count + 1),
                    new("reason", entry.Reason.ToString())
                );
            }

            entries.Add(entry.Value);
        }

        return null;
    }

    private static EntryBytes? Next(ref ReadOnlyMemory<byte> rest)
    {
        if (rest.Length < HeadLength)
        {
            return null;
        }

        var envelope = BinaryPrimitives.ReadInt32LittleEndian(rest.Span);
        var salted = BinaryPrimitives.ReadInt32LittleEndian(rest.Span[sizeof(int)..]);
        rest = rest[HeadLength..];
        if (envelope < 0 || salted < 0 || (long)envelope + salted > rest.Length)
        {
            return null;
        }

        var found = new EntryBytes(rest[..envelope], rest.Slice(envelope, salted));
        rest = rest[(envelope + salted)..];
        return found;
    }

    private static int LengthOf(Entry entry) =>
        HeadLength + entry.Bytes.Envelope.Length + entry.Bytes.SaltedBody.Length;
}
