using System.Diagnostics;
using System.Net;

namespace Broodtide.Browser.Tests;

/// <summary>The published server, asked without a browser.</summary>
public sealed class ServerTests
{
    [Theory]
    [InlineData("http://0.0.0.0:0", "can be reached from outside")]
    [InlineData("http://192.0.2.7:5087", "can be reached from outside")]
    [InlineData("https://127.0.0.1:5087", "is not an address")]
    [InlineData("five", "is not an address")]
    public async Task It_listens_on_this_machine_only(string address, string reason)
    {
        using var process =
            Process.Start(
                new ProcessStartInfo(
                    "dotnet",
                    [Path.Combine(await PublishedSite.GetFolder(), "Broodtide.Server.dll"), "--urls", address]
                )
                {
                    UseShellExecute = false,
                    RedirectStandardError = true,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The server did not start.");
        _ = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var said = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);

        Assert.Equal(2, process.ExitCode);
        Assert.Contains(reason, said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_answer_says_what_the_browser_may_do()
    {
        await using var server = await RunningServer.Start();
        using var client = new HttpClient { BaseAddress = new Uri(server.Address) };

        foreach (var path in new[] { "/", "/journal", "/css/app.css", "/_framework/dotnet.js", "/api/none" })
        {
            using var answer = await client.GetAsync(
                new Uri(path, UriKind.Relative),
                TestContext.Current.CancellationToken
            );
            var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("script-src 'self' 'wasm-unsafe-eval';", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe-inline", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        }
    }

    [Fact]
    public async Task Files_come_packed_and_pages_are_asked_for_anew()
    {
        await using var server = await RunningServer.Start();
        using var client = new HttpClient { BaseAddress = new Uri(server.Address) };
        client.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");

        using var runtime = await client.GetAsync(
            new Uri("/_framework/dotnet.native.wasm", UriKind.Relative),
            TestContext.Current.CancellationToken
        );
        Assert.Equal("br", Assert.Single(runtime.Content.Headers.ContentEncoding));
        using var page = await client.GetAsync(
            new Uri("/run", UriKind.Relative),
            TestContext.Current.CancellationToken
        );
        Assert.True(page.Headers.CacheControl?.NoCache);
    }

    [Fact]
    public async Task A_name_that_is_not_this_machine_is_turned_away()
    {
        await using var server = await RunningServer.Start();
        using var client = new HttpClient { BaseAddress = new Uri(server.Address) };
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/", UriKind.Relative));
        request.Headers.Host = "elsewhere.example";

        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }
}
