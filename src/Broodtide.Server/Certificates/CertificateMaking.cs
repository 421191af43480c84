using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using NodaTime;

namespace Broodtide.Server.Certificates;

/// <summary>Makes the authority of a house and the certificates it gives to its server.</summary>
internal static class CertificateMaking
{
    /// <summary>
    /// Ten years: putting a new authority on every phone is work, and what it may vouch for is limited. Our choice.
    /// </summary>
    public const int AuthorityDays = 3652;

    /// <summary>
    /// Under every limit known to us: 825 days for authorities a person installed
    /// (https://support.apple.com/103769), 398 for those that come with a browser (from memory).
    /// </summary>
    public const int ServerDays = 397;

    // A phone's clock may be behind; the day counts into the lifetime.
    private static readonly Duration Earlier = Duration.FromDays(1);

    private static readonly Oid ServerAuthentication = new("1.3.6.1.5.5.7.3.1");

    /// <summary>A new authority with its key, allowed to vouch for the names alone.</summary>
    public static X509Certificate2 Authority(HouseNames names, Instant now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var day = now.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
        // The time of making tells two authorities of one house apart on a phone.
        var subject = new X500DistinguishedNameBuilder();
        subject.AddCommonName(Short($"Broodtide {day} {names.All.First()}"));
        var request = new CertificateRequest(subject.Build(), key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(X509BasicConstraintsExtension.CreateForCertificateAuthority(0));
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(
                X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign,
                critical: true
            )
        );
        request.CertificateExtensions.Add(
            new X509EnhancedKeyUsageExtension([ServerAuthentication], critical: false)
        );
        request.CertificateExtensions.Add(NameConstraints.For(names));
        request.CertificateExtensions.Add(
            new X509SubjectKeyIdentifierExtension(request.PublicKey, critical: false)
        );
        var from = now - Earlier;
        return request.CreateSelfSigned(
            from.ToDateTimeOffset(),
            (from + Duration.FromDays(AuthorityDays)).ToDateTimeOffset()
        );
    }

    /// <summary>A certificate with its key for the server; it ends with its authority at the latest.</summary>
    public static X509Certificate2 Server(X509Certificate2 authority, HouseNames names, Instant now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var subject = new X500DistinguishedNameBuilder();
        // No host name: some readers hold a name in this place against the limits of the authority, addresses too.
        subject.AddCommonName("Broodtide server");
        var request = new CertificateRequest(subject.Build(), key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(X509BasicConstraintsExtension.CreateForEndEntity(critical: true));
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true)
        );
        request.CertificateExtensions.Add(
            new X509EnhancedKeyUsageExtension([ServerAuthentication], critical: false)
        );
        request.CertificateExtensions.Add(AlternativeNames(names));
        request.CertificateExtensions.Add(
            new X509SubjectKeyIdentifierExtension(request.PublicKey, critical: false)
        );
        request.CertificateExtensions.Add(
            X509AuthorityKeyIdentifierExtension.CreateFromCertificate(
                authority,
                includeKeyIdentifier: true,
                includeIssuerAndSerial: false
            )
        );
        var from = now - Earlier;
        var until = (from + Duration.FromDays(ServerDays)).ToDateTimeOffset();
        var end = new DateTimeOffset(authority.NotAfter.ToUniversalTime());
        var start = from.ToDateTimeOffset();
        var begin = new DateTimeOffset(authority.NotBefore.ToUniversalTime());
        using var bare = request.Create(
            authority,
            start < begin ? begin : start,
            until > end ? end : until,
            SerialNumber()
        );
        return bare.CopyWithPrivateKey(key);
    }

    private static X509Extension AlternativeNames(HouseNames names)
    {
        var builder = new SubjectAlternativeNameBuilder();
        foreach (var name in names.Dns)
        {
            builder.AddDnsName(name);
        }

        foreach (var address in names.Addresses)
        {
            builder.AddIpAddress(address);
        }

        return builder.Build();
    }

    // RFC 5280, 4.1.2.2: positive, at most 20 bytes, never twice.
    private static byte[] SerialNumber()
    {
        var serial = RandomNumberGenerator.GetBytes(16);
        serial[0] = (byte)((serial[0] & 0x7f) | 0x40);
        return serial;
    }

    // RFC 5280, appendix A: a common name has at most 64 letters. Nothing is read from it.
    private static string Short(string name) => name.Length <= 64 ? name : name[..64];
}
