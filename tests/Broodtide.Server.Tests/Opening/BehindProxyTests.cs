using System.Net;
using System.Net.Http.Json;
using Broodtide.Server.Opening;
using Broodtide.Server.Tests.Kit;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using NodaTime;

namespace Broodtide.Server.Tests.Opening;

public sealed class BehindProxyTests
{
    private const string Public = "shrimps.example.org";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Only_HTTPS_under_the_public_name_reaches_the_house()
    {
        using var folder = new TemporaryFolder();
        StartedServer.AddOwner(folder);
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
        var behind = new Uri($"http://127.0.0.1:{port}");
        await using var secure = await SmallProxy.Start(behind, "https", Public);
        await using var open = await SmallProxy.Start(behind, "http", Public);
        await using var strange = await SmallProxy.Start(behind, "https", "elsewhere.example");
        using var phone = Client();

        var told = await phone.GetFromJsonAsync(
            new Uri(secure.Address, "/api/house"),
            HouseToldJson.Default.HouseTold,
            Cancel
        );
        Assert.Equal($"https://{Public}", told?.Address);
        using var page = await phone.GetAsync(new Uri(secure.Address, "/journal"), Cancel);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);

        using var sent = await phone.GetAsync(new Uri(open.Address, "/journal?x=1"), Cancel);
        Assert.Equal(HttpStatusCode.TemporaryRedirect, sent.StatusCode);
        Assert.Equal(new Uri($"https://{Public}/journal?x=1"), sent.Headers.Location);
        using var written = await phone.PostAsync(
            new Uri(open.Address, "/api/journal/take"),
            JsonContent.Create(""),
            Cancel
        );
        Assert.Equal(HttpStatusCode.Forbidden, written.StatusCode);

        using var elsewhere = await phone.GetAsync(new Uri(strange.Address, "/"), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, elsewhere.StatusCode);
        // A proxy that puts its target's name in place of the called one is told so by every answer.
        await using var renaming = await SmallProxy.Start(
            behind,
            "https",
            Public,
            ownHost: $"127.0.0.1:{port}"
        );
        using var renamed = await phone.GetAsync(new Uri(renaming.Address, "/journal"), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, renamed.StatusCode);
        // Straight to it, without a proxy: under its own name it is not HTTPS, under another it is nobody.
        using var named = new HttpRequestMessage(HttpMethod.Get, behind);
        named.Headers.Host = Public;
        using var straight = await phone.SendAsync(named, Cancel);
        Assert.Equal(HttpStatusCode.TemporaryRedirect, straight.StatusCode);
        using var nobody = await phone.GetAsync(behind, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, nobody.StatusCode);
    }

    [Theory]
    // The caller is who the known proxy saw, whatever the caller claims to be.
    [InlineData("127.0.0.1", "203.0.113.66", "192.0.2.50 https shrimps.example.org")]
    [InlineData("127.0.0.1,198.51.100.0/24", "203.0.113.66", "192.0.2.50 https shrimps.example.org")]
    // A second known proxy in front of it: its word is taken too, and no further.
    [InlineData(
        "127.0.0.1,192.0.2.50",
        "203.0.113.99, 203.0.113.66",
        "203.0.113.66 https shrimps.example.org"
    )]
    public async Task Who_calls_is_told_by_known_proxies_alone(string known, string claimed, string seen)
    {
        using var folder = new TemporaryFolder();
        await using var house = await Mirror(folder, known);
        await using var proxy = await SmallProxy.Start(house.Address, "https", Public);
        using var phone = Client();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(proxy.Address, "/who"));
        request.Headers.Add("X-Forwarded-For", claimed);

        using var answer = await phone.SendAsync(request, Cancel);

        Assert.Equal(seen, await answer.Content.ReadAsStringAsync(Cancel));
    }

    [Fact]
    public async Task From_an_unknown_address_no_word_is_taken()
    {
        using var folder = new TemporaryFolder();
        await using var house = await Mirror(folder, "192.0.2.1");
        using var phone = Client();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(house.Address, "/who"));
        request.Headers.Add("X-Forwarded-For", "203.0.113.66");
        request.Headers.Add("X-Forwarded-Proto", "https");
        request.Headers.Add("X-Forwarded-Host", Public);

        using var answer = await phone.SendAsync(request, Cancel);

        Assert.Equal(HttpStatusCode.TemporaryRedirect, answer.StatusCode);
    }

    // Only the door, and behind it a room that says who came in.
    private static async Task<Room> Mirror(TemporaryFolder folder, string proxies)
    {
        ServerOptions? asked = null;
        var parsed = CommandLine
            .For(
                (typed, _) =>
                {
                    asked = typed;
                    return Task.FromResult(0);
                }
            )
            .Parse([
                "--open",
                Public,
                "--behind-proxy",
                proxies,
                "--urls",
                "http://127.0.0.1:0",
                "--data",
                folder.Folder.FullName,
            ]);
        Assert.Empty(parsed.Errors);
        await parsed.InvokeAsync(cancellationToken: Cancel);
        var options = asked ?? throw new InvalidOperationException("Nothing was started.");
        var doorway = new Doorway(options.Opening!, options.DataFolder, SystemClock.Instance);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        doorway.Listen(builder, options);
        var app = builder.Build();
        doorway.Guard(app);
        app.MapGet(
            "/who",
            (HttpContext context) =>
                $"{context.Connection.RemoteIpAddress} {context.Request.Scheme} {context.Request.Host}"
        );
        await app.StartAsync(Cancel);
        return new(app);
    }

    private static HttpClient Client() =>
        new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false });

    private sealed class Room(WebApplication app) : IAsyncDisposable
    {
        public Uri Address => new(app.Urls.First());

        public ValueTask DisposeAsync() => app.DisposeAsync();
    }
}
