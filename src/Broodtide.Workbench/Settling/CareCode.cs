using System.Security.Cryptography;
using Broodtide.Domain;

namespace Broodtide.Workbench.Settling;

/// <summary>
/// The code of a care card: eight letters from the entry that tells of the giving, and two that catch a slip of the pen.
/// Letters are Crockford's thirty-two (no I, L, O, U); the check is the number modulo 1021, a prime, so that one wrong
/// letter or two neighbours exchanged never pass.
/// </summary>
public sealed record CareCode
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const int Own = 8;
    private const int Check = 2;
    private const int Prime = 1021;

    private CareCode(string letters) => Text = $"{letters[..4]}-{letters[4..8]}-{letters[8..]}";

    /// <summary>As it is printed: 7Q4M-2KX9-ZV.</summary>
    public string Text { get; }

    /// <summary>The code of a giving.</summary>
    /// <param name="gift">The entry that tells of it.</param>
    public static CareCode Of(EntryId gift)
    {
        Span<byte> bytes = stackalloc byte[16];
        gift.Value.TryWriteBytes(bytes, bigEndian: true, out _);
        Span<byte> hash = stackalloc byte[32];
        SHA256.HashData(bytes, hash);
        var letters = new char[Own];
        for (var at = 0; at < Own; at++)
        {
            letters[at] = Letters[hash[at] % Letters.Length];
        }

        return new(new string(letters) + CheckOf(letters));
    }

    /// <summary>Reads a code as people write it: small letters, spaces, O for 0 and I or L for 1; none where a letter is wrong.</summary>
    public static CareCode? Read(string? text)
    {
        var plain = new List<char>();
        foreach (var letter in text ?? "")
        {
            var known = char.ToUpperInvariant(letter) switch
            {
                'O' => '0',
                'I' or 'L' => '1',
                var other => other,
            };
            if (known is '-' or ' ')
            {
                continue;
            }

            if (!Letters.Contains(known, StringComparison.Ordinal) || plain.Count == Own + Check)
            {
                return null;
            }

            plain.Add(known);
        }

        var typed = new string([.. plain]);
        return
            typed.Length == Own + Check
            && string.Equals(typed[Own..], CheckOf(typed.AsSpan(0, Own)), StringComparison.Ordinal)
            ? new(typed)
            : null;
    }

    /// <inheritdoc/>
    public override string ToString() => Text;

    private static string CheckOf(ReadOnlySpan<char> letters)
    {
        var rest = 0;
        foreach (var letter in letters)
        {
            rest = ((rest * Letters.Length) + Letters.IndexOf(letter, StringComparison.Ordinal)) % Prime;
        }

        return $"{Letters[rest / Letters.Length]}{Letters[rest % Letters.Length]}";
    }
}
