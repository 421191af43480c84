using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>What the tests of the benches do at every step.</summary>
internal static class BenchSteps
{
    public static async Task Sound(Opened opened, string step)
    {
        await opened.Settle();
        Assert.Empty((await Scan.Of(opened.Page)).Select(broken => $"{step} {broken}"));
        Assert.Empty(
            await opened.Page.EvaluateAsync<string[]>(
                """
                step => [...document.querySelectorAll('body *')]
                  .filter(it => it.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
                  .map(it => step + ' ' + it.outerHTML.slice(0, 120))
                """,
                step
            )
        );
    }

    public static ILocator Button(Opened opened, string name) =>
        opened.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    public static async Task Tap(Opened opened, int times)
    {
        for (var tap = 0; tap < times; tap++)
        {
            await opened.Page.Locator(".tap").ClickAsync();
        }
    }
}
