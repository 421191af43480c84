using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>While a screen at the bench is open, no work holds the page for longer than 50 ms: a finger is answered.</summary>
[Collection(QuietBrowser.Name)]
public sealed class HeldPageTests(Browsing browsing)
{
    private const int MostTimes = 6;

    [Fact]
    public async Task No_task_holds_the_page_over_50_ms_while_the_bench_is_open_and_the_phone_computes()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/settings");

        // On a machine with other work a task may be held up from outside: one undisturbed run is asked for.
        var slow = new List<double>();
        for (var attempt = 0; attempt < MostTimes; attempt++)
        {
            await opened.GoTo("/settings");
            await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Measure this phone" }).ClickAsync();
            await opened.GoTo("/bench");
            await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
            await opened.Page.Locator("[role=timer]").WaitForAsync();
            var since = await opened.Module<double>("it.pageMilliseconds()");
            await opened.Page.WaitForTimeoutAsync(5000);
            await opened.Page.Locator(".hands .key").ClickAsync();
            await opened.Page.WaitForTimeoutAsync(500);
            var tasks = await opened.Page.EvaluateAsync<double[]>(
                "async since => (await import('/js/broodtide.js')).tasksOver50(since).map(t => t.duration)",
                since
            );
            if (tasks.Length == 0)
            {
                return;
            }

            slow.AddRange(tasks);
            await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();
            await opened.Page.WaitForTimeoutAsync(6000);
        }

        Assert.Fail($"Tasks over 50 ms in each run: {string.Join(", ", slow)} ms.");
    }

    [Fact]
    public async Task The_browser_does_report_a_task_over_50_ms()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address + "/bench");
        var since = await opened.Module<double>("it.pageMilliseconds()");

        await opened.Page.EvaluateAsync(
            "() => new Promise(done => setTimeout(() => { const end = performance.now() + 80; while (performance.now() < end); done(); }))"
        );

        await opened.Page.WaitForFunctionAsync(
            "async since => (await import('/js/broodtide.js')).countTasksOver50(since) > 0",
            since
        );
    }

    [Fact]
    public async Task No_task_holds_the_page_over_50_ms_while_a_crossing_is_at_the_bench()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await CrossingTests.Planned(phone, server);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        await opened.Page.Locator(".hands .key").ClickAsync();
        await opened.Page.WaitForTimeoutAsync(3000);

        // On a machine with other work a task may be held up from outside: one undisturbed stretch is asked for.
        var slow = new List<double>();
        for (var attempt = 0; attempt < MostTimes; attempt++)
        {
            var since = await opened.Module<double>("it.pageMilliseconds()");
            await opened.Page.WaitForTimeoutAsync(6000);
            var tasks = await opened.Page.EvaluateAsync<double[]>(
                "async since => (await import('/js/broodtide.js')).tasksOver50(since).map(t => t.duration)",
                since
            );
            if (tasks.Length == 0)
            {
                return;
            }

            slow.AddRange(tasks);
        }

        Assert.Fail($"Tasks over 50 ms in each stretch: {string.Join(", ", slow)} ms.");
    }
}
