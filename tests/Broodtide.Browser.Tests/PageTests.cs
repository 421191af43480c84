using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(OneBrowser.Name)]
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
    public async Task A_page_loads_by_its_address_and_the_browser_has_no_complaint(PageUnderTest page)
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + page.Path);

        await Expect(opened, page);
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task A_page_passes_the_accessibility_scan_at_200_percent_text_light_and_dark(
        PageUnderTest page
    )
    {
        var server = await browsing.Server();
        foreach (var ground in new[] { ColorScheme.Light, ColorScheme.Dark })
        {
            await using var phone = await browsing.NewPhone(ground);
            var opened = await Opened.At(phone, server.Address + page.Path);
            await Expect(opened, page);
            await DoubleText(opened);

            var found = await opened.Page.RunAxe();
            Assert.Empty(found.Violations.Select(Described));
        }
    }

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task A_page_needs_no_sideways_scrolling_at_320_pixels_or_at_200_percent_text(
        PageUnderTest page
    )
    {
        var server = await browsing.Server();
        foreach (var (width, large) in new[] { (320, false), (Browsing.PhoneWidth, true) })
        {
            await using var phone = await browsing.NewPhone(width: width);
            var opened = await Opened.At(phone, server.Address + page.Path);
            await Expect(opened, page);
            if (large)
            {
                await DoubleText(opened);
            }

            Assert.Empty(
                await opened.Page.EvaluateAsync<string[]>(
                    """
                    () => [...document.querySelectorAll('body *')]
                      .filter(it => it.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5)
                      .map(it => it.outerHTML.slice(0, 120))
                    """
                )
            );
        }
    }

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task The_keyboard_reaches_everything_that_can_be_touched_and_shows_where_it_is(
        PageUnderTest page
    )
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + page.Path);
        await Expect(opened, page);
        // A page that draws itself anew while the keyboard walks over it is walked over again.
        for (var walk = 0; ; walk++)
        {
            var stops = await MarkStops(opened);
            Assert.True(stops > 0);
            var reached = new HashSet<string>();
            for (var press = 0; press < stops + 3; press++)
            {
                await opened.Page.Keyboard.PressAsync("Tab");
                var (stop, isShown) = await Focused(opened);
                if (stop is not null)
                {
                    Assert.True(isShown, $"The focus does not show at stop {stop}.");
                    reached.Add(stop);
                }
            }

            if (walk == 2 || await opened.Page.Locator("[data-stop]").CountAsync() == stops)
            {
                Assert.Equal(stops, reached.Count);
                return;
            }
        }
    }

    private static async Task<int> MarkStops(Opened opened)
    {
        await opened.Page.EvaluateAsync(
            """
            () => {
              // A group of radio buttons is one stop; arrows move inside it.
              const stops = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
                .filter(it => !it.disabled && it.checkVisibility())
                .filter(it => it.type !== 'radio' || it.checked);
              stops.forEach((it, index) => it.dataset.stop = index);
              document.activeElement?.blur();
            }
            """
        );
        return await opened.Page.Locator("[data-stop]").CountAsync();
    }

    private static async Task<(string? Stop, bool IsShown)> Focused(Opened opened)
    {
        var told = await opened.Page.EvaluateAsync<string?>(
            """
            () => {
              const it = document.activeElement;
              if (!it?.dataset.stop) return null;
              const drawn = it.type === 'radio' ? it.closest('label') : it;
              return it.dataset.stop + ' ' + (getComputedStyle(drawn).outlineStyle === 'solid');
            }
            """
        );
        var parts = told?.Split(' ');
        return (parts?[0], parts?[1] == "true");
    }

    private static Task Expect(Opened opened, PageUnderTest page) =>
        Assertions
            .Expect(opened.Page.Locator("h1"))
            .ToHaveTextAsync(page.Title, new() { UseInnerText = false });

    private static async Task DoubleText(Opened opened)
    {
        await opened.Page.EvaluateAsync("() => { document.documentElement.style.fontSize = '200%'; }");
        await opened.Settle();
    }

    private static string Described(AxeResultItem rule) =>
        $"{rule.Id}: {string.Join(" | ", rule.Nodes.Select(node => node.Html))}";
}
