using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A newer version of the app beside the one in use, with entries waiting.</summary>
[Collection(WritingBrowser.Name)]
public sealed class UpdateTests(Browsing browsing)
{
    private const string Ready = "A newer Broodtide is here; open again to use it.";

    [Fact]
    public async Task A_newer_version_waits_for_the_keeper_and_what_waits_for_the_server_outlives_it_and_is_sent_once()
    {
        await using var phone = await browsing.NewPhone();
        await using var site = await ChangedSite.Start();
        var opened = await Kept(phone, site);
        await opened.GoTo("/journal");

        // Away from the server, three entries are written and wait.
        await phone.SetOfflineAsync(true);
        var waiting = await WriteJars(opened, 3);
        Assert.Equal(3, waiting);
        await phone.SetOfflineAsync(false);

        // The newer version is fetched; the old page goes on, on its own files, and says that it is there.
        site.Serve("newer-1");
        await Update(opened);
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.Locator(".newer")).ToContainTextAsync(Ready);
        Assert.Equal("", await Version(opened));
        await opened.GoTo("/write/set-up");
        await Assertions.Expect(opened.Page.Locator(".newer")).ToHaveCountAsync(0);

        // Whether they still wait when the newer one is opened or have gone out meanwhile: each is there once.
        await opened.GoTo("/journal");
        await opened.Page.Locator(".newer button").ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "() => getComputedStyle(document.documentElement).getPropertyValue('--version').includes('newer-1')"
        );
        await opened.Page.Locator("h1:not(.opening h1)").First.WaitForAsync();
        await Assertions.Expect(opened.Page.Locator(".waiting")).ToHaveCountAsync(0);
        await Assertions.Expect(opened.Page.Locator(".story")).ToHaveCountAsync(3);
        Assert.Equal(1, await Caches(opened));
        await AnotherPhoneReads(site, 3);
    }

    [Fact]
    public async Task Entries_that_wait_are_still_waiting_after_the_change_and_go_out_when_the_server_is_back()
    {
        await using var phone = await browsing.NewPhone();
        await using var site = await ChangedSite.Start();
        var opened = await Kept(phone, site);
        site.Serve("newer-1");
        await Update(opened);
        await phone.SetOfflineAsync(true);
        Assert.Equal(2, await WriteJars(opened, 2));
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.Locator(".waiting")).ToContainTextAsync("2 entries waiting");

        await opened.Page.Locator(".newer button").ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "() => getComputedStyle(document.documentElement).getPropertyValue('--version').includes('newer-1')"
        );
        await Assertions.Expect(opened.Page.Locator(".waiting")).ToContainTextAsync("2 entries waiting");

        await phone.SetOfflineAsync(false);
        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Journal");
        await Assertions.Expect(opened.Page.Locator(".waiting")).ToHaveCountAsync(0);
        await AnotherPhoneReads(site, 2);
    }

    [Fact]
    public async Task A_version_that_broke_off_while_it_was_fetched_leaves_the_old_one_whole()
    {
        await using var phone = await browsing.NewPhone();
        await using var site = await ChangedSite.Start();
        var opened = await Kept(phone, site);
        site.Serve("broken-1", broken: true);
        await Update(opened, expected: false);
        Assert.Equal(1, await Caches(opened));

        await phone.SetOfflineAsync(true);
        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Due");
        Assert.Equal("", await Version(opened));
        await phone.SetOfflineAsync(false);

        site.Serve("newer-2");
        await Update(opened);
        await Assertions.Expect(opened.Page.Locator(".newer")).ToContainTextAsync(Ready);
    }

    [Fact]
    public async Task With_the_app_open_in_two_tabs_neither_is_changed_under_the_other()
    {
        await using var phone = await browsing.NewPhone();
        await using var site = await ChangedSite.Start();
        var opened = await Kept(phone, site);
        var other = await Opened.At(phone, site.Address + "/settings");
        site.Serve("newer-1");
        await Update(opened);
        await opened.Page.Locator(".newer button").ClickAsync();
        await Assertions
            .Expect(opened.Page.Locator(".newer"))
            .ToContainTextAsync("Close 1 other tab of it first");
        Assert.Equal("", await Version(opened));

        await other.Page.CloseAsync();
        await opened.Page.Locator(".newer button").ClickAsync();
        await opened.Page.WaitForFunctionAsync(
            "() => getComputedStyle(document.documentElement).getPropertyValue('--version').includes('newer-1')"
        );
    }

    // The copy is on the phone and answers for this page.
    private static async Task<Opened> Kept(IBrowserContext phone, ChangedSite site)
    {
        var opened = await Opened.At(phone, site.Address);
        await opened.Page.WaitForFunctionAsync("() => !!navigator.serviceWorker.controller");
        await opened.Rest();
        return opened;
    }

    private static async Task Update(Opened opened, bool expected = true)
    {
        await opened.Page.EvaluateAsync(
            """
            async () => {
              const registration = await navigator.serviceWorker.ready;
              await registration.update();
              const worker = registration.installing ?? registration.waiting;
              await new Promise(done => {
                const look = () => { if (['installed', 'redundant'].includes(worker.state)) done(); };
                worker.addEventListener('statechange', look);
                look();
              });
            }
            """
        );
        Assert.Equal(
            expected,
            await opened.Page.EvaluateAsync<bool>(
                "async () => !!(await navigator.serviceWorker.ready).waiting"
            )
        );
    }

    private static async Task<int> WriteJars(Opened opened, int count)
    {
        for (var jar = 1; jar <= count; jar++)
        {
            await opened.GoTo("/write");
            await opened.GoTo("/write/set-up");
            await opened
                .Page.GetByLabel("Name", new() { Exact = true })
                .And(opened.Page.Locator("input"))
                .FillAsync($"Jar {jar}");
            await opened.Page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
            await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
            await opened.Page.Locator(".saved").WaitForAsync();
        }

        return await Waiting(opened);
    }

    private static Task<int> Waiting(Opened opened) =>
        opened.Module<int>("(await it.openStore(), it.countWaiting())");

    private static Task<string> Version(Opened opened) =>
        opened.Page.EvaluateAsync<string>(
            "() => getComputedStyle(document.documentElement).getPropertyValue('--version').trim()"
        );

    private static Task<int> Caches(Opened opened) =>
        opened.Page.EvaluateAsync<int>(
            "async () => (await caches.keys()).filter(name => name.startsWith('broodtide-app-')).length"
        );

    private async Task AnotherPhoneReads(ChangedSite site, int entries)
    {
        await using var phone = await browsing.NewPhone();
        var opened = await Opened.At(phone, site.Address + "/journal");
        await opened.Rest();
        await Assertions.Expect(opened.Page.Locator(".story")).ToHaveCountAsync(entries);
    }
}
