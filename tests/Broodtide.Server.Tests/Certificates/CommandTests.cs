using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using Broodtide.Server.Certificates;
using Broodtide.Server.Tests.Kit;

namespace Broodtide.Server.Tests.Certificates;

/// <summary>The words of the command line about certificates, run as a person types them.</summary>
public sealed class CommandTests
{
    [Fact]
    public async Task Before_there_is_an_authority_that_is_said()
    {
        using var folder = new TemporaryFolder();

        var shown = await Typed.Run(folder, "certificate", "show");
        var json = await Typed.Run(folder, "certificate", "show", "--json");
        var renewed = await Typed.Run(folder, "certificate", "renew");

        Assert.Equal(0, shown.Code);
        Assert.Contains("no authority yet", shown.Said, StringComparison.Ordinal);
        Assert.Equal(
            JsonValueKind.Null,
            JsonDocument.Parse(json.Said).RootElement.GetProperty("authority").ValueKind
        );
        Assert.Equal(2, renewed.Code);
        Assert.Contains("no authority yet", renewed.Complained, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_authority_is_shown_with_its_fingerprint_and_written_out_without_its_key()
    {
        using var folder = new TemporaryFolder();
        var made = await Typed.Run(folder, "certificate", "new-authority", "shelf.local,10.0.0.7");
        using var authority = new CertificateFolder(folder.Folder).Authority()!;
        var fingerprint = Fingerprint.Of(authority);
        var exported = await Typed.Run(folder, "certificate", "export", folder.File("out.crt"));
        var text = await Typed.Run(folder, "certificate", "export", folder.File("out.pem"));
        var json = JsonDocument
            .Parse((await Typed.Run(folder, "certificate", "show", "--json")).Said)
            .RootElement;

        Assert.Equal(0, made.Code);
        Assert.Contains(fingerprint, made.Said, StringComparison.Ordinal);
        Assert.Equal(0, exported.Code);
        using var read = X509CertificateLoader.LoadCertificateFromFile(folder.File("out.crt"));
        Assert.Equal(authority.Thumbprint, read.Thumbprint);
        Assert.False(read.HasPrivateKey);
        Assert.Equal(0, text.Code);
        Assert.DoesNotContain(
            "PRIVATE",
            await File.ReadAllTextAsync(folder.File("out.pem"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        Assert.Equal(fingerprint, json.GetProperty("authority").GetProperty("sha256").GetString());
        Assert.Equal("shelf.local", json.GetProperty("authority").GetProperty("names")[0].GetString());
        Assert.DoesNotContain("KEY", json.GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_fingerprint_is_what_a_second_program_computes()
    {
        using var folder = new TemporaryFolder();
        await Typed.Run(folder, "certificate", "new-authority", "shelf.local");
        await Typed.Run(folder, "certificate", "export", folder.File("out.pem"));
        using var authority = new CertificateFolder(folder.Folder).Authority()!;

        var (_, said) = await Openssl.Run(
            "x509",
            "-in",
            folder.File("out.pem"),
            "-noout",
            "-fingerprint",
            "-sha256"
        );

        Assert.EndsWith("=" + Fingerprint.Of(authority), said.Trim(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Names_of_the_whole_internet_are_refused()
    {
        using var folder = new TemporaryFolder();

        var made = await Typed.Run(folder, "certificate", "new-authority", "203.0.113.9");

        Assert.Equal(2, made.Code);
        Assert.Contains("no address of the house", made.Complained, StringComparison.Ordinal);
        Assert.Null(new CertificateFolder(folder.Folder).Authority());
    }
}
