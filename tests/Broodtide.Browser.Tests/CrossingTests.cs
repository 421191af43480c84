using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A crossing planned and made on an empty phone, its clock moved forward, until its entry is written.</summary>
[Collection(WritingBrowser.Name)]
public sealed class CrossingTests(Browsing browsing)
{
    [Fact]
    public async Task A_crossing_is_planned_made_at_the_bench_and_written_with_its_pours()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Planned(phone, server);
        await opened.Page.Clock.InstallAsync(new() { Time = "2026-05-20T18:00:00Z" });
        await opened.Page.ReloadAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        await opened.Page.Locator("[role=timer]").WaitForAsync();
        await Assertions.Expect(opened.Page.Locator(".places")).ToHaveCountAsync(0);

        // Key by key, the clock a minute further each time; once over a reload, once frozen for 90 seconds.
        var pours = await opened.Page.Locator(".bench-steps li").CountAsync();
        for (var pour = 0; pour < pours; pour++)
        {
            await opened.Page.Clock.FastForwardAsync(pour == 1 ? 90_000 : 60_000);
            if (pour == 2)
            {
                await opened.Page.ReloadAsync();
                await opened.Page.Locator("[role=timer]").WaitForAsync();
            }

            await Assertions.Expect(opened.Page.Locator(".bench-steps li.done")).ToHaveCountAsync(pour);
            await opened.Page.Locator(".hands .key").ClickAsync();
        }

        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Count and write" }).ClickAsync();
        await opened.Page.GetByLabel("How many larvae", new() { Exact = true }).FillAsync("120");
        await opened.Page.GetByLabel("Its name").FillAsync("Jar B");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it" }).ClickAsync();

        await Assertions.Expect(opened.Page.GetByText("Crossing into Jar B written")).ToBeVisibleAsync();
        // Set up, drawn off or filled, crossed: all on the disk of this phone.
        Assert.True(await opened.Module<int>("it.readAll().then(rows => rows.length > 200 ? 1 : 0)") == 1);

        // Nothing is left to go on with, and the bench says so.
        await opened.Page.GotoAsync(server.Address + "/crossing/bench");
        await Assertions.Expect(opened.Page.GetByText("No crossing is planned.")).ToBeVisibleAsync();
        // Its vessel is known from now on, with its water by the ledger.
        await opened.Page.GotoAsync(server.Address + "/water/correct");
        await Assertions
            .Expect(opened.Page.Locator(".field select option").Nth(1))
            .ToContainTextAsync("Jar B");
    }

    [Fact]
    public async Task What_was_poured_is_not_lost_when_the_keeper_stops()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Planned(phone, server);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        await opened.Page.Locator(".hands .key").ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Undo step 1" }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".bench-steps li.done")).ToHaveCountAsync(0);
        await opened.Page.Locator(".hands .key").ClickAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();

        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Write the crossing");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Back to the clock" }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator(".bench-steps li.done")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task A_crossing_that_cannot_be_offers_the_nearest_that_can_and_takes_it()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address + "/crossing");
        await Fill(opened);
        await opened.Page.GetByLabel("At hand", new() { Exact = true }).FillAsync("0.02");
        await Assertions.Expect(opened.Page.GetByText("Cannot be")).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Use this" }).First.ClickAsync();
        await Assertions
            .Expect(opened.Page.GetByRole(AriaRole.Button, new() { Name = "To the bench" }))
            .ToBeVisibleAsync();
    }

    internal static async Task<Opened> Planned(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/crossing");
        await Fill(opened);
        await Assertions.Expect(opened.Page.Locator(".pours").First).ToBeVisibleAsync();
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "To the bench" }).ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Crossing, at the bench");
        return opened;
    }

    // A cup of a litre with a fifth of it fresh water, sea water of 33, and a jar of six litres at 30.
    private static async Task Fill(Opened opened)
    {
        await opened.Page.GetByLabel("At hand", new() { Exact = true }).FillAsync("3");
        await opened.Page.GetByLabel("How salt it is", new() { Exact = true }).Nth(1).FillAsync("33");
        await opened.Page.GetByLabel("It holds", new() { Exact = true }).FillAsync("6");
        await opened.Page.GetByLabel("How salt it is", new() { Exact = true }).Nth(2).FillAsync("30");
        await opened.Page.GetByLabel("Full it holds", new() { Exact = true }).FillAsync("8");
    }
}
