using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Bad days lived through on the phone of the invented house.</summary>
[Collection(WritingBrowser.Name)]
public sealed class BadDayTests(Browsing browsing)
{
    [Fact]
    public async Task A_power_cut_is_told_written_and_ended_with_the_server_gone_too()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        // The mains take the server with them.
        await server.Stop();
        await opened.GoTo("/bad-day?what=power");
        await Told(opened, "power");
        // Six deeds and two vessels or more: the hours are worked out in pieces, and are waited for.
        await opened.Page.Locator("[data-first] li").Nth(5).WaitForAsync();
        await opened.Page.Locator("table[data-vessel]").Nth(1).WaitForAsync();
        // What to do stands above the hours; while the answer is worked out anew there may be none for a moment.
        await opened.Page.WaitForFunctionAsync(
            """
            () => {
              const deeds = document.querySelector("[data-first]");
              const hours = document.querySelector("table[data-vessel]");
              return deeds && hours && deeds.getBoundingClientRect().top < hours.getBoundingClientRect().top;
            }
            """
        );

        await Button(opened, "Write: the mains are gone").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
        await opened.GoTo("/");
        await opened.Page.Locator("[data-action='mind-power-cut']").First.WaitForAsync();
        await opened.GoTo("/bad-day?what=power");
        await Told(opened, "power");
        await Button(opened, "Write: the mains are back").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
        await opened.GoTo("/");
        await opened.Page.Locator("[data-action='after-power-cut']").First.WaitForAsync();
        Assert.Equal(0, await opened.Page.Locator("[data-action='mind-power-cut']").CountAsync());
        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Dropped_eggs_are_weighed_and_the_list_asks_to_tend_them()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address + "/index");
        await opened
            .Page.Locator("main a.mini, main .row-link")
            .Filter(new() { HasText = "Brood 3" })
            .First.ClickAsync();
        await opened.Rest();
        await opened.GoTo("/write/dropped");
        await opened
            .Page.Locator("form.writing select")
            .First.SelectOptionAsync(new SelectOptionValue { Label = "Brood 3" });
        await opened
            .Page.Locator("form.writing select")
            .Nth(1)
            .SelectOptionAsync(new SelectOptionValue { Label = "Hatching box" });
        await Button(opened, "Write it down").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();

        await opened.GoTo("/");
        var tend = opened.Page.Locator("[data-action='tend-dropped-eggs']").First;
        await tend.WaitForAsync();
        await opened.GoTo("/index");
        await opened
            .Page.Locator("a[href^='brood/']")
            .Filter(new() { HasText = "Brood 3" })
            .First.ClickAsync();
        var eggs = opened.Page.Locator("table[data-eggs]");
        await eggs.WaitForAsync();
        Assert.Contains("%", await eggs.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Every_bad_day_comes_up_passes_the_scan_and_fits_at_twice_the_size(ColorScheme ground)
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EmulateMediaAsync(new() { ColorScheme = ground });
        await opened.Rest();
        foreach (var what in new[] { "heat", "power", "pump", "away", "sick" })
        {
            await opened.GoTo($"/bad-day?what={what}");
            await Told(opened, what);
            if (what is "heat")
            {
                await opened.Page.Locator("input[type=number]").First.FillAsync("34");
                await opened.Page.Locator("input[type=number]").First.BlurAsync();
                await opened.Page.Locator("table[data-vessel]").First.WaitForAsync();
            }

            await Passes(opened, what);
        }

        await opened.GoTo("/helper?days=2");
        await opened.Page.Locator(".helper-drawing").First.WaitForAsync();
        Assert.Equal(4, await opened.Page.Locator(".helper-drawing").CountAsync());
        Assert.Equal(2, await opened.Page.Locator(".leaf").CountAsync());
        await Passes(opened, "helper");
        Assert.Empty(opened.Complaints);
    }

    private static async Task Passes(Opened opened, string what)
    {
        Assert.Empty(await Scan.Of(opened.Page));
        await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = '200%'");
        await opened.Settle();
        Assert.True(
            await opened.Page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
            ),
            what
        );
        await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = ''");
    }

    private static Task Told(Opened opened, string what) =>
        opened.Page.Locator($"[data-told='{what}']").WaitForAsync();

    private static ILocator Button(Opened opened, string name) =>
        opened.Page.GetByRole(AriaRole.Button, new() { Name = name });
}
