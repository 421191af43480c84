using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Broodtide.Units;

namespace Broodtide.Storage.Backups;

/// <summary>
/// How the pieces of a backup are closed, so that a piece that was changed, moved, left out or taken from another backup
/// does not open. With a passphrase each piece is AES-256-GCM, its number and whether it is the last one in the nonce
/// (the STREAM construction of Hoang, Reyhanitabar, Rogaway and Vizár 2015); without one it carries a hash of the same
/// things, which finds damage and keeps nobody out.
/// </summary>
internal sealed class BackupSeal : IDisposable
{
    public const int HeadBytes = 96;
    public const int PieceBytes = 1 << 16;
    public const int TagBytes = 16;

    /// <summary>The shape that is written, and the newest that is read.</summary>
    public const int Version = 1;

    /// <summary>
    /// Rounds of PBKDF2 with HMAC-SHA-512 from passphrase to key: over four times what the OWASP Password Storage Cheat
    /// Sheet asks for a sign-in (220,000, as of 2026), since whoever has the file may try as long as he likes.
    /// </summary>
    public const int Rounds = 1_000_000;

    // A head that asks for more was not written here, and would keep the reader busy for ever.
    private const int MostRounds = 20_000_000;
    private const int SaltAt = 16;
    private const int SaltBytes = 32;
    private const int CheckAt = SaltAt + SaltBytes;
    private const int CheckBytes = 16;
    private const int SumAt = CheckAt + CheckBytes;
    private const int NonceBytes = 12;

    private readonly AesGcm? _cipher;

    private BackupSeal(byte[] head, byte[]? key)
    {
        Head = head;
        _cipher = key is null ? null : new AesGcm(key, TagBytes);
    }

    /// <summary>"BRDTBKUP": how every backup begins.</summary>
    public static ReadOnlySpan<byte> Magic => "BRDTBKUP"u8;

    /// <summary>The first bytes of the file.</summary>
    public byte[] Head { get; }

    public bool IsEncrypted => _cipher is not null;

    /// <summary>A seal of a new backup.</summary>
    /// <param name="passphrase">What opens it again; none for a backup that everybody can read.</param>
    /// <param name="rounds">Other rounds, for tests.</param>
    public static BackupSeal Make(string? passphrase, int rounds = Rounds)
    {
        var head = new byte[HeadBytes];
        Magic.CopyTo(head);
        head[8] = Version;
        head[9] = passphrase is null ? (byte)0 : (byte)1;
        RandomNumberGenerator.Fill(head.AsSpan(SaltAt, SaltBytes));
        byte[]? key = null;
        if (passphrase is not null)
        {
            BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(12), rounds);
            (key, var check) = Derive(passphrase, head, rounds);
            check.CopyTo(head.AsSpan(CheckAt));
        }

        SHA256.HashData(head.AsSpan(0, SumAt)).CopyTo(head.AsSpan(SumAt));
        return new(head, key);
    }

    /// <summary>The seal of a backup that is read.</summary>
    public static Parsed<BackupSeal> Read(byte[] head, string file, string? passphrase)
    {
        if (head.Length < HeadBytes || !head.AsSpan().StartsWith(Magic))
        {
            return No("backup-foreign", file);
        }

        if (!SHA256.HashData(head.AsSpan(0, SumAt)).AsSpan().SequenceEqual(head.AsSpan(SumAt)))
        {
            return No("backup-head-damaged", file);
        }

        if (head[8] > Version)
        {
            return Parsed<BackupSeal>.No(
                "backup-newer",
                new("file", file),
                new("version", (int)head[8]),
                new("allowed", Version)
            );
        }

        if (head[9] == 0)
        {
            // Whoever names a passphrase wants what only its owner can have written.
            return passphrase is null
                ? Parsed<BackupSeal>.Of(new(head, null))
                : No("backup-not-encrypted", file);
        }

        if (passphrase is null)
        {
            return No("backup-passphrase-wanted", file);
        }

        var rounds = BinaryPrimitives.ReadInt32BigEndian(head.AsSpan(12));
        if (rounds is < 1 or > MostRounds)
        {
            return No("backup-head-damaged", file);
        }

        var (key, check) = Derive(passphrase, head, rounds);
        return CryptographicOperations.FixedTimeEquals(check, head.AsSpan(CheckAt, CheckBytes))
            ? Parsed<BackupSeal>.Of(new(head, key))
            : No("backup-passphrase-wrong", file);
    }

    /// <summary>Closes a piece into as many bytes and a tag.</summary>
    public void Close(long number, bool isLast, ReadOnlySpan<byte> plain, Span<byte> closed)
    {
        var tag = closed.Slice(plain.Length, TagBytes);
        if (_cipher is null)
        {
            plain.CopyTo(closed);
            Sum(number, isLast, plain, tag);
            return;
        }

        Span<byte> nonce = stackalloc byte[NonceBytes];
        Name(number, isLast, nonce);
        _cipher.Encrypt(nonce, plain, closed[..plain.Length], tag, Head);
    }

    /// <summary>Opens a piece; false if it is not the one that was closed there.</summary>
    public bool Open(long number, bool isLast, ReadOnlySpan<byte> closed, Span<byte> plain)
    {
        if (closed.Length <= TagBytes)
        {
            return false;
        }

        var bytes = closed[..^TagBytes];
        var tag = closed[^TagBytes..];
        if (_cipher is null)
        {
            Span<byte> sum = stackalloc byte[TagBytes];
            Sum(number, isLast, bytes, sum);
            bytes.CopyTo(plain);
            return sum.SequenceEqual(tag);
        }

        Span<byte> nonce = stackalloc byte[NonceBytes];
        Name(number, isLast, nonce);
        try
        {
            _cipher.Decrypt(nonce, bytes, tag, plain[..bytes.Length], Head);
            return true;
        }
        catch (AuthenticationTagMismatchException)
        {
            return false;
        }
    }

    public void Dispose() => _cipher?.Dispose();

    private static Parsed<BackupSeal> No(string code, string file) =>
        Parsed<BackupSeal>.No(code, new Argument("file", file));

    // The salt is drawn for each backup, so no two share a key and a nonce may count from nothing.
    private static (byte[] Key, byte[] Check) Derive(string passphrase, byte[] head, int rounds)
    {
        var secret = Rfc2898DeriveBytes.Pbkdf2(
            Encoding.UTF8.GetBytes(passphrase.Normalize(NormalizationForm.FormC)),
            head.AsSpan(SaltAt, SaltBytes),
            rounds,
            HashAlgorithmName.SHA512,
            64
        );
        return (
            HKDF.Expand(HashAlgorithmName.SHA512, secret, 32, "broodtide backup key"u8.ToArray()),
            HKDF.Expand(HashAlgorithmName.SHA512, secret, CheckBytes, "broodtide backup check"u8.ToArray())
        );
    }

    private static void Name(long number, bool isLast, Span<byte> nonce)
    {
        nonce.Clear();
        BinaryPrimitives.WriteInt64BigEndian(nonce[3..], number);
        nonce[^1] = isLast ? (byte)1 : (byte)0;
    }

    private void Sum(long number, bool isLast, ReadOnlySpan<byte> bytes, Span<byte> sum)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> name = stackalloc byte[NonceBytes];
        Name(number, isLast, name);
        hash.AppendData(Head);
        hash.AppendData(name);
        hash.AppendData(bytes);
        Span<byte> whole = stackalloc byte[SHA256.HashSizeInBytes];
        hash.GetHashAndReset(whole);
        whole[..TagBytes].CopyTo(sum);
    }
}
