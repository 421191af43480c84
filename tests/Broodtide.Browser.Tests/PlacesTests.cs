using System.Globalization;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>Due, runs, vessels and broods of the invented house, in the published app.</summary>
[Collection(LookingBrowser.Name)]
public sealed class PlacesTests(Browsing browsing)
{
    private static readonly string[] Paths = ["/", "/index", "/run"];

    [Fact]
    public async Task What_is_due_marks_exactly_one_as_next()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);

        Assert.Equal(1, await opened.Page.Locator(".act.first").CountAsync());
        Assert.Equal(1, await opened.Page.Locator("main .key").CountAsync());
        Assert.True(await opened.Page.Locator(".act").CountAsync() > 3);
        Assert.Equal(2, await opened.Page.Locator(".mini").CountAsync());
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task An_action_put_off_is_written_gone_and_can_be_had_back()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        var next = opened.Page.Locator(".act.first .do");
        var before = await next.InnerTextAsync();

        await opened.Page.Locator(".act.first .keys .key-2").ClickAsync();
        await opened
            .Page.Locator(".act.first .row-link", new() { HasText = "Put off three hours" })
            .ClickAsync();
        await Assertions.Expect(next).Not.ToHaveTextAsync(before);
        await opened.Page.Locator(".saved button").ClickAsync();
        await Assertions.Expect(next).ToHaveTextAsync(before);
    }

    [Fact]
    public async Task A_pour_by_the_key_of_due_stands_in_the_ledger_of_the_jar_and_lowers_it()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        var next = opened.Page.Locator(".act.first .do");
        await Assertions.Expect(next).ToContainTextAsync("Top up Jar A");

        await opened.Page.Locator(".act.first .key").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".saved")).ToContainTextAsync("Written: poured");
        await opened.Rest();
        await GoToNamed(opened, "Jar A");

        var first = opened.Page.Locator(".led tbody tr").First;
        await Assertions.Expect(first).ToContainTextAsync("Topped up");
        var lines = await opened
            .Page.Locator(".led tbody tr:has(td:nth-child(3):not(:empty)) td:nth-child(4)")
            .AllInnerTextsAsync();
        Assert.True(
            double.Parse(lines[0], CultureInfo.InvariantCulture) < 33.5
                && double.Parse(lines[0], CultureInfo.InvariantCulture) > 25,
            lines[0]
        );
    }

    [Fact]
    public async Task A_run_draws_its_tide_line_and_tells_it_in_words()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        await opened.GoTo("/run");

        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Brood 2");
        Assert.True(await opened.Page.Locator("figure.tide svg .pic-line").CountAsync() > 0);
        Assert.True(await opened.Page.Locator("figure.tide .tide-words li").CountAsync() > 5);
        // 62, 118 and 71 crossed.
        await Assertions.Expect(opened.Page.Locator(".q.read")).ToHaveTextAsync("251");
    }

    [Fact]
    public async Task A_vessel_shows_its_ledger_and_how_its_figures_are_known()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        await GoToNamed(opened, "Jar A");

        Assert.True(await opened.Page.Locator(".led tbody tr").CountAsync() >= 5);
        Assert.Equal(1, await opened.Page.Locator("figure svg.pic").CountAsync());
        var salinity = opened.Page.Locator(".ask.first");
        var shown = double.Parse(
            (await salinity.Locator(".q").EvaluateAsync<string>("it => it.firstChild.textContent")).Trim(),
            CultureInfo.InvariantCulture
        );
        Assert.InRange(shown, 25, 36);
        await salinity.ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".how dd")).ToHaveCountAsync(5);
    }

    [Fact]
    public async Task A_carried_brood_shows_its_nights_its_risks_and_its_plan()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        await opened.GoTo("/");
        await opened.Page.Locator("a.picture").ClickAsync();

        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Brood 3");
        Assert.Equal(1, await opened.Page.Locator("section svg.pic").CountAsync());
        Assert.True(await opened.Page.Locator(".risks tbody tr").CountAsync() >= 3);
        Assert.True(await opened.Page.Locator(".plan .act").CountAsync() >= 3);
    }

    [Fact]
    public async Task With_the_server_gone_every_place_shows_the_same_numbers_and_asks_nobody()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        // The clock stands: what is compared is not moved by the minutes that the test takes.
        await phone.Clock.SetFixedTimeAsync(TimeProvider.System.GetUtcNow().AddMinutes(1).UtcDateTime);
        var opened = await OpenDemo(phone, server);
        List<string> paths = [.. Paths];
        await opened.GoTo("/index");
        paths.AddRange(
            await opened
                .Page.Locator("main a[href^='run/'], main a[href^='vessel/'], main a[href^='brood/']")
                .EvaluateAllAsync<string[]>("links => links.map(link => '/' + link.getAttribute('href'))")
        );
        Assert.True(paths.Count > 10);
        var before = new Dictionary<string, string>();
        foreach (var path in paths)
        {
            before[path] = await Text(opened, path);
        }

        await server.Stop();
        var requests = new List<string>();
        phone.Request += (_, request) => requests.Add(request.Url);
        foreach (var path in paths)
        {
            Assert.Equal(before[path], await Text(opened, path));
        }

        Assert.Empty(requests);
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task The_keyboard_writes_the_deed_and_takes_it_back()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start("--demo");
        var opened = await OpenDemo(phone, server);
        var rows = opened.Page.Locator(".act .open");
        await rows.First.FocusAsync();
        await opened.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(rows.First).ToHaveAttributeAsync("aria-expanded", "true");
        await opened.Page.Keyboard.PressAsync("Tab");
        await Assertions
            .Expect(opened.Page.Locator(".act:has(.open[aria-expanded=true]) .keys :focus"))
            .ToHaveCountAsync(1);
    }

    private static async Task<Opened> OpenDemo(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.Locator(".act.first").WaitForAsync(new() { Timeout = 120_000 });
        await opened.Rest();
        // All that was written is with the server too: nothing is left to tell it.
        await Assertions
            .Expect(opened.Page.Locator(".waiting"))
            .ToHaveCountAsync(0, new() { Timeout = 60_000 });
        await opened.Rest();
        return opened;
    }

    private static async Task GoToNamed(Opened opened, string name)
    {
        await opened.GoTo("/index");
        await opened.Page.Locator("main .row-link", new() { HasText = name }).First.ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync(name);
        await opened.Settle();
    }

    private static async Task<string> Text(Opened opened, string path)
    {
        await opened.GoTo(path);
        await Assertions.Expect(opened.Page.Locator("h1")).Not.ToHaveTextAsync("");
        await opened.Settle();
        await opened.Rest();
        return await opened.Page.Locator("main").InnerTextAsync();
    }
}
