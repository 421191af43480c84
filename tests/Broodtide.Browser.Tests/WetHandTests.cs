using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>The benches in one wet hand: where the keys lie, touched twice, and woken after a sleep.</summary>
[Collection(LookingBrowser.Name)]
public sealed class WetHandTests(Browsing browsing)
{
    [Theory]
    [InlineData("/bench", "Start the clock", ".hands .key")]
    [InlineData("/count", "Start counting", ".tap")]
    [InlineData("/gather", "Begin", ".tap")]
    public async Task Every_target_is_64_pixels_or_more_and_the_main_one_lies_under_the_thumb(
        string path,
        string start,
        string main
    )
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address + path);
        if (path == "/count")
        {
            await WritingJar(opened);
        }

        await Assertions.Expect(opened.Page.Locator("main")).ToContainTextAsync("No charging phone.");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = start, Exact = true }).ClickAsync();
        await opened.Page.Locator(main).WaitForAsync();
        await opened.Settle();

        var boxes = await opened.Page.EvaluateAsync<double[][]>(
            """
            () => [...document.querySelectorAll('.frame.bench button')].filter(it => it.checkVisibility() && !it.classList.contains('as-link'))
              .map(it => it.getBoundingClientRect()).map(box => [box.top, box.bottom, box.width, box.height])
            """
        );
        Assert.NotEmpty(boxes);
        Assert.All(boxes, box => Assert.True(box[2] >= 64 && box[3] >= 64, string.Join(' ', box)));
        var key = (await opened.Page.Locator(main).BoundingBoxAsync())!;
        Assert.True(key.Height >= 112, $"The main key is {key.Height} high.");
        var under = key.Y + key.Height - Math.Max(key.Y, Browsing.PhoneHeight / 2.0);
        Assert.True(under >= 112, $"Of it {under} lie in the lower half.");
        var hands = (await opened.Page.Locator(".hands").BoundingBoxAsync())!;
        Assert.InRange(hands.Y + hands.Height, Browsing.PhoneHeight - 1, Browsing.PhoneHeight + 1);
    }

    [Fact]
    public async Task A_key_touched_twice_does_one_step()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Clock(phone, server);
        await opened.Page.Locator(".hands .key").DblClickAsync();
        await opened.Settle();
        await Assertions.Expect(opened.Page.Locator(".bench-steps li.done")).ToHaveCountAsync(1);
        await opened.Page.WaitForTimeoutAsync(1100);
        await opened.Page.Locator(".hands .key").ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".bench-steps li.done")).ToHaveCountAsync(2);
    }

    [Fact]
    public async Task After_ninety_seconds_asleep_the_clock_shows_the_truth()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/bench");
        await opened.Page.Clock.InstallAsync(new() { Time = "2026-05-20T20:00:00Z" });
        await opened.Page.ReloadAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        var timer = opened.Page.Locator("[role=timer]");
        await Assertions
            .Expect(timer)
            .ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^1:(30|2.)"));

        // Ninety seconds in which no timer of the page runs; the first of four steps was due at ninety.
        await opened.Page.Clock.FastForwardAsync(90_000);
        await Assertions
            .Expect(opened.Page.Locator(".bench-clock .before"))
            .ToHaveTextAsync("Step 1, late by");
        await Assertions.Expect(timer).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^0:0"));
        await opened.Page.Locator(".hands .key").ClickAsync();
        await Assertions
            .Expect(timer)
            .ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^1:(30|2.)"));
    }

    [Fact]
    public async Task A_page_that_the_browser_froze_shows_the_truth_when_it_is_thawed()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Clock(phone, server);
        var target = await opened.Module<double>("it.plannedSounds()[1].at");
        var devtools = await phone.NewCDPSessionAsync(opened.Page);
        await devtools.SendAsync("Page.setWebLifecycleState", new() { ["state"] = "frozen" });
        await Task.Delay(5000, TestContext.Current.CancellationToken);
        await devtools.SendAsync("Page.setWebLifecycleState", new() { ["state"] = "active" });
        await opened.Page.WaitForFunctionAsync(
            """
            target => {
              const [minutes, seconds] = document.querySelector('[role=timer]').textContent.split(':').map(Number);
              return Math.abs(60 * minutes + seconds - (target - Date.now()) / 1000) < 1.3;
            }
            """,
            target,
            new() { Timeout = 3000 }
        );
    }

    private static async Task<Opened> Clock(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/bench");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        await opened.Page.Locator("[role=timer]").WaitForAsync();
        return opened;
    }

    private static async Task WritingJar(Opened opened)
    {
        await opened.GoTo("/write/set-up");
        await opened
            .Page.GetByLabel("Name", new() { Exact = true })
            .And(opened.Page.Locator("input"))
            .FillAsync("Jar T");
        await opened.Page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await opened.Page.Locator(".saved").WaitForAsync();
        await opened.GoTo("/count");
        await opened.Page.GetByLabel("every one", new() { Exact = true }).CheckAsync();
    }
}
