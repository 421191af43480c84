using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(LookingBrowser.Name)]
public sealed class PageTests(Browsing browsing)
{
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
        var opened = await browsing.Demo.At(page, language);
        Assert.Equal(language, await opened.Page.Locator("html").GetAttributeAsync("lang"));
        await Holds(opened);
    }

    [Theory]
    [InlineData("/write?choose=vessel")]
    [InlineData("/write/reading")]
    [InlineData("/write/counted")]
    [InlineData("/write/staged")]
    [InlineData("/write/crossed")]
    [InlineData("/write/eggs")]
    [InlineData("/write/disinfected")]
    [InlineData("/write/acquired")]
    public async Task A_form_to_write_on_shows_all_its_text_and_passes_the_accessibility_scan_light_and_dark(
        string path
    ) => await Holds(await browsing.Demo.At(path, "en"));

    [Fact]
    public async Task Every_other_run_vessel_and_brood_shows_all_its_text_and_passes_the_accessibility_scan_light_and_dark()
    {
        // What is carried, at sea, ended and lost shows differently; the first of each kind is in the table of pages.
        var opened = await browsing.Demo.At("/index", "en");
        foreach (var kind in new[] { "run", "vessel", "brood" })
        {
            var others = await opened
                .Page.Locator($"main a[href^='{kind}/']")
                .EvaluateAllAsync<string[]>("links => links.map(link => '/' + link.getAttribute('href'))");
            Assert.True(others.Length > 2, kind);
            foreach (var path in others.Skip(1))
            {
                await Holds(await browsing.Demo.At(path, "en"));
            }

            await browsing.Demo.At("/index", "en");
        }
    }

    // As it comes up, and with what it folds in unfolded.
    private static async Task Holds(Opened opened)
    {
        await HoldsAsItStands(opened);
        if (await Unfold(opened))
        {
            await HoldsAsItStands(opened);
        }
    }

    private static async Task HoldsAsItStands(Opened opened)
    {
        // No sideways scrolling and nothing cut off on the smallest phone and at 200 percent text; the ground moves nothing.
        foreach (var (width, doubled) in new[] { (320, false), (320, true), (Browsing.PhoneWidth, true) })
        {
            await opened.Resize(width, doubled);
            await opened.Settle();
            Assert.Empty(await OverTheEdge(opened));
            Assert.Empty(await Clipped(opened));
        }

        // At its end, where the bar of places stands after what it covers on the way there.
        await opened.Page.EvaluateAsync("() => scrollTo(0, document.documentElement.scrollHeight)");
        Assert.Empty(await Scan.Of(opened.Page));
        await opened.Ground(ColorScheme.Dark);
        Assert.Empty(await Scan.OfColours(opened.Page));
        // Text of twice the size counts as large and may be paler: at its own size more is asked of it.
        await opened.Resize(Browsing.PhoneWidth, doubled: false);
        Assert.Empty(await Scan.OfColours(opened.Page));
        await opened.Ground(ColorScheme.Light);
        Assert.Empty(await Scan.OfColours(opened.Page));
    }

    // Whether anything was folded in. Of several figures one at a time is told how it is known.
    private static async Task<bool> Unfold(Opened opened)
    {
        var unfolded = await opened.Page.EvaluateAsync<int>(
            """
            () => {
              const told = [...document.querySelectorAll('main .act .open[aria-expanded=false], main button.ask[aria-expanded=false]')];
              const more = [...document.querySelectorAll('main details:not([open])')];
              for (const it of told) it.click();
              for (const it of more) it.open = true;
              return told.length + more.length;
            }
            """
        );
        await opened.Settle();
        return unfolded > 0;
    }

    private static Task<string[]> OverTheEdge(Opened opened) =>
        opened.Page.EvaluateAsync<string[]>(
            """
            () => {
              const edge = document.documentElement.clientWidth;
              const width = document.documentElement.scrollWidth;
              return [...document.querySelectorAll('body *')]
                .filter(it => it.getBoundingClientRect().right > edge + 0.5)
                .filter(it => it.closest('.sr') === null && it.checkVisibility())
                .map(it => Math.round(it.getBoundingClientRect().right) + ' ' + it.outerHTML.slice(0, 160))
                .concat(width > edge ? ['all of it ' + width] : []);
            }
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
}
