using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Json;

namespace Broodtide.Storage.Backups;

/// <summary>
/// Writes a backup from front to back: head, the bytes of every file one after another, then the list twice, each copy with a
/// foot that says where both stand. Never more than one piece is held in memory.
/// </summary>
internal sealed class BackupWriter(Stream to, BackupSeal seal)
{
    /// <summary>Place and length of the list, its SHA-256, and "BRDTLIST".</summary>
    public const int FootBytes = 56;

    private readonly byte[] _plain = new byte[BackupSeal.PieceBytes];
    private readonly byte[] _closed = new byte[BackupSeal.PieceBytes + BackupSeal.TagBytes];
    private int _filled;
    private long _pieces;

    public static ReadOnlySpan<byte> FootMagic => "BRDTLIST"u8;

    private long Place => (_pieces * BackupSeal.PieceBytes) + _filled;

    public void Begin() => to.Write(seal.Head);

    public void Write(ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
        {
            if (_filled == _plain.Length)
            {
                Close(isLast: false);
            }

            var step = Math.Min(bytes.Length, _plain.Length - _filled);
            bytes[..step].CopyTo(_plain.AsSpan(_filled));
            _filled += step;
            bytes = bytes[step..];
        }
    }

    public void End(BackupList list)
    {
        var text = JsonSerializer.SerializeToUtf8Bytes(list, BackupJson.Default.BackupList);
        // The first copy ends where a piece ends, so that the second one lies in pieces of its own.
        var first = Foot(Place, text);
        Write(text);
        var gap = BackupSeal.PieceBytes - (int)((Place + FootBytes) % BackupSeal.PieceBytes);
        Write(new byte[gap % BackupSeal.PieceBytes]);
        Write(first);
        var second = Foot(Place, text);
        Write(text);
        Write(second);
        Close(isLast: true);
    }

    private static byte[] Foot(long place, byte[] text)
    {
        var foot = new byte[FootBytes];
        BinaryPrimitives.WriteInt64BigEndian(foot, place);
        BinaryPrimitives.WriteInt64BigEndian(foot.AsSpan(8), text.Length);
        SHA256.HashData(text).CopyTo(foot.AsSpan(16));
        FootMagic.CopyTo(foot.AsSpan(48));
        return foot;
    }

    private void Close(bool isLast)
    {
        seal.Close(_pieces, isLast, _plain.AsSpan(0, _filled), _closed);
        to.Write(_closed.AsSpan(0, _filled + BackupSeal.TagBytes));
        _pieces++;
        _filled = 0;
    }
}
