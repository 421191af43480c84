using System.Security.Cryptography;
using System.Text;

namespace Broodtide.Storage.Households;

/// <summary>
/// What is kept of a random secret, such as a session's key or an invitation's code: enough to know it again, not
/// to tell it. For secrets made by a random generator only; a person's passphrase needs a slow hash.
/// </summary>
public static class SecretHash
{
    /// <summary>SHA-256 of the secret's UTF-8 bytes.</summary>
    public static byte[] Of(string secret)
    {
        ArgumentException.ThrowIfNullOrEmpty(secret);
        return SHA256.HashData(Encoding.UTF8.GetBytes(secret));
    }
}
