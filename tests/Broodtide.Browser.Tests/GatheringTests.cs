using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>When to gather tonight, on the page of a brood that hatches, in the published app.</summary>
[Collection(QuietBrowser.Name)]
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
        // The longest time between two frames until the answer stands there, and how long it took.
        var times = await ask.EvaluateAsync<double[]>(
            """
            it => new Promise(done => {
              const from = performance.now();
              let last = from, longest = 0;
              const look = now => {
                longest = Math.max(longest, now - last);
                last = now;
                if (document.querySelector('section.gather tbody tr')) done([longest, performance.now() - from]);
                else requestAnimationFrame(look);
              };
              it.click();
              requestAnimationFrame(look);
            })
            """
        );
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"longest frame {times[0]:F0} ms of {times[1]:F0} ms"
        );

        await Assertions
            .Expect(opened.Page.Locator("section.gather tbody tr").First)
            .ToContainTextAsync("skipping it costs about");
        Assert.Empty(await Scan.Of(opened.Page));
        Assert.Empty(opened.Complaints);
    }
}
