using System.Buffers.Binary;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Browser;

/// <summary>
/// Many rows in one array: digest 32, replica 16, seq as float64, acknowledged 1, then length (4, little-endian) and
/// bytes of envelope, salt and body. The script module reads and writes the same.
/// </summary>
internal static class RowPacking
{
    private const int ReplicaLength = 16;
    private const int NumberAt = Digest.Length + ReplicaLength;
    private const int HeadLength = NumberAt + sizeof(double) + 1;

    public static byte[] Pack(IReadOnlyCollection<StoredRow> rows)
    {
        var bytes = new byte[rows.Sum(LengthOf)];
        var rest = bytes.AsSpan();
        foreach (var row in rows)
        {
            row.Digest.ToBytes().CopyTo(rest);
            row.Replica.TryWriteBytes(rest[Digest.Length..], bigEndian: true, out _);
            BinaryPrimitives.WriteDoubleLittleEndian(rest[NumberAt..], row.Seq);
            rest[HeadLength - 1] = row.Acknowledged ? (byte)1 : (byte)0;
            rest = Write(row.Body, Write(row.Salt, Write(row.Envelope, rest[HeadLength..])));
        }

        return bytes;
    }

    public static IReadOnlyList<StoredRow> Unpack(ReadOnlySpan<byte> bytes)
    {
        var rows = new List<StoredRow>();
        while (!bytes.IsEmpty)
        {
            var digest = Digest.FromBytes(bytes[..Digest.Length]);
            var replica = new Guid(bytes[Digest.Length..NumberAt], bigEndian: true);
            var seq = (long)BinaryPrimitives.ReadDoubleLittleEndian(bytes[NumberAt..]);
            var acknowledged = bytes[HeadLength - 1] == 1;
            bytes = bytes[HeadLength..];
            var envelope = Read(ref bytes);
            var salt = Read(ref bytes);
            var body = Read(ref bytes);
            rows.Add(new(digest, replica, seq, envelope, salt, body, acknowledged));
        }

        return rows;
    }

    public static byte[] Digests(IReadOnlyCollection<Digest> digests)
    {
        var bytes = new byte[digests.Count * Digest.Length];
        var at = 0;
        foreach (var digest in digests)
        {
            digest.ToBytes().CopyTo(bytes, at);
            at += Digest.Length;
        }

        return bytes;
    }

    private static int LengthOf(StoredRow row) =>
        HeadLength + (3 * sizeof(uint)) + row.Envelope.Length + row.Salt.Length + row.Body.Length;

    private static Span<byte> Write(byte[] part, Span<byte> target)
    {
        BinaryPrimitives.WriteInt32LittleEndian(target, part.Length);
        part.CopyTo(target[sizeof(int)..]);
        return target[(sizeof(int) + part.Length)..];
    }

    private static byte[] Read(ref ReadOnlySpan<byte> bytes)
    {
        var length = BinaryPrimitives.ReadInt32LittleEndian(bytes);
        var part = bytes.Slice(sizeof(int), length).ToArray();
        bytes = bytes[(sizeof(int) + length)..];
        return part;
    }
}
