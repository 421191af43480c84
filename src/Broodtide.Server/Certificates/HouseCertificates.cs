using System.Security.Cryptography.X509Certificates;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Server.Certificates;

/// <summary>The house vouches for itself: its authority, made once, and the server's certificate, renewed in time.</summary>
internal sealed class HouseCertificates(CertificateFolder folder, HouseNames names)
{
    /// <summary>A certificate with fewer days left than this is renewed while the server runs.</summary>
    public static readonly Duration RenewBefore = Duration.FromDays(30);

    /// <summary>
    /// Makes what is missing. Refuses where the authority has ended or may not vouch for the names: a new authority is
    /// made on purpose only, since every phone must be told of it.
    /// </summary>
    public Remark? Prepare(Instant now)
    {
        using var authority = folder.Authority() ?? folder.NewAuthority(names, now);
        if (End(authority) <= now)
        {
            return new Remark("authority-ended", new Argument("names", string.Join(',', names.All)));
        }

        var beyond = NameConstraints.Beyond(authority, names);
        return beyond.Count == 0
            ? null
            : new Remark(
                "authority-may-not",
                new Argument("beyond", string.Join(", ", beyond)),
                new Argument("names", string.Join(',', names.All))
            );
    }

    /// <summary>The certificate to show now, renewed first where it is missing, near its end, of other names or of another authority.</summary>
    public ServedCertificate Current(Instant now)
    {
        using var authority =
            folder.Authority() ?? throw new InvalidOperationException("The house has no authority.");
        var server = folder.Server();
        if (server is null || !Serves(server, authority, now))
        {
            server = folder.NewServer(authority, names, now);
        }

        return new(Usable(server), []);
    }

    /// <summary>When the authority ends; none where there is none.</summary>
    public Instant? AuthorityEnd()
    {
        using var authority = folder.Authority();
        return authority is null ? null : End(authority);
    }

    private bool Serves(X509Certificate2 server, X509Certificate2 authority, Instant now)
    {
        var carried = CertificateFolder.NamesOf(server);
        // Where the authority itself ends soon, a new certificate would end no later.
        return (End(server) - now > RenewBefore || (End(server) == End(authority) && End(server) > now))
            && carried.Dns.ToHashSet(StringComparer.Ordinal).SetEquals(names.Dns)
            && carried.Addresses.ToHashSet().SetEquals(names.Addresses)
            && IsOf(server, authority);
    }

    private static bool IsOf(X509Certificate2 server, X509Certificate2 authority)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(authority);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.VerificationFlags = X509VerificationFlags.IgnoreNotTimeValid;
        return chain.Build(server);
    }

    private static Instant End(X509Certificate2 certificate) =>
        Instant.FromDateTimeUtc(certificate.NotAfter.ToUniversalTime());

    // Windows serves only keys that have been through its own store.
    private static X509Certificate2 Usable(X509Certificate2 certificate) =>
        OperatingSystem.IsWindows()
            ? X509CertificateLoader.LoadPkcs12(certificate.Export(X509ContentType.Pkcs12), null)
            : certificate;
}
