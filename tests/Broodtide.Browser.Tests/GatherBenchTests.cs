using Microsoft.Playwright;
using static Broodtide.Browser.Tests.BenchSteps;

namespace Broodtide.Browser.Tests;

/// <summary>Larvae gathered at a light, over a reload, written and taken on to the crossing.</summary>
[Collection(LookingBrowser.Name)]
public sealed class GatherBenchTests(Browsing browsing)
{
    [Fact]
    public async Task Larvae_are_gathered_over_a_reload_written_with_their_water_and_led_to_the_crossing()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithCup(phone, server);
        await opened.GoTo("/gather");
        await Button(opened, "Begin").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".places")).ToHaveCountAsync(0);
        await Tap(opened, 3);
        await Button(opened, "Ten more").ClickAsync();
        await Button(opened, "Undo 10").ClickAsync();
        await Tap(opened, 1);
        await Button(opened, "Look again in 10 min").ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "async () => { const it = await import('/js/broodtide.js'); return it.plannedSounds().map(s => s.beeps).join() === '1,3'; }"
        );

        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("4");
        await Assertions
            .Expect(opened.Page.Locator(".gather-times"))
            .ToContainTextAsync("Look at the light again in");
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.GetByText("collected")).ToHaveCountAsync(0);
        await opened.GoTo("/gather");
        await Button(opened, "Finish").ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByLabel("How many larvae", new() { Exact = true }))
            .ToHaveValueAsync("4");
        await Assertions
            .Expect(opened.Page.GetByLabel("every one", new() { Exact = true }))
            .Not.ToBeCheckedAsync();
        await opened.Page.GetByLabel("every one", new() { Exact = true }).CheckAsync();
        await opened.Page.GetByLabel("Water moved with them", new() { Exact = true }).FillAsync("150");
        await opened.Page.GetByLabel("more were seen", new() { Exact = true }).CheckAsync();
        await Button(opened, "Write it").ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("4 larvae into Cup T written.")).ToBeVisibleAsync();
        await Assertions.Expect(opened.Page.Locator(".waiting, .saved").First).ToBeVisibleAsync();

        await opened.Page.GetByRole(AriaRole.Link, new() { Name = "Cross them over" }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Crossing");
        await Assertions.Expect(opened.Page.Locator("label.tick").First).ToContainTextAsync("4");
        await Assertions.Expect(opened.Page.Locator("section.fold").First).ToContainTextAsync("150");
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.GetByText("collected").First).ToContainTextAsync("4");
        await Assertions.Expect(opened.Page.GetByText("seen").First).ToBeVisibleAsync();
        // After the reload nobody has touched the page yet: the browser says that sound must wait for that.
        Assert.DoesNotContain(
            opened.Complaints,
            complaint => !complaint.StartsWith("The AudioContext", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task A_phone_that_slept_for_eleven_minutes_shows_how_long_they_waited_and_that_it_is_time_to_look()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/gather");
        await opened.Page.Clock.InstallAsync(new() { Time = "2026-05-20T20:00:00Z" });
        await opened.Page.ReloadAsync();
        await Button(opened, "Begin").ClickAsync();
        await Tap(opened, 1);
        await Button(opened, "Look again in 10 min").ClickAsync();
        await opened.Page.Clock.FastForwardAsync(11 * 60_000);
        await Assertions
            .Expect(opened.Page.Locator(".gather-times"))
            .ToContainTextAsync("Now: look at the light again");
        await Assertions
            .Expect(opened.Page.Locator("[role=timer]"))
            .ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^11:0"));
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("1");
    }

    [Fact]
    public async Task Nothing_is_counted_unless_it_is_tapped_and_what_was_not_counted_is_written_without_a_number()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await WithCup(phone, server);
        await opened.GoTo("/gather");
        await Button(opened, "Begin").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".tap .n")).ToHaveTextAsync("–");
        await Button(opened, "Taken, not counted").ClickAsync();
        await Button(opened, "Finish").ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByLabel("How many larvae", new() { Exact = true }))
            .ToHaveValueAsync("");
        await Button(opened, "Write it").ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("written, not counted")).ToBeVisibleAsync();
        await opened.Page.Locator(".saved button").ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Write the gathering");
    }

    [Fact]
    public async Task Every_step_passes_the_accessibility_scan_and_fits_at_200_percent_text_and_at_320_pixels()
    {
        foreach (
            var (ground, width, size) in new[]
            {
                (ColorScheme.Light, Browsing.PhoneWidth, "200%"),
                (ColorScheme.Dark, 320, "100%"),
            }
        )
        {
            await using var phone = await browsing.NewPhone(ground, width);
            var server = await browsing.Server();
            var opened = await Opened.At(phone, server.Address + "/gather");
            await opened.Page.EvaluateAsync(
                "size => { document.documentElement.style.fontSize = size; }",
                size
            );
            await Sound(opened, "before");
            await Button(opened, "Begin").ClickAsync();
            await Tap(opened, 2);
            await Button(opened, "Look again in 10 min").ClickAsync();
            await Sound(opened, "gathering");
            await Button(opened, "Finish").ClickAsync();
            await Sound(opened, "writing");
            await Button(opened, "Write it").ClickAsync();
            await opened.Page.Locator(".saved").WaitForAsync();
            await Sound(opened, "written");
            Assert.Empty(opened.Complaints);
        }
    }

    private static async Task<Opened> WithCup(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/write/set-up");
        await opened
            .Page.GetByLabel("Name", new() { Exact = true })
            .And(opened.Page.Locator("input"))
            .FillAsync("Cup T");
        await opened.Page.Locator("form.writing select").First.SelectOptionAsync("cup");
        await Button(opened, "Write it down").ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
        return opened;
    }
}
