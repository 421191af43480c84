using System.Security.Cryptography.X509Certificates;
using Broodtide.Server.Certificates;
using Broodtide.Server.Tests.Kit;
using NodaTime;

namespace Broodtide.Server.Tests.Certificates;

public sealed class GivenCertificateTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 11, 25, 12, 0);
    private static readonly HouseNames Names = new(["shrimps.example.org"], []);

    [Fact]
    public void Files_that_fit_the_public_name_are_served_with_what_stands_above_them()
    {
        using var folder = new TemporaryFolder();
        using var authority = CertificateMaking.Authority(Names, Now);
        var given = Write(folder, authority, Names, "shrimps.example.org", Now);

        Assert.Null(given.Prepare(Now));
        var served = given.Current();
        Assert.True(served.Certificate.HasPrivateKey);
        Assert.Equal(authority.Thumbprint, Assert.Single(served.Chain).Thumbprint);
    }

    [Fact]
    public void A_replaced_file_is_read_again()
    {
        using var folder = new TemporaryFolder();
        using var authority = CertificateMaking.Authority(Names, Now);
        var given = Write(folder, authority, Names, "shrimps.example.org", Now);
        var first = given.Current().Certificate.Thumbprint;

        _ = Write(folder, authority, Names, "shrimps.example.org", Now);
        File.SetLastWriteTimeUtc(folder.File("chain.pem"), Now.ToDateTimeUtc());

        Assert.NotEqual(first, given.Current().Certificate.Thumbprint);
    }

    [Fact]
    public void What_is_of_another_name_ended_or_no_certificate_is_refused_by_name()
    {
        using var folder = new TemporaryFolder();
        using var authority = CertificateMaking.Authority(Names, Now);

        Assert.Equal(
            "certificate-other-name",
            Write(folder, authority, Names, "else.example.org", Now).Prepare(Now)?.Code
        );
        Assert.Equal(
            "certificate-ended",
            Write(folder, authority, Names, "shrimps.example.org", Now)
                .Prepare(Now + Duration.FromDays(500))
                ?.Code
        );
        File.WriteAllText(folder.File("key.pem"), "no key");
        Assert.Equal("certificate-unreadable", Given(folder, "shrimps.example.org").Prepare(Now)?.Code);
        File.Delete(folder.File("chain.pem"));
        Assert.Equal("certificate-unreadable", Given(folder, "shrimps.example.org").Prepare(Now)?.Code);
    }

    private static GivenCertificate Write(
        TemporaryFolder folder,
        X509Certificate2 authority,
        HouseNames names,
        string publicHost,
        Instant now
    )
    {
        using var server = CertificateMaking.Server(authority, names, now);
        File.WriteAllText(
            folder.File("chain.pem"),
            server.ExportCertificatePem() + "\n" + authority.ExportCertificatePem() + "\n"
        );
        using var key = server.GetECDsaPrivateKey()!;
        File.WriteAllText(folder.File("key.pem"), key.ExportPkcs8PrivateKeyPem());
        return Given(folder, publicHost);
    }

    private static GivenCertificate Given(TemporaryFolder folder, string publicHost) =>
        new(new FileInfo(folder.File("chain.pem")), new FileInfo(folder.File("key.pem")), publicHost);
}
