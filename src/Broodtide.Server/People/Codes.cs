using System.Security.Cryptography;
using Broodtide.Storage.Households;

namespace Broodtide.Server.People;

/// <summary>
/// Random codes that a person can read out and type: sixteen signs in fours, 80 bits. Letters that are taken for
/// figures are left out, and typing them anyway is understood.
/// </summary>
internal static class Codes
{
    private const string Signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const int Length = 16;

    public static string New() =>
        string.Join(
            '-',
            RandomNumberGenerator.GetString(Signs, Length).Chunk(4).Select(four => new string(four))
        );

    /// <summary>The code as it was made, whatever the case and the strokes it was typed with.</summary>
    public static string Read(string typed)
    {
        var signs = typed
            .ToUpperInvariant()
            .Where(char.IsAsciiLetterOrDigit)
            .Select(sign =>
                sign switch
                {
                    'O' => '0',
                    'I' or 'L' => '1',
                    _ => sign,
                }
            )
            .Take(Length + 1)
            .ToArray();
        return string.Join('-', signs.Chunk(4).Select(four => new string(four)));
    }

    /// <summary>What is kept of an invitation's code.</summary>
    public static byte[] HashOf(string typed) => SecretHash.Of("invitation " + Read(typed));
}
