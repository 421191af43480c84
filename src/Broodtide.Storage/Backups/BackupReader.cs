using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Json;
using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>
/// Reads a backup piece by piece. Of a damaged one it tells which pieces do not open and gives out every file that lies in
/// whole ones.
/// </summary>
internal sealed class BackupReader : IDisposable
{
    private const int ClosedBytes = BackupSeal.PieceBytes + BackupSeal.TagBytes;

    // A list longer than this is of no backup that was written here: over a million files.
    private const int LongestList = 400_000_000;

    private readonly FileStream _stream;
    private readonly BackupSeal _seal;
    private readonly byte[] _closed = new byte[ClosedBytes];
    private readonly byte[] _plain = new byte[BackupSeal.PieceBytes];
    private readonly long _pieces;
    private long _held = -1;
    private int _heldBytes;
    private bool _lacksEnd;

    private BackupReader(FileStream stream, BackupSeal seal)
    {
        _stream = stream;
        _seal = seal;
        var body = stream.Length - BackupSeal.HeadBytes;
        _pieces = (body + ClosedBytes - 1) / ClosedBytes;
    }

    public bool IsEncrypted => _seal.IsEncrypted;

    /// <summary>The contents.</summary>
    public BackupList List { get; private set; } = new("", 0, "", "", 0, []);

    /// <summary>Opens a backup and finds its list; the file may be damaged elsewhere.</summary>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    public static Parsed<BackupReader> Open(string path, string? passphrase)
    {
        var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        BackupReader? reader = null;
        try
        {
            var head = new byte[BackupSeal.HeadBytes];
            var length = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
            var seal = BackupSeal.Read(head[..length], path, passphrase);
            if (!seal.Succeeded)
            {
                return Parsed<BackupReader>.No(seal.Reason);
            }

            reader = new BackupReader(stream, seal.Value);
            if (!reader.FindList())
            {
                return Parsed<BackupReader>.No("backup-cut-short", new Argument("file", path));
            }

            var found = reader;
            reader = null;
            return Parsed<BackupReader>.Of(found);
        }
        finally
        {
            if (reader is not null)
            {
                reader.Dispose();
            }
        }
    }

    /// <summary>Whether every piece opens and the last one is the last.</summary>
    public bool IsWhole(CancellationToken cancellation)
    {
        for (var piece = 0L; piece < _pieces; piece++)
        {
            cancellation.ThrowIfCancellationRequested();
            if (!Load(piece))
            {
                return false;
            }
        }

        return _pieces > 0 && !_lacksEnd;
    }

    /// <summary>Writes one file's bytes out.</summary>
    /// <returns>Whether they are those that the list vouches for.</returns>
    public bool CopyTo(BackupItem item, Stream to, CancellationToken cancellation)
    {
        var place = 0L;
        foreach (var file in List.Files)
        {
            if (ReferenceEquals(file, item))
            {
                break;
            }

            place += file.Bytes;
        }

        return CopyTo(item, place, to, cancellation);
    }

    /// <summary>Writes one file's bytes out from its known place.</summary>
    public bool CopyTo(BackupItem item, long place, Stream to, CancellationToken cancellation)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        for (var left = item.Bytes; left > 0; )
        {
            cancellation.ThrowIfCancellationRequested();
            if (Read(place, left) is not { Length: > 0 } part)
            {
                return false;
            }

            hash.AppendData(part);
            to.Write(part);
            place += part.Length;
            left -= part.Length;
        }

        return string.Equals(
            Convert.ToHexStringLower(hash.GetHashAndReset()),
            item.Sha256,
            StringComparison.Ordinal
        );
    }

    public void Dispose()
    {
        _seal.Dispose();
        _stream.Dispose();
    }

    // From the end: the last foot that is whole. A file that lost its end still has the first copy perhaps.
    private bool FindList()
    {
        for (var piece = _pieces - 1; piece >= 0; piece--)
        {
            if (
                Load(piece)
                && _heldBytes >= BackupWriter.FootBytes
                && _plain.AsSpan(_heldBytes - 8, 8).SequenceEqual(BackupWriter.FootMagic)
                && Listed(
                    _plain.AsSpan(_heldBytes - BackupWriter.FootBytes, BackupWriter.FootBytes).ToArray()
                )
            )
            {
                return true;
            }
        }

        return false;
    }

    private bool Listed(byte[] foot)
    {
        var place = BinaryPrimitives.ReadInt64BigEndian(foot);
        var length = BinaryPrimitives.ReadInt64BigEndian(foot.AsSpan(8));
        if (place < 0 || length is < 2 or > LongestList || place + length > _pieces * BackupSeal.PieceBytes)
        {
            return false;
        }

        var text = new byte[length];
        for (var done = 0; done < text.Length; )
        {
            if (Read(place + done, text.Length - done) is not { Length: > 0 } part)
            {
                return false;
            }

            part.CopyTo(text.AsSpan(done));
            done += part.Length;
        }

        if (!SHA256.HashData(text).AsSpan().SequenceEqual(foot.AsSpan(16, SHA256.HashSizeInBytes)))
        {
            return false;
        }

        try
        {
            if (
                JsonSerializer.Deserialize(text, BackupJson.Default.BackupList)
                    is not { Format: BackupMaking.Format, Files: { } files } list
                || files.Any(file => file is not { Bytes: >= 0, HasSafeName: true, Sha256.Length: 64 })
                || files.Select(file => file.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count()
                    != files.Count
                || files.Sum(file => file.Bytes) > place
            )
            {
                return false;
            }

            List = list;
            return true;
        }
        catch (Exception wrong) when (wrong is JsonException or OverflowException)
        {
            return false;
        }
    }

    // As much as lies in the piece of a place; nothing where the piece does not open.
    private ReadOnlySpan<byte> Read(long place, long most)
    {
        var piece = place / BackupSeal.PieceBytes;
        var from = (int)(place % BackupSeal.PieceBytes);
        return piece < _pieces && Load(piece) && from < _heldBytes
            ? _plain.AsSpan(from, (int)Math.Min(most, _heldBytes - from))
            : default;
    }

    private bool Load(long piece)
    {
        if (_held == piece)
        {
            return true;
        }

        _held = -1;
        _stream.Position = BackupSeal.HeadBytes + (piece * ClosedBytes);
        var length = _stream.ReadAtLeast(_closed, ClosedBytes, throwOnEndOfStream: false);
        var closed = _closed.AsSpan(0, length);
        var isLast = piece == _pieces - 1;
        if (!_seal.Open(piece, isLast, closed, _plain))
        {
            // A file that was cut between two pieces: the one before the gap is whole, and is not the last.
            if (!isLast || !_seal.Open(piece, isLast: false, closed, _plain))
            {
                return false;
            }

            _lacksEnd = true;
        }

        _held = piece;
        _heldBytes = length - BackupSeal.TagBytes;
        return true;
    }
}
