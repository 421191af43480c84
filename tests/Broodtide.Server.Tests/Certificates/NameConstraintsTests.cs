using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Broodtide.Server.Certificates;
using Broodtide.Server.Tests.Kit;
using NodaTime;

namespace Broodtide.Server.Tests.Certificates;

public sealed class NameConstraintsTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 11, 25, 12, 0);

    private static readonly HouseNames Both = new(
        ["broodtide.home.arpa", "shelf.local"],
        [IPAddress.Parse("192.168.1.20"), IPAddress.Parse("fd00::20")]
    );

    private static readonly HouseNames NameOnly = new(["broodtide.home.arpa"], []);
    private static readonly HouseNames AddressOnly = new([], [IPAddress.Parse("192.168.1.20")]);

    [Fact]
    public async Task A_second_reader_sees_the_limits_and_that_they_are_critical()
    {
        using var folder = new TemporaryFolder();
        using var authority = CertificateMaking.Authority(Both, Now);
        await File.WriteAllTextAsync(
            folder.File("a.pem"),
            authority.ExportCertificatePem(),
            TestContext.Current.CancellationToken
        );

        var (code, said) = await Openssl.Run("x509", "-in", folder.File("a.pem"), "-noout", "-text");

        Assert.Equal(0, code);
        Assert.Contains("X509v3 Name Constraints: critical", said, StringComparison.Ordinal);
        Assert.Contains("DNS:broodtide.home.arpa", said, StringComparison.Ordinal);
        Assert.Contains("DNS:shelf.local", said, StringComparison.Ordinal);
        Assert.Contains("IP:192.168.1.20/255.255.255.255", said, StringComparison.Ordinal);
        Assert.Contains("IP:FD00:0:0:0:0:0:0:20/FFFF", said, StringComparison.Ordinal);
        Assert.Contains("CA:TRUE, pathlen:0", said, StringComparison.Ordinal);
        Assert.Contains("Certificate Sign", said, StringComparison.Ordinal);
        Assert.Contains("prime256v1", said, StringComparison.Ordinal);
    }

    public static TheoryData<string, string, bool> Vouched =>
        new()
        {
            { "both", "broodtide.home.arpa", true },
            { "both", "shelf.local", true },
            { "both", "under.broodtide.home.arpa", true },
            { "both", "192.168.1.20", true },
            { "both", "fd00::20", true },
            { "both", "example.org", false },
            { "both", "home.arpa", false },
            { "both", "notbroodtide.home.arpa", false },
            { "both", "192.168.1.21", false },
            { "both", "fd00::21", false },
            { "name", "broodtide.home.arpa", true },
            { "name", "192.168.1.20", false },
            { "name", "fd00::20", false },
            { "address", "192.168.1.20", true },
            { "address", "example.org", false },
            { "address", "fd00::20", false },
        };

    /// <summary>Rules of RFC 5280, 4.2.1.10, asked of openssl, of the framework, and of our own reading.</summary>
    [Theory]
    [MemberData(nameof(Vouched))]
    public async Task An_authority_vouches_for_the_names_of_its_house_alone(
        string house,
        string name,
        bool accepted
    )
    {
        var names = house switch
        {
            "both" => Both,
            "name" => NameOnly,
            _ => AddressOnly,
        };
        using var folder = new TemporaryFolder();
        using var authority = CertificateMaking.Authority(names, Now);
        var asked = IPAddress.TryParse(name, out var address)
            ? new HouseNames([], [address])
            : new HouseNames([name], []);
        using var server = CertificateMaking.Server(authority, asked, Now);
        await Write(folder.File("a.pem"), authority);
        await Write(folder.File("s.pem"), server);

        var (code, said) = await Openssl.Run(
            "verify",
            "-x509_strict",
            "-purpose",
            "sslserver",
            "-attime",
            Now.ToUnixTimeSeconds().ToString(System.Globalization.CultureInfo.InvariantCulture),
            address is null ? "-verify_hostname" : "-verify_ip",
            name,
            "-CAfile",
            folder.File("a.pem"),
            folder.File("s.pem")
        );

        Assert.True(accepted == (code == 0), said);
        if (!accepted)
        {
            Assert.Contains("subtree violation", said, StringComparison.Ordinal);
        }

        Assert.Equal(accepted, Builds(authority, server));
        Assert.Equal(accepted, NameConstraints.Beyond(authority, asked).Count == 0);
    }

    [Fact]
    public void What_was_written_is_read_back()
    {
        using var authority = CertificateMaking.Authority(Both, Now);
        using var bare = CertificateMaking.Authority(AddressOnly, Now);

        Assert.Equal(Both.Dns, NameConstraints.Read(authority).Dns);
        Assert.Equal(Both.Addresses, NameConstraints.Read(authority).Addresses);
        Assert.Empty(NameConstraints.Read(bare).Dns);
    }

    [Fact]
    public void An_authority_without_limits_vouches_for_nothing_here()
    {
        using var key = ECDsa.Create();
        var request = new CertificateRequest("CN=free", key, HashAlgorithmName.SHA256);
        using var free = request.CreateSelfSigned(Now.ToDateTimeOffset(), Now.ToDateTimeOffset().AddDays(1));

        Assert.Equal(["broodtide.home.arpa"], NameConstraints.Beyond(free, NameOnly));
    }

    private static Task Write(string file, X509Certificate2 certificate) =>
        File.WriteAllTextAsync(file, certificate.ExportCertificatePem());

    private static bool Builds(X509Certificate2 authority, X509Certificate2 server)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(authority);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationTime = Now.ToDateTimeUtc();
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid("1.3.6.1.5.5.7.3.1"));
        return chain.Build(server);
    }
}
