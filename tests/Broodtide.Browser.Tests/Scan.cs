using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>The accessibility scan of a page as it stands: one line for each rule that it breaks.</summary>
internal static class Scan
{
    // All that is asked where nothing is chosen, and the size of targets beside it; it names no rule that is on trial.
    private const string All = """
        { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }
        """;

    private const string Colours = "{ type: 'rule', values: ['color-contrast', 'link-in-text-block'] }";

    private static readonly Lazy<string> Script = new(() => new BundledAxeScriptProvider().GetScript());

    /// <summary>What breaks any rule.</summary>
    public static async Task<IReadOnlyList<string>> Of(IPage page)
    {
        var found = await Run(page, All);
        // The rules were run: a scan of nothing finds nothing.
        Assert.True(found.Ran.Length > 8, $"{found.Ran.Length} rules were run.");
        return found.Broken;
    }

    /// <summary>What breaks the rules that look at colours: all that another ground can change.</summary>
    public static async Task<IReadOnlyList<string>> OfColours(IPage page)
    {
        var found = await Run(page, Colours);
        // There was text whose contrast could be told.
        Assert.Contains("color-contrast", found.Ran);
        return found.Broken;
    }

    // In the page itself: the package for it opens a second page with every scan, where frames are put together, and
    // the app has none. Of what is in order one element is told: all of them are most of the time of a scan.
    private static async Task<Found> Run(IPage page, string rules)
    {
        if (!await page.EvaluateAsync<bool>("() => 'axe' in globalThis"))
        {
            await page.EvaluateAsync(Script.Value);
        }

        return await page.EvaluateAsync<Found>(
            $$"""
            async () => {
              if (document.querySelector('iframe, frame')) throw new Error('There is a frame to scan.');
              const found = await axe.run(document, { runOnly: {{rules}}, resultTypes: ['violations'] });
              return {
                ran: [...found.passes, ...found.violations].map(rule => rule.id),
                broken: found.violations.map(rule =>
                  `${location.pathname}${location.search} ${rule.id}: ${rule.nodes.map(node => node.html).join(' | ')}`),
              };
            }
            """
        );
    }

    private sealed class Found
    {
        public string[] Ran { get; set; } = [];

        public string[] Broken { get; set; } = [];
    }
}
