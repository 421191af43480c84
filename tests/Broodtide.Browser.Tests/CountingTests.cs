using Microsoft.Playwright;
using static Broodtide.Browser.Tests.BenchSteps;

namespace Broodtide.Browser.Tests;

/// <summary>Larvae counted and staged by tapping on a phone, over a reload, until the entries stand in the journal.</summary>
[Collection(WritingBrowser.Name)]
public sealed class CountingTests(Browsing browsing)
{
    [Fact]
    public async Task Samples_are_tapped_survive_a_reload_and_are_written_only_when_the_keeper_says_so()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithJar(phone, server);
        await opened.GoTo("/write");
        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "Count by tapping" }).ClickAsync();
        await opened.Page.GetByLabel("One sample holds", new() { Exact = true }).FillAsync("250");
        await Button(opened, "Start counting").ClickAsync();
        await Tap(opened, 3);
        await Button(opened, "Next sample").ClickAsync();
        await Button(opened, "None in it").ClickAsync();
        await Button(opened, "Next sample").ClickAsync();
        await Tap(opened, 2);

        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("2");
        await Tap(opened, 2);
        await Button(opened, "One less").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".samples-row b")).ToHaveTextAsync(["3", "0", "3"]);
        await Assertions.Expect(opened.Page.Locator(".sums")).ToContainTextAsync("6 in 750");

        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.GetByText("Counted in Jar T")).ToHaveCountAsync(0);
        await opened.GoTo("/count");
        await Button(opened, "Finish").ClickAsync();
        await Button(opened, "Write it").ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("Count in Jar T written: 3, 0, 3.")).ToBeVisibleAsync();

        await opened.GoTo("/journal");
        await Assertions
            .Expect(opened.Page.GetByText("Counted in Jar T").First)
            .ToContainTextAsync("3 in 250\u202fmL, 0 in 250\u202fmL, 3 in 250\u202fmL");
        // Nothing is left on the bench, and the cup is remembered.
        await opened.GoTo("/count");
        await Assertions
            .Expect(opened.Page.GetByLabel("One sample holds", new() { Exact = true }))
            .ToHaveValueAsync("250");
    }

    [Fact]
    public async Task A_count_of_another_vessel_is_not_lost_and_not_written_by_mistake()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithJar(phone, server);
        await opened.GoTo("/count");
        await opened.Page.GetByLabel("every one", new() { Exact = true }).CheckAsync();
        await Button(opened, "Start counting").ClickAsync();
        await Tap(opened, 2);

        await opened.Page.GotoAsync(server.Address + "/count?vessel=00000000-0000-7000-8000-00000000fffe");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Not written yet");
        await Button(opened, "Throw this count away, unwritten").ClickAsync();
        await Assertions.Expect(Button(opened, "Yes, throw away: 2")).ToBeVisibleAsync();
        await Button(opened, "Go on with it").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("2");
    }

    [Fact]
    public async Task Larvae_are_staged_by_the_drawn_key_written_and_taken_back()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithJar(phone, server);
        await opened.GoTo("/stages");
        foreach (var key in new[] { 3, 3, 4, 10 })
        {
            await opened.Page.Locator(".stage-key").Nth(key).ClickAsync();
        }

        await opened.Page.ReloadAsync();
        await Assertions
            .Expect(opened.Page.Locator(".stage-key.some .tally"))
            .ToHaveTextAsync(["2", "1", "1"]);
        // The journal is open once the vessel has its name.
        await Assertions.Expect(opened.Page.Locator(".bench-top")).ToContainTextAsync("From Jar T");
        await Button(opened, "Finish: 3 larvae").ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("1 larva was between two stages")).ToBeVisibleAsync();
        await Button(opened, "Write it").ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByText("Stage sample from Jar T written: 2 in Z4, 1 in Z5."))
            .ToBeVisibleAsync();
        await Button(opened, "Undo").ClickAsync();

        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Write the stage sample");
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.GetByText("Taken back").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Counting_works_by_keyboard_alone()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithJar(phone, server);
        await opened.GoTo("/count");
        await opened.Page.GetByLabel("every one", new() { Exact = true }).CheckAsync();
        await Button(opened, "Start counting").PressAsync("Enter");
        await Assertions
            .Expect(opened.Page.Locator(".bench-top p").First)
            .ToHaveTextAsync("Jar T, every one");
        await opened.Page.Locator(".tap").FocusAsync();
        await opened.Page.Keyboard.PressAsync("Space");
        await opened.Page.Keyboard.PressAsync("Enter");
        await opened.Page.Keyboard.PressAsync("Space");
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("3");
        await opened.Page.Keyboard.PressAsync("Tab");
        await opened.Page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("2");
        await Assertions
            .Expect(opened.Page.Locator(".counting [role=status]"))
            .ToHaveTextAsync("2, every one");
        await Button(opened, "Finish").First.PressAsync("Enter");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Write the count");
        await Assertions.Expect(opened.Page.Locator("h1")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Every_step_passes_the_accessibility_scan_and_fits_at_200_percent_text()
    {
        foreach (var ground in new[] { ColorScheme.Light, ColorScheme.Dark })
        {
            await using var phone = await browsing.NewPhone(ground);
            await using var server = await RunningServer.Start();
            var opened = await WithJar(phone, server);
            await opened.GoTo("/count");
            await opened.Page.GetByLabel("One sample holds", new() { Exact = true }).FillAsync("250");
            await opened.Page.EvaluateAsync("() => { document.documentElement.style.fontSize = '200%'; }");
            await Sound(opened, "count");
            await Button(opened, "Start counting").ClickAsync();
            await Tap(opened, 3);
            await Button(opened, "Next sample").ClickAsync();
            await Tap(opened, 1);
            await Sound(opened, "tapping");
            await Button(opened, "Finish").ClickAsync();
            await opened.Page.Locator("summary").First.ClickAsync();
            await Sound(opened, "writing the count");
            await Button(opened, "Write it").ClickAsync();
            await opened.Page.Locator(".saved").WaitForAsync();
            await Sound(opened, "count written");

            await opened.GoTo("/stages");
            await opened.Page.Locator(".stage-key").Nth(3).ClickAsync();
            await opened.Page.Locator("summary").First.ClickAsync();
            await Sound(opened, "staging");
            await Button(opened, "Finish: 1 larva").ClickAsync();
            await Sound(opened, "writing the stages");
            Assert.Empty(opened.Complaints);
        }
    }

    private static async Task<Opened> WithJar(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/write/set-up");
        await opened
            .Page.GetByLabel("Name", new() { Exact = true })
            .And(opened.Page.Locator("input"))
            .FillAsync("Jar T");
        await opened.Page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
        await Button(opened, "Write it down").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
        return opened;
    }
}
