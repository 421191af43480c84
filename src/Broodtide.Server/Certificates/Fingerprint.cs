using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Broodtide.Server.Certificates;

/// <summary>The SHA-256 of a certificate as phones show it: pairs of hexadecimal figures with colons.</summary>
internal static class Fingerprint
{
    public static string Of(X509Certificate2 certificate)
    {
        var figures = certificate.GetCertHashString(HashAlgorithmName.SHA256);
        return string.Join(':', figures.Chunk(2).Select(pair => new string(pair)));
    }
}
