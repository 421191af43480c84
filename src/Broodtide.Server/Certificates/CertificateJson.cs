using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Broodtide.Server.Certificates;

/// <summary>The certificates of the house as JSON, without any key.</summary>
internal static class CertificateJson
{
    public static string Write(X509Certificate2? authority, X509Certificate2? server) =>
        JsonSerializer.Serialize(
            new CertificatesShown(
                authority is null ? null : Shown(authority, NameConstraints.Read(authority)),
                server is null ? null : Shown(server, CertificateFolder.NamesOf(server))
            ),
            CertificatesJson.Default.CertificatesShown
        );

    private static CertificateShown Shown(X509Certificate2 certificate, HouseNames names) =>
        new(
            certificate.GetNameInfo(X509NameType.SimpleName, forIssuer: false),
            Fingerprint.Of(certificate),
            [.. names.All],
            new DateTimeOffset(certificate.NotBefore.ToUniversalTime()),
            new DateTimeOffset(certificate.NotAfter.ToUniversalTime())
        );
}

internal sealed record CertificatesShown(CertificateShown? Authority, CertificateShown? Server);

internal sealed record CertificateShown(
    string Name,
    string Sha256,
    IReadOnlyList<string> Names,
    DateTimeOffset From,
    DateTimeOffset Until
);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, WriteIndented = true)]
[JsonSerializable(typeof(CertificatesShown))]
internal sealed partial class CertificatesJson : JsonSerializerContext;
