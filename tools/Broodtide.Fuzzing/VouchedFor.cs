using System.Buffers.Binary;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Fuzzing;

/// <summary>Entries whose bodies anybody wrote, in envelopes and a chain that are as they should be.</summary>
internal static class VouchedFor
{
    private const int Head = 4;
    private const int Most = 64;
    private static readonly ReplicaId Replica = new(new Guid("019ab5d0-5c00-7000-8000-00000000f022"));
    private static readonly Instant Begin = Instant.FromUtc(2026, 1, 1, 12, 0);

    /// <summary>One entry, the first of its replica.</summary>
    public static Parsed<Entry> Entry(byte kind, byte version, ReadOnlySpan<byte> body) =>
        Make(kind, version, body, null);

    /// <summary>
    /// A chain: each entry is one byte that chooses its kind, one its version, two for the length of its body (low byte
    /// first), then the body. An entry that is refused is left out.
    /// </summary>
    public static List<Entry> Chain(ReadOnlySpan<byte> bytes)
    {
        var entries = new List<Entry>();
        while (bytes.Length >= Head && entries.Count < Most)
        {
            var length = Math.Min(BinaryPrimitives.ReadUInt16LittleEndian(bytes[2..]), bytes.Length - Head);
            var read = Make(bytes[0], bytes[1], bytes.Slice(Head, length), entries.LastOrDefault());
            if (read.Succeeded)
            {
                entries.Add(read.Value);
            }

            bytes = bytes[(Head + length)..];
        }

        return entries;
    }

    /// <summary>A fact in the form that <see cref="Chain"/> reads.</summary>
    public static byte[] Piece(Fact fact)
    {
        var kind = Kinds.Of(fact);
        var body = kind.Write(fact);
        var head = new byte[Head];
        head[0] = (byte)Kinds.All.ToList().IndexOf(kind);
        head[1] = (byte)(kind.Version - 1);
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(2), checked((ushort)body.Length));
        return [.. head, .. body];
    }

    private static Parsed<Entry> Make(byte kindAt, byte versionAt, ReadOnlySpan<byte> body, Entry? before)
    {
        var kind = Kinds.All[kindAt % Kinds.All.Count];
        byte[] salted = [.. new byte[EntryBytes.SaltLength], .. body];
        var sequence = (before?.Envelope.Sequence ?? 0) + 1;
        var at = Begin + Duration.FromHours(sequence);
        Span<byte> id = stackalloc byte[16];
        Replica.Value.TryWriteBytes(id, bigEndian: true, out _);
        id[1] = (byte)sequence;
        return Domain.Journal.Entry.Read(
            new(
                EnvelopeText.Write(
                    new Envelope
                    {
                        Id = new EntryId(new Guid(id, bigEndian: true)),
                        Replica = Replica,
                        Sequence = sequence,
                        Author = new Author("Keeper"),
                        Written = at,
                        Zone = "Europe/Zurich",
                        Happened = Happened.At(at),
                        Kind = kind.Name,
                        Version = 1 + (versionAt % (kind.Version + 1)),
                        Previous = before?.Digest,
                        Body = Digest.Of(salted),
                    }
                ),
                salted
            )
        );
    }
}
