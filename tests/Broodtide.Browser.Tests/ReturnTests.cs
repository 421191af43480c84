using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Settlement and the way back to fresh water, read on a phone of the invented house.</summary>
[Collection(WritingBrowser.Name)]
public sealed class ReturnTests(Browsing browsing)
{
    [Fact]
    public async Task Without_its_server_the_phone_says_what_to_look_for_and_holds_dilution_while_zoeae_swim()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await opened.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        await server.Stop();
        var requests = new List<string>();
        phone.Request += (_, request) => requests.Add(request.Url);

        await OpenReturnOfJarA(opened);

        // When, and what is seen: they are clear, and a lamp finds none.
        var watch = Section(opened, "When they settle");
        foreach (var row in new[] { "The first", "Half", "Nine in ten" })
        {
            await Assertions
                .Expect(watch.GetByRole(AriaRole.Row).Filter(new() { HasText = row }))
                .ToHaveCountAsync(1);
        }

        foreach (
            var said in new[]
            {
                "walks, head up",
                "clings to glass and bottom",
                "swims forward",
                "does not come to light",
                "Few seen is not many dead",
                "a lamp that finds none finds nothing out",
                "Nothing is given up or poured away before",
            }
        )
        {
            await Assertions.Expect(watch).ToContainTextAsync(said);
        }

        // Held, with its reason: no step to pour, and nothing to begin.
        var steps = Section(opened, "The vessel diluted in steps");
        await Assertions.Expect(steps.Locator(".mind .word")).ToHaveTextAsync("Wait");
        await Assertions
            .Expect(steps.Locator(".mind"))
            .ToContainTextAsync("have settled, and practice begins at");
        await Assertions.Expect(steps.Locator("table")).ToHaveCountAsync(0);
        await Assertions.Expect(Begin(steps)).ToBeDisabledAsync();
        Assert.NotEqual(
            0,
            await Section(opened, "Settled ones moved one by one").Locator("tbody tr").CountAsync()
        );

        // Whoever looked says so: a word alone opens nothing while none were ever seen settled, and the page says why.
        await opened.Page.GetByRole(AriaRole.Checkbox).CheckAsync();
        await Assertions
            .Expect(steps.Locator(".mind").First)
            .ToContainTextAsync("a look that finds none is not enough here");
        await Assertions.Expect(steps.Locator("table")).ToHaveCountAsync(0);
        await Assertions.Expect(Begin(steps)).ToBeDisabledAsync();
        await opened.Page.GetByRole(AriaRole.Checkbox).UncheckAsync();
        await Assertions.Expect(Begin(steps)).ToBeDisabledAsync();

        // What the phone itself wrote down, a forecast, it offers to the house once; the page asks for nothing.
        Assert.All(requests, url => Assert.Equal($"{server.Address}/api/journal/meet", url));
        Assert.DoesNotContain(opened.Complaints, said => !said.Contains("ERR_", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task The_page_passes_the_scan_fits_at_twice_the_size_and_is_walked_by_keyboard(
        ColorScheme ground
    )
    {
        await using var phone = await browsing.NewPhone(ground);
        await using var server = await RunningServer.Start("--demo");
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await OpenReturnOfJarA(opened);
        foreach (var isLooked in new[] { false, true })
        {
            await opened.Page.GetByRole(AriaRole.Checkbox).SetCheckedAsync(isLooked);
            await opened.Settle();
            Assert.Empty(await Scan.Of(opened.Page));
            await KeyboardWalk.Over(opened);
            await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = '200%'");
            await opened.Settle();
            Assert.True(
                await opened.Page.EvaluateAsync<bool>(
                    "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
                )
            );
            await opened.Page.EvaluateAsync("() => document.documentElement.style.fontSize = ''");
        }

        Assert.Empty(opened.Complaints);
    }

    // As a keeper goes: the index, the vessel, its larvae.
    private static async Task OpenReturnOfJarA(Opened opened)
    {
        await opened.GoTo("/index");
        await opened
            .Page.Locator("a[href^='vessel/']")
            .Filter(new() { HasText = "Jar A" })
            .First.ClickAsync();
        await opened.Page.Locator("a.row-link[href^='return/']").ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Settlement and return");
        await opened.Rest();
        await Section(opened, "The vessel diluted in steps").WaitForAsync();
    }

    private static ILocator Section(Opened opened, string title) =>
        opened
            .Page.Locator("main section")
            .Filter(new() { Has = opened.Page.GetByRole(AriaRole.Heading, new() { Name = title }) });

    private static ILocator Begin(ILocator steps) =>
        steps.GetByRole(AriaRole.Button, new() { Name = "The first change is made" });
}
