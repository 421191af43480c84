using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A phone whose clock stands days behind the house's.</summary>
[Collection(LookingBrowser.Name)]
public sealed class HouseClockTests(Browsing browsing)
{
    [Fact]
    public async Task A_clock_two_days_behind_is_said_and_entries_keep_its_times_and_are_marked()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var page = await phone.NewPageAsync();
        var behind = NodaTime.SystemClock.Instance.GetCurrentInstant().ToDateTimeUtc().AddDays(-2);
        await page.Clock.InstallAsync(new() { TimeDate = behind });
        await page.GotoAsync(server.Address);
        await Assertions
            .Expect(page.Locator(".notices"))
            .ToContainTextAsync(
                "This phone’s clock is 2 days behind the house’s.",
                new() { Timeout = 60_000 }
            );

        await page.EvaluateAsync("() => Blazor.navigateTo('/write/set-up')");
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("New vessel");
        await Assertions.Expect(page.Locator(".notices")).ToContainTextAsync("2 days behind");
        await page.GetByLabel("Name", new() { Exact = true })
            .And(page.Locator("input"))
            .FillAsync("Jar then");
        await page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await page.Locator(".saved").WaitForAsync();

        // Known without the server too, and the entry stands under the day that this phone tells.
        await server.Stop();
        await page.EvaluateAsync("() => Blazor.navigateTo('/journal')");
        await Assertions
            .Expect(page.Locator(".story"))
            .ToContainTextAsync("Written while this phone’s clock was 2 days behind.");
        // The phone's zone is Berlin's.
        var day = NodaTime
            .Instant.FromDateTimeUtc(behind)
            .InZone(NodaTime.DateTimeZoneProviders.Tzdb["Europe/Berlin"])
            .Day;
        await Assertions.Expect(page.Locator("h2.of-day")).ToContainTextAsync($"{day}");
    }

    [Fact]
    public async Task A_clock_that_is_right_is_not_spoken_of()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await Assertions.Expect(opened.Page.Locator(".notices .mind")).ToHaveCountAsync(0);
    }
}
