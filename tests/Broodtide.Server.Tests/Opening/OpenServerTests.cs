using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography.X509Certificates;
using Broodtide.Server.Certificates;
using Broodtide.Server.Tests.Kit;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Tests.Opening;

/// <summary>The server opened to the network, started whole.</summary>
public sealed class OpenServerTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Without_an_owner_it_does_not_start()
    {
        using var folder = new TemporaryFolder();

        var (code, _, complained) = await StartedServer.Run(folder, "--open", "shelf.local");

        Assert.Equal(2, code);
        Assert.Contains("no owner with a passphrase", complained, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.File("certificates")));
    }

    [Fact]
    public async Task A_phone_that_trusts_the_house_reaches_it_by_every_name_and_by_no_other()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var port = StartedServer.FreePort();
        await using var server = await StartedServer.Open(
            folder,
            "--open",
            $"shelf.local:{port},10.0.0.7",
            "--trust-port",
            "0"
        );
        using var phone = StartedServer.Phone(folder);

        Assert.Equal($"https://shelf.local:{port}", server.Address);
        foreach (var name in new[] { "shelf.local", "10.0.0.7" })
        {
            var told = await phone.GetFromJsonAsync(
                new Uri($"https://{name}:{port}/api/house"),
                HouseToldJson.Default.HouseTold,
                Cancel
            );
            Assert.Equal(server.Address, told?.Address);
            Assert.Empty(told!.Former);
            Assert.Null(told.Trust);
        }

        // Under a name of its own, but asked for another.
        using var other = new HttpRequestMessage(HttpMethod.Get, new Uri($"https://shelf.local:{port}/"));
        other.Headers.Host = "elsewhere.example";
        using var careless = StartedServer.Phone(folder, anyName: true);
        using var refused = await careless.SendAsync(other, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        // A name that the certificate does not carry.
        await Assert.ThrowsAsync<HttpRequestException>(() =>
            phone.GetAsync(new Uri($"https://localhost:{port}/api/house"), Cancel)
        );
        // Without protection nothing is answered on this port.
        await Assert.ThrowsAnyAsync<HttpRequestException>(() =>
            phone.GetAsync(new Uri($"http://shelf.local:{port}/api/house"), Cancel)
        );
    }

    [Fact]
    public async Task Nothing_binds_a_browser_to_HTTPS_for_good()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var port = StartedServer.FreePort();
        await using var server = await StartedServer.Open(
            folder,
            "--open",
            $"shelf.local:{port}",
            "--trust-port",
            "0"
        );
        using var phone = StartedServer.Phone(folder);

        using var answer = await phone.GetAsync(new Uri(server.Address), Cancel);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.False(answer.Headers.Contains("Strict-Transport-Security"));
        Assert.True(answer.Headers.Contains("Content-Security-Policy"));
    }

    [Fact]
    public async Task A_second_program_accepts_the_connection_with_the_authority_and_not_without()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var port = StartedServer.FreePort();
        await using var server = await StartedServer.Open(
            folder,
            "--open",
            $"shelf.local:{port}",
            "--trust-port",
            "0"
        );
        using var authority = new CertificateFolder(folder.Folder).Authority()!;
        await File.WriteAllTextAsync(folder.File("a.pem"), authority.ExportCertificatePem(), Cancel);
        string[] connect =
        [
            "s_client",
            "-connect",
            string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{port}"),
            "-servername",
            "shelf.local",
            "-verify_hostname",
            "shelf.local",
            "-verify_return_error",
        ];

        var (with, said) = await Openssl.Run([.. connect, "-CAfile", folder.File("a.pem")]);
        var (without, _) = await Openssl.Run([.. connect, "-no-CAfile", "-no-CApath"]);

        Assert.True(with == 0, said);
        Assert.Contains("Verify return code: 0 (ok)", said, StringComparison.Ordinal);
        Assert.NotEqual(0, without);
    }

    [Fact]
    public async Task The_trust_port_answers_with_the_public_certificate_and_with_nothing_of_the_house()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var (port, plain) = (StartedServer.FreePort(), StartedServer.FreePort());
        await using var server = await StartedServer.Open(
            folder,
            "--open",
            $"shelf.local:{port}",
            "--trust-port",
            plain.ToString(CultureInfo.InvariantCulture)
        );
        using var phone = StartedServer.Phone(folder);
        using var authority = new CertificateFolder(folder.Folder).Authority()!;
        var site = new Uri($"http://shelf.local:{plain}/");

        var page = (await phone.GetStringAsync(site, Cancel)).Replace("<wbr>", "", StringComparison.Ordinal);
        Assert.Contains(Fingerprint.Of(authority), page, StringComparison.Ordinal);
        Assert.Contains("shelf.local", page, StringComparison.Ordinal);
        Assert.Contains("came without protection", page, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        var fetched = await phone.GetByteArrayAsync(new Uri(site, "broodtide-authority.crt"), Cancel);
        Assert.Equal(authority.RawData, fetched);
        Assert.StartsWith(
            "<svg",
            await phone.GetStringAsync(new Uri(site, "code.svg"), Cancel),
            StringComparison.Ordinal
        );
        Assert.Contains(Fingerprint.Of(authority), server.Said, StringComparison.Ordinal);
        Assert.Contains(site.AbsoluteUri, server.Said, StringComparison.Ordinal);

        foreach (
            var path in new[]
            {
                "api/house",
                "api/journal/holdings",
                "index.html",
                "authority.pem",
                "api/people/door",
            }
        )
        {
            using var answer = await phone.GetAsync(new Uri(site, path), Cancel);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }

        using var posted = await phone.PostAsync(site, null, Cancel);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, posted.StatusCode);
        using var other = new HttpRequestMessage(HttpMethod.Get, site);
        other.Headers.Host = "elsewhere.example";
        using var refused = await phone.SendAsync(other, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);

        using var german = new HttpRequestMessage(HttpMethod.Get, site);
        german.Headers.AcceptLanguage.ParseAdd("de-AT, en;q=0.5");
        using var inGerman = await phone.SendAsync(german, Cancel);
        var words = await inGerman.Content.ReadAsStringAsync(Cancel);
        Assert.Contains("<html lang=\"de\">", words, StringComparison.Ordinal);
        Assert.Contains("1. Vergleichen", words, StringComparison.Ordinal);
        Assert.Contains("<html lang=\"en\">", page, StringComparison.Ordinal);
        Assert.Equal("Accept-Language", Assert.Single(inGerman.Headers.Vary));

        // Who trusts it already reads the same page over the protected way.
        var beside = await phone.GetStringAsync(new Uri($"{server.Address}/api/trust/"), Cancel);
        Assert.Contains(
            Fingerprint.Of(authority),
            beside.Replace("<wbr>", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.Contains("came over the protected way", beside, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_name_than_the_kept_one_is_refused_until_the_house_is_moved_on_purpose()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var port = StartedServer.FreePort();
        string[] moved = ["--open", $"broodtide.home.arpa:{port}", "--trust-port", "0"];
        await using (await StartedServer.Open(folder, "--open", $"shelf.local:{port}", "--trust-port", "0"))
        { }

        var (code, _, complained) = await StartedServer.Run(folder, moved);
        Assert.Equal(2, code);
        Assert.Contains(
            $"address move https://broodtide.home.arpa:{port}",
            complained,
            StringComparison.Ordinal
        );

        (code, _, _) = await StartedServer.Run(folder, "address", "move", $"broodtide.home.arpa:{port}");
        Assert.Equal(0, code);
        (code, _, complained) = await StartedServer.Run(folder, moved);
        Assert.Equal(2, code);
        Assert.Contains(
            "certificate new-authority broodtide.home.arpa",
            complained,
            StringComparison.Ordinal
        );

        (code, _, _) = await StartedServer.Run(folder, "certificate", "new-authority", "broodtide.home.arpa");
        Assert.Equal(0, code);
        await using var server = await StartedServer.Open(folder, moved);
        using var phone = StartedServer.Phone(folder);
        var told = await phone.GetFromJsonAsync(
            new Uri($"{server.Address}/api/house"),
            HouseToldJson.Default.HouseTold,
            Cancel
        );
        Assert.Equal([$"https://shelf.local:{port}"], told!.Former);
    }

    [Fact]
    public async Task A_port_that_is_taken_is_said()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        using var other = new System.Net.Sockets.TcpListener(IPAddress.IPv6Any, 0);
        other.Server.DualMode = true;
        other.Start();
        var port = ((IPEndPoint)other.LocalEndpoint).Port;

        var (code, _, complained) = await StartedServer.Run(folder, "--open", $"shelf.local:{port}");

        Assert.Equal(3, code);
        Assert.Contains("cannot listen there", complained, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_certificate_made_elsewhere_is_shown_and_one_for_another_name_refused()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
        var names = new HouseNames(["shelf.local"], []);
        using var authority = new CertificateFolder(folder.Folder).NewAuthority(
            names,
            SystemClock.Instance.GetCurrentInstant()
        );
        using var given = CertificateMaking.Server(
            authority,
            names,
            SystemClock.Instance.GetCurrentInstant()
        );
        await File.WriteAllTextAsync(folder.File("c.pem"), given.ExportCertificatePem(), Cancel);
        await File.WriteAllTextAsync(
            folder.File("k.pem"),
            given.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem(),
            Cancel
        );
        string[] files = ["--certificate", folder.File("c.pem"), "--certificate-key", folder.File("k.pem")];

        var (code, _, complained) = await StartedServer.Run(folder, ["--open", "else.local", .. files]);
        Assert.Equal(2, code);
        Assert.Contains("is not for else.local", complained, StringComparison.Ordinal);

        var port = StartedServer.FreePort();
        await using var server = await StartedServer.Open(
            folder,
            ["--open", $"shelf.local:{port}", .. files]
        );
        using var phone = StartedServer.Phone(folder);
        using var answer = await phone.GetAsync(new Uri($"{server.Address}/api/house"), Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.False(File.Exists(folder.File("certificates/server.pem")));
    }
}
