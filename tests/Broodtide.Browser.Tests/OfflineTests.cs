using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(WritingBrowser.Name)]
public sealed class OfflineTests(Browsing browsing)
{
    [Fact]
    public async Task Once_loaded_every_page_answers_without_the_server_and_without_a_request()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        await opened.Rest();
        await server.Stop();
        var requests = new List<string>();
        phone.Request += (_, request) => requests.Add(request.Url);

        foreach (var page in PageTable.Pages.Where(page => !page.IsAboutTheServer))
        {
            await opened.GoTo(page.Path);
            await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync(page.Title);
        }

        Assert.Empty(requests);
        // Something may have been asked, or an answer been on its way, while the server stopped; that nothing was asked after
        // it is told above.
        Assert.DoesNotContain(
            opened.Complaints,
            complaint =>
                !complaint.Contains("ERR_CONNECTION_RESET", StringComparison.Ordinal)
                && !complaint.Contains("ERR_CONNECTION_REFUSED", StringComparison.Ordinal)
        );
        foreach (var page in PageTable.Pages.Where(page => page.IsAboutTheServer))
        {
            await opened.GoTo(page.Path);
            await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync(page.Title);
        }
    }

    [Fact]
    public async Task With_the_server_gone_the_app_opens_again_from_the_copy_on_the_phone()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await server.Stop();

        await opened.Page.GotoAsync(server.Address + "/figures");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("How to read it");
        Assert.Equal(
            "italic",
            await opened
                .Page.Locator(".q.figure")
                .EvaluateAsync<string>(
                    "it => document.fonts.check('italic 500 46px \"Broodtide Sans\"') && getComputedStyle(it).fontStyle"
                )
        );
    }
}
