using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>When to gather tonight, on the page of a brood that hatches, in the published app.</summary>
[Collection(OneBrowser.Name)]
public sealed class GatheringTests(Browsing browsing)
{
    [Fact]
    public async Task A_brood_that_hatches_says_when_to_gather_and_what_skipping_costs()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.Locator(".act.first").WaitForAsync(new() { Timeout = 120_000 });
        await opened.Rest();
        await opened.GoTo("/");
        await opened.Page.Locator("a.picture").ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Brood 3");
        await Assertions.Expect(opened.Page.Locator("section.gather")).ToHaveCountAsync(0);

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "see larvae" }).ClickAsync();
        var ask = opened.Page.Locator("section.gather .row-link");
        await ask.WaitForAsync(new() { Timeout = 60_000 });
        await opened.Rest();
        // How long the page is held: the answer stands in the document when the click has been handled.
        var held = await ask.EvaluateAsync<double>(
            "it => { const from = performance.now(); it.click(); return performance.now() - from; }"
        );
        TestContext.Current.TestOutputHelper?.WriteLine($"held {held:F0} ms");

        await Assertions
            .Expect(opened.Page.Locator("section.gather tbody tr").First)
            .ToContainTextAsync("skipping it costs about");
        Assert.Empty((await opened.Page.RunAxe()).Violations.Select(violation => violation.Id));
        Assert.Empty(opened.Complaints);
    }
}
