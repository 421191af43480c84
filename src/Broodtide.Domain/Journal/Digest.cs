using System.Buffers.Binary;
using System.Security.Cryptography;

namespace Broodtide.Domain.Journal;

/// <summary>A SHA-256 value (FIPS 180-4), always over stored bytes. Written as 64 lower-case hex figures.</summary>
public readonly record struct Digest : IComparable<Digest>
{
    private readonly ulong _a;
    private readonly ulong _b;
    private readonly ulong _c;
    private readonly ulong _d;

    private Digest(ReadOnlySpan<byte> bytes)
    {
        _a = BinaryPrimitives.ReadUInt64BigEndian(bytes);
        _b = BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]);
        _c = BinaryPrimitives.ReadUInt64BigEndian(bytes[16..]);
        _d = BinaryPrimitives.ReadUInt64BigEndian(bytes[24..]);
    }

    /// <summary>Number of bytes, 32.</summary>
    public const int Length = 32;

    /// <summary>The first eight bytes as a number, for cheap mixing.</summary>
    internal ulong First => _a;

    /// <summary>The second eight bytes as a number, for cheap mixing.</summary>
    internal ulong Second => _b;

    /// <summary>Hashes one byte string.</summary>
    public static Digest Of(ReadOnlySpan<byte> bytes)
    {
        Span<byte> hash = stackalloc byte[Length];
        SHA256.HashData(bytes, hash);
        return new(hash);
    }

    /// <summary>Hashes two byte strings one after the other.</summary>
    public static Digest Of(ReadOnlySpan<byte> first, ReadOnlySpan<byte> second)
    {
        var joined = new byte[first.Length + second.Length];
        first.CopyTo(joined);
        second.CopyTo(joined.AsSpan(first.Length));
        return Of(joined);
    }

    /// <summary>From 32 stored bytes.</summary>
    /// <exception cref="ArgumentException">Not 32 bytes.</exception>
    public static Digest FromBytes(ReadOnlySpan<byte> bytes) =>
        bytes.Length == Length
            ? new(bytes)
            : throw new ArgumentException("A digest has 32 bytes.", nameof(bytes));

    /// <summary>From 64 hex figures as UTF-8.</summary>
    public static bool TryParse(ReadOnlySpan<byte> utf8Hex, out Digest digest)
    {
        digest = default;
        Span<byte> bytes = stackalloc byte[Length];
        if (
            utf8Hex.Length != 2 * Length
            || Convert.FromHexString(utf8Hex, bytes, out _, out var written)
                != System.Buffers.OperationStatus.Done
            || written != Length
        )
        {
            return false;
        }

        digest = new(bytes);
        return true;
    }

    /// <summary>The 32 bytes.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[Length];
        BinaryPrimitives.WriteUInt64BigEndian(bytes, _a);
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(8), _b);
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(16), _c);
        BinaryPrimitives.WriteUInt64BigEndian(bytes.AsSpan(24), _d);
        return bytes;
    }

    /// <summary>The first bits are as mixed as any others.</summary>
    public override int GetHashCode() => unchecked((int)_a);

    /// <inheritdoc/>
    public int CompareTo(Digest other)
    {
        var order = _a.CompareTo(other._a);
        order = order != 0 ? order : _b.CompareTo(other._b);
        order = order != 0 ? order : _c.CompareTo(other._c);
        return order != 0 ? order : _d.CompareTo(other._d);
    }

    /// <summary>Whether the left one sorts before.</summary>
    public static bool operator <(Digest left, Digest right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left one sorts after.</summary>
    public static bool operator >(Digest left, Digest right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left one does not sort after.</summary>
    public static bool operator <=(Digest left, Digest right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left one does not sort before.</summary>
    public static bool operator >=(Digest left, Digest right) => left.CompareTo(right) >= 0;

    /// <summary>64 lower-case hex figures.</summary>
    public override string ToString() => Convert.ToHexStringLower(ToBytes());
}
