using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Deque.AxeCore.Playwright;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A phone in the house's network: a name instead of this machine, the house's own certificate, no switch that forgives.</summary>
[Collection(WritingBrowser.Name)]
public sealed class HttpsTests
{
    [Fact]
    public async Task A_phone_that_trusts_the_house_has_the_app_for_days_without_a_network()
    {
        await using var house = await OpenHouse.Prepare();
        await house.StartServer();
        await using var phone = await house.Phone(trusts: true);

        var opened = await Opened.At(phone, house.Origin);
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        Assert.True(await opened.Page.EvaluateAsync<bool>("() => isSecureContext"));
        Assert.True(
            await opened.Page.EvaluateAsync<bool>(
                "() => typeof crypto.randomUUID === 'function' && 'wakeLock' in navigator && 'mediaDevices' in navigator"
            )
        );
        Assert.Equal(
            "activated",
            await opened.Page.EvaluateAsync<string>(
                """
                async () => {
                  const worker = (await navigator.serviceWorker.ready).active;
                  while (worker.state !== 'activated') await new Promise(done => worker.addEventListener('statechange', done, { once: true }));
                  return worker.state;
                }
                """
            )
        );
        await house.StopServer();

        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator("nav.places")).ToBeVisibleAsync();
        await opened.Page.GotoAsync(house.Origin + "/figures");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("How to read it");
    }

    [Fact]
    public async Task A_phone_that_does_not_trust_it_is_warned()
    {
        await using var house = await OpenHouse.Prepare();
        await house.StartServer();
        await using var phone = await house.Phone(trusts: false);
        var page = await phone.NewPageAsync();

        var refused = await Assert.ThrowsAsync<PlaywrightException>(() => page.GotoAsync(house.Origin));

        Assert.Contains("ERR_CERT_AUTHORITY_INVALID", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_steals_the_key_of_the_house_can_vouch_for_no_name_outside_it()
    {
        await using var house = await OpenHouse.Prepare();
        var (inside, outside) = (
            await Impostor(house, OpenHouse.Name),
            await Impostor(house, OpenHouse.Elsewhere)
        );
        await using var phone = await house.Phone(trusts: true);
        var page = await phone.NewPageAsync();

        var answer = await page.GotoAsync(At(OpenHouse.Name, inside));
        Assert.Equal(200, answer?.Status);
        var refused = await Assert.ThrowsAsync<PlaywrightException>(() =>
            page.GotoAsync(At(OpenHouse.Elsewhere, outside))
        );
        Assert.Contains("ERR_CERT", refused.Message, StringComparison.Ordinal);
        await inside.DisposeAsync();
        await outside.DisposeAsync();
    }

    [Fact]
    public async Task The_page_of_trust_can_be_read_by_everybody()
    {
        await using var house = await OpenHouse.Prepare();
        await house.StartServer();
        await using var phone = await house.Phone(trusts: false, bypassPolicy: true);
        var page = await phone.NewPageAsync();
        await page.GotoAsync(house.TrustPage);

        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Trust this house's server");
        await Assertions.Expect(page.Locator("img")).ToBeVisibleAsync();
        Assert.True(
            await page.Locator("img").EvaluateAsync<bool>("it => it.complete && it.naturalWidth > 0")
        );
        await page.EvaluateAsync("() => { document.documentElement.style.fontSize = '200%'; }");
        Assert.Empty((await page.RunAxe()).Violations);
        Assert.True(
            await page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
            )
        );
    }

    [Fact]
    public async Task The_app_says_when_it_was_opened_under_another_name_and_after_a_move_where_the_old_store_is()
    {
        await using var house = await OpenHouse.Prepare();
        await house.StartServer();
        await using var phone = await house.Phone(trusts: true);
        var other = await Opened.At(
            phone,
            house.Origin.Replace(OpenHouse.Name, OpenHouse.OtherName, StringComparison.Ordinal)
        );
        await Assertions
            .Expect(other.Page.Locator(".house-notice"))
            .ToContainTextAsync("not the address of the house");
        await Assertions
            .Expect(other.Page.Locator(".house-notice a"))
            .ToHaveAttributeAsync("href", house.Origin);
        await house.StopServer();

        // It had an address before the one of now.
        await house.Command("address", "move", "former.home.arpa");
        await house.Command("address", "move", OpenHouse.Name);
        await house.StartServer();
        var moved = await Opened.At(phone, house.Origin);
        var notice = moved.Page.Locator(".house-notice");
        await Assertions.Expect(notice).ToContainTextAsync("has moved to this address");
        await Assertions
            .Expect(notice.Locator("a").First)
            .ToHaveAttributeAsync(
                "href",
                house.Origin.Replace(OpenHouse.Name, "former.home.arpa", StringComparison.Ordinal)
            );
        await moved.Rest();
        var trouble = await moved.Page.RunAxe();
        Assert.Empty(trouble.Violations.Select(rule => rule.Id));

        await notice.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(notice).ToHaveCountAsync(0);
        await moved.Page.ReloadAsync();
        await moved.Rest();
        await Assertions.Expect(notice).ToHaveCountAsync(0);
    }

    private static string At(string name, WebApplication server) =>
        string.Create(CultureInfo.InvariantCulture, $"https://{name}:{new Uri(server.Urls.First()).Port}/");

    // A server of somebody who copied the authority's key, for a name of that person's choice.
    private static async Task<WebApplication> Impostor(OpenHouse house, string name)
    {
        var text = await File.ReadAllTextAsync(Path.Combine(house.Data, "certificates", "authority.pem"));
        using var authority = X509Certificate2.CreateFromPem(text, text);
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=Impostor server", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(
            new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], critical: false)
        );
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName(name);
        request.CertificateExtensions.Add(names.Build());
        var from = new DateTimeOffset(authority.NotBefore.ToUniversalTime());
        using var bare = request.Create(
            authority,
            from,
            from.AddDays(90),
            [1, .. RandomNumberGenerator.GetBytes(7)]
        );
        var certificate = bare.CopyWithPrivateKey(key);

        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.UseHttps(certificate))
        );
        var app = builder.Build();
        app.MapGet("/", () => "In.");
        await app.StartAsync();
        return app;
    }
}
