using System.Net;
using System.Net.Http.Json;
using Broodtide.Server.People;
using Broodtide.Server.Tests.Kit;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.Opening;

/// <summary>Cookies of a house whose HTTPS is held by a proxy: as safe as if the server held it.</summary>
public sealed class SignInThroughProxyTests
{
    private const string Public = "shrimps.example.org";
    private const string Passphrase = "seven pale shrimps at night";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_cookies_of_a_sign_in_are_bound_to_HTTPS_and_to_the_host()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder, new Passphrases().Hash(Passphrase));
        var port = StartedServer.FreePort();
        await using var server = await StartedServer.Open(
            folder,
            "--open",
            Public,
            "--behind-proxy",
            "127.0.0.1",
            "--urls",
            $"http://127.0.0.1:{port}"
        );
        await using var proxy = await SmallProxy.Start(new Uri($"http://127.0.0.1:{port}"), "https", Public);
        using var phone = new HttpClient(
            new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }
        );

        using var asked = await phone.GetAsync(new Uri(proxy.Address, "/" + PeopleAddresses.Token), Cancel);
        var word = await asked.Content.ReadFromJsonAsync(PeopleJson.Default.TokenSeen, Cancel);
        var page = Assert.Single(asked.Headers.GetValues("Set-Cookie"));
        using var request = new HttpRequestMessage(
            HttpMethod.Post,
            new Uri(proxy.Address, "/" + PeopleAddresses.SignIn)
        )
        {
            Content = JsonContent.Create(new SignInAsked("Ana", Passphrase), PeopleJson.Default.SignInAsked),
        };
        await request.Content.LoadIntoBufferAsync(Cancel);
        request.Headers.Add(PeopleAddresses.TokenHeader, word!.Token);
        request.Headers.Add("Cookie", page.Split(';')[0]);
        using var signedIn = await phone.SendAsync(request, Cancel);

        Assert.True(
            signedIn.StatusCode is HttpStatusCode.OK or HttpStatusCode.NoContent,
            await signedIn.Content.ReadAsStringAsync(Cancel)
        );
        string[] cookies = [page, .. signedIn.Headers.GetValues("Set-Cookie")];
        Assert.True(cookies.Length >= 2);
        foreach (var cookie in cookies)
        {
            Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal);
            Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
        }
    }
}
