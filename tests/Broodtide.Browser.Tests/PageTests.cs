using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(LookingBrowser.Name)]
public sealed class PageTests(Browsing browsing)
{
    private static readonly string[] Conformance = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

    [Fact]
    public void Every_route_of_the_app_is_in_the_table_of_pages() =>
        Assert.Equal(
            PageTable.RoutesOfTheApp(),
            PageTable.Pages.Select(page => page.Route).Order(StringComparer.Ordinal)
        );

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task A_page_loads_by_its_address_the_keyboard_reaches_all_of_it_and_the_browser_has_no_complaint(
        PageUnderTest page
    )
    {
        var opened = await browsing.OpenOnAnEmptyPhone(page.Path);

        await Assertions
            .Expect(opened.Page.Locator("h1"))
            .ToHaveTextAsync(page.Title, new() { UseInnerText = false });
        await KeyboardWalk.Over(opened);
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task The_keyboard_reaches_everything_of_the_invented_house_in_its_order_and_shows_where_it_is(
        PageUnderTest page
    ) => await KeyboardWalk.Over(await browsing.Demo.At(page, "en"));

    [Theory]
    [MemberData(nameof(PageTable.InEveryLanguage), MemberType = typeof(PageTable))]
    public async Task A_page_of_the_invented_house_shows_all_its_text_and_passes_the_accessibility_scan_light_and_dark(
        PageUnderTest page,
        string language
    )
    {
        foreach (var ground in new[] { ColorScheme.Light, ColorScheme.Dark })
        {
            var opened = await browsing.Demo.At(page, language, ground);
            Assert.Equal(language, await opened.Page.Locator("html").GetAttributeAsync("lang"));

            // No sideways scrolling and nothing cut off on the smallest phone and at 200 percent text; the ground moves nothing.
            foreach (
                var (width, doubled) in ground is ColorScheme.Light
                    ? [(320, false), (320, true), (Browsing.PhoneWidth, true)]
                    : new[] { (Browsing.PhoneWidth, true) }
            )
            {
                await opened.Resize(width, doubled);
                await opened.Settle();
                Assert.Empty(await OverTheEdge(opened));
                Assert.Empty(await Clipped(opened));
            }

            // At its end, where the bar of places stands after what it covers on the way there.
            await opened.Page.EvaluateAsync("() => scrollTo(0, document.documentElement.scrollHeight)");
            var found = await opened.Page.RunAxe(
                new AxeRunOptions
                {
                    RunOnly = new() { Type = "tag", Values = [.. Conformance] },
                }
            );
            Assert.Empty(found.Violations.Select(Described));
            // The rules were run: a scan of nothing finds nothing.
            Assert.True(found.Passes.Length > 8, $"{found.Passes.Length} rules passed.");
        }
    }

    private static Task<string[]> OverTheEdge(Opened opened) =>
        opened.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('body *')]
              .filter(it => it.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
              .filter(it => it.closest('.sr') === null && it.checkVisibility())
              .map(it => Math.round(it.getBoundingClientRect().right) + ' ' + it.outerHTML.slice(0, 160))
            """
        );

    // Text that its own box cuts off: what is read to a person only is cut off on purpose.
    private static Task<string[]> Clipped(Opened opened) =>
        opened.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('body *')]
              .filter(it => it.closest('.sr, svg, select') === null && it.checkVisibility() && it.textContent.trim() !== '')
              .filter(it => getComputedStyle(it).overflow !== 'visible')
              .filter(it => it.scrollWidth > it.clientWidth + 1 || it.scrollHeight > it.clientHeight + 1)
              .filter(it => !['auto', 'scroll'].includes(getComputedStyle(it).overflowX))
              .map(it => it.outerHTML.slice(0, 160))
            """
        );

    private static string Described(AxeResultItem rule) =>
        $"{rule.Id}: {string.Join(" | ", rule.Nodes.Select(node => node.Html))}";
}
