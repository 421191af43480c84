using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

[Collection(LookingBrowser.Name)]
public sealed class BenchTests(Browsing browsing)
{
    [Fact]
    public async Task Sounds_are_laid_on_the_audio_clock_for_every_step_to_come()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await StartClock(phone, server);

        // Four steps: one beep ten seconds before, three at the step.
        await opened.Page.WaitForFunctionAsync(
            "async () => (await import('/js/broodtide.js')).laidSounds() === 16"
        );
        int[] beeps = [1, 3, 1, 3, 1, 3, 1, 3];
        Assert.Equal(beeps, await opened.Module<int[]>("it.plannedSounds().map(s => s.beeps)"));
        int[] seconds = [80, 90, 170, 180, 260, 270, 350, 360];
        Assert.Equal(
            seconds,
            await opened.Module<int[]>(
                "(all => all.map(s => Math.round((s.at - all[1].at) / 1000) + 90))(it.plannedSounds())"
            )
        );

        await opened.Page.Locator(".hands .key").ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "async () => (await import('/js/broodtide.js')).laidSounds() === 12"
        );
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Undo step 1" }).ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "async () => (await import('/js/broodtide.js')).laidSounds() === 16"
        );
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "async () => (await import('/js/broodtide.js')).laidSounds() === 0"
        );
    }

    [Fact]
    public async Task A_running_clock_outlives_a_reload_and_shows_the_truth()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await StartClock(phone, server);
        await opened.Page.Locator(".hands .key").ClickAsync();
        var target = await opened.Module<double>("it.plannedSounds()[1].at");

        await opened.Page.ReloadAsync();
        await opened.Page.Locator("[role=timer]").WaitForAsync();

        Assert.Equal(target, await opened.Module<double>("it.plannedSounds()[1].at"));
        var (shown, left) = await ShownAndLeft(opened, target);
        Assert.InRange(shown - left, -0.3, 1.3);
    }

    [Fact]
    public async Task After_a_time_in_which_no_timer_ran_the_clock_shows_the_truth_at_once()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await StartClock(phone, server);
        var target = await opened.Module<double>("it.plannedSounds()[1].at");

        // The page stands still for four seconds, as in a phone that sleeps.
        await opened.Page.EvaluateAsync(
            "() => { const end = Date.now() + 4000; while (Date.now() < end); document.dispatchEvent(new Event('visibilitychange')); }"
        );
        await opened.Settle();

        var (shown, left) = await ShownAndLeft(opened, target);
        Assert.InRange(shown - left, -0.3, 1.3);
    }

    private static async Task<Opened> StartClock(IBrowserContext phone, RunningServer server)
    {
        var opened = await Opened.At(phone, server.Address + "/bench");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Start the clock" }).ClickAsync();
        await opened.Page.Locator("[role=timer]").WaitForAsync();
        return opened;
    }

    private static async Task<(double Shown, double Left)> ShownAndLeft(Opened opened, double target)
    {
        var both = await opened.Page.EvaluateAsync<double[]>(
            """
            target => {
              const [minutes, seconds] = document.querySelector('[role=timer]').textContent.split(':').map(Number);
              return [60 * minutes + seconds, (target - Date.now()) / 1000];
            }
            """,
            target
        );
        return (both[0], both[1]);
    }
}
