using Microsoft.Playwright;

namespace Broodtide.Benchmarks;

/// <summary>
/// A screen at the bench while the journal of ten years is still being read and worked out behind it: hands are in the water, and no
/// work may hold the page for longer than 50 ms.
/// </summary>
internal static class PhoneBench
{
    private static readonly string[] Screens = ["gather", "count", "stages"];

    /// <summary>Opens each screen right after a reload, and watches it until all is worked out and ten seconds beyond.</summary>
    public static async Task RunAsync(IPage page, int slowed)
    {
        foreach (var screen in Screens)
        {
            await page.ReloadAsync(new() { WaitUntil = WaitUntilState.Commit });
            await page.Locator("main.page h1").WaitForAsync();
            await page.EvaluateAsync(
                "path => { history.pushState(null, '', path); dispatchEvent(new PopStateEvent('popstate')); }",
                screen
            );
            await page.Locator("h1").First.WaitForAsync();
            var since = await page.EvaluateAsync<double>(
                "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))))"
            );
            // Reading ten years takes some ten seconds; slowed four times, four times as long.
            await Task.Delay(TimeSpan.FromSeconds(20 * slowed));
            PhonePace.Print(
                slowed,
                $"bench, {screen}: longest time the page was held",
                [await page.EvaluateAsync<double>("since => globalThis.pace.longest(since)", since)]
            );
            PhonePace.Print(
                slowed,
                $"bench, {screen}: times above 50 ms",
                [await page.EvaluateAsync<double>("since => globalThis.pace.long(since)", since)]
            );
        }
    }
}
