using System.Net;
using System.Security.Cryptography.X509Certificates;
using Broodtide.Server.Certificates;
using Broodtide.Server.Tests.Kit;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Server.Tests.Certificates;

public sealed class HouseCertificatesTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 11, 25, 12, 0);
    private static readonly HouseNames Names = new(["broodtide.home.arpa"], [IPAddress.Parse("10.0.0.7")]);

    [Fact]
    public void The_first_start_makes_an_authority_and_a_certificate_that_a_phone_may_accept()
    {
        using var folder = new TemporaryFolder();
        var files = new CertificateFolder(folder.Folder);
        var house = new HouseCertificates(files, Names);

        Assert.Null(house.Prepare(Start));
        using var server = house.Current(Start).Certificate;

        Assert.True(server.HasPrivateKey);
        Assert.True(server.MatchesHostname("broodtide.home.arpa"));
        Assert.True(server.MatchesHostname("10.0.0.7"));
        // Limits of phones: 825 days, server authentication named, names in the alternative names
        // (https://support.apple.com/103769); 398 days where browsers are stricter (from memory).
        Assert.True((server.NotAfter - server.NotBefore).TotalDays <= 397);
        var usage = server.Extensions.OfType<X509EnhancedKeyUsageExtension>().Single();
        Assert.Equal("1.3.6.1.5.5.7.3.1", usage.EnhancedKeyUsages[0].Value);
        Assert.Equal(Names.Dns, CertificateFolder.NamesOf(server).Dns);
        Assert.Equal(Names.Addresses, CertificateFolder.NamesOf(server).Addresses);
    }

    [Fact]
    public void Only_the_account_of_the_server_can_read_a_key()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Windows keeps rights in another way; the folder inherits them.");
            return;
        }

        using var folder = new TemporaryFolder();
        var files = new CertificateFolder(folder.Folder);
        var house = new HouseCertificates(files, Names);
        house.Prepare(Start);
        house.Current(Start).Certificate.Dispose();

        const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        Assert.Equal(OwnerOnly, File.GetUnixFileMode(files.AuthorityFile));
        Assert.Equal(OwnerOnly, File.GetUnixFileMode(files.ServerFile));
        Assert.Equal(
            OwnerOnly | UnixFileMode.UserExecute,
            File.GetUnixFileMode(Path.GetDirectoryName(files.ServerFile)!)
        );
    }

    [Fact]
    public void A_restart_changes_nothing()
    {
        using var folder = new TemporaryFolder();
        var first = Shown(folder, Start);

        Assert.Equal(first, Shown(folder, Start + Duration.FromDays(300)));
    }

    [Fact]
    public void While_the_server_runs_its_certificate_is_renewed_when_less_than_thirty_days_are_left()
    {
        using var folder = new TemporaryFolder();
        var clock = new FakeClock(Start);
        var house = new HouseCertificates(new CertificateFolder(folder.Folder), Names);
        Assert.Null(house.Prepare(Start));
        var live = new LiveCertificate(clock, NullLogger.Instance, house.Current);
        var first = live.Now().TargetCertificate;

        // It begins a day early and lasts 397 days: thirty are left 366 days from now.
        clock.Reset(Start + Duration.FromDays(366) - Duration.FromMinutes(2));
        Assert.Equal(first.Thumbprint, live.Now().TargetCertificate.Thumbprint);
        clock.Reset(Start + Duration.FromDays(366) + Duration.FromMinutes(2));
        var second = live.Now().TargetCertificate;

        Assert.NotEqual(first.Thumbprint, second.Thumbprint);
        Assert.True(second.NotAfter > first.NotAfter.AddDays(300));
        Assert.Equal(first.IssuerName.RawData, second.IssuerName.RawData);
        Assert.Equal(second.Thumbprint, live.Now().TargetCertificate.Thumbprint);
    }

    [Fact]
    public void A_disk_that_cannot_be_written_leaves_the_old_certificate_shown()
    {
        using var folder = new TemporaryFolder();
        var clock = new FakeClock(Start);
        var house = new HouseCertificates(new CertificateFolder(folder.Folder), Names);
        house.Prepare(Start);
        var fails = false;
        var live = new LiveCertificate(
            clock,
            NullLogger.Instance,
            now => fails ? throw new IOException("full") : house.Current(now)
        );
        var first = live.Now().TargetCertificate;

        fails = true;
        clock.AdvanceDays(380);

        Assert.Equal(first.Thumbprint, live.Now().TargetCertificate.Thumbprint);
        fails = false;
        clock.AdvanceMinutes(2);
        Assert.NotEqual(first.Thumbprint, live.Now().TargetCertificate.Thumbprint);
    }

    [Fact]
    public void Names_within_the_limits_give_a_new_certificate_and_names_beyond_them_are_refused()
    {
        using var folder = new TemporaryFolder();
        var first = Shown(folder, Start);
        var files = new CertificateFolder(folder.Folder);

        var fewer = new HouseCertificates(files, new(["broodtide.home.arpa"], []));
        Assert.Null(fewer.Prepare(Start));
        using var second = fewer.Current(Start).Certificate;
        Assert.NotEqual(first, second.Thumbprint);

        var beyond = new HouseCertificates(files, new(["shrimps.home.arpa"], []));
        var refusal = beyond.Prepare(Start);
        Assert.Equal("authority-may-not", refusal?.Code);
        Assert.Equal("shrimps.home.arpa", refusal?["beyond"]);
    }

    [Fact]
    public void An_authority_at_its_end_is_refused_and_a_certificate_never_outlives_it()
    {
        using var folder = new TemporaryFolder();
        _ = Shown(folder, Start);
        var house = new HouseCertificates(new CertificateFolder(folder.Folder), Names);
        var late = Start + Duration.FromDays(CertificateMaking.AuthorityDays - 20);

        using var last = house.Current(late).Certificate;
        using var again = house.Current(late + Duration.FromDays(2)).Certificate;
        using var authority = new CertificateFolder(folder.Folder).Authority();

        Assert.Equal(authority!.NotAfter, last.NotAfter);
        Assert.Equal(last.Thumbprint, again.Thumbprint);
        Assert.Equal("authority-ended", house.Prepare(late + Duration.FromDays(20))?.Code);
    }

    [Fact]
    public void A_new_authority_brings_a_new_certificate_with_it()
    {
        using var folder = new TemporaryFolder();
        var files = new CertificateFolder(folder.Folder);
        var first = Shown(folder, Start);

        using var authority = files.NewAuthority(Names, Start + Duration.FromDays(1));

        using var second = new HouseCertificates(files, Names)
            .Current(Start + Duration.FromDays(1))
            .Certificate;
        Assert.NotEqual(first, second.Thumbprint);
        Assert.Equal(authority.SubjectName.RawData, second.IssuerName.RawData);
    }

    private static string Shown(TemporaryFolder folder, Instant now)
    {
        var house = new HouseCertificates(new CertificateFolder(folder.Folder), Names);
        Assert.Null(house.Prepare(now));
        using var server = house.Current(now).Certificate;
        return server.Thumbprint;
    }
}
