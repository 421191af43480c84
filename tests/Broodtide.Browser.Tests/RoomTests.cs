using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>A phone without room, and stores that another tab holds or has made newer.</summary>
[Collection(LookingBrowser.Name)]
public sealed class RoomTests(Browsing browsing)
{
    [Fact]
    public async Task Too_little_room_is_said_before_anything_is_typed_and_a_copy_is_offered()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);
        await opened.Rest();
        await Assertions.Expect(opened.Page.GetByText("Hardly any room")).ToHaveCountAsync(0);
        var used = await opened.Page.EvaluateAsync<double>(
            "async () => (await navigator.storage.estimate()).usage"
        );

        await Allow(opened.Page, server, used + 3e6);
        foreach (var path in new[] { "/write/set-up", "/count", "/" })
        {
            await opened.GoTo(path);
            await Assertions.Expect(opened.Page.Locator(".notices")).ToContainTextAsync("This phone has");
            await Assertions
                .Expect(opened.Page.Locator(".notices"))
                .ToContainTextAsync("MB left for Broodtide");
        }

        var file = await opened.Page.RunAndWaitForDownloadAsync(() =>
            opened.Page.GetByRole(AriaRole.Button, new() { Name = "Save a copy of all" }).ClickAsync()
        );
        Assert.StartsWith("broodtide-journal-", file.SuggestedFilename, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_entry_that_finds_no_room_is_offered_as_text_and_as_a_file_and_written_once_there_is_room()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        // From the start two megabytes, too few to keep the app itself but enough for its store; then none at all.
        var blank = await phone.NewPageAsync();
        await Allow(blank, server, 2e6);
        var opened = await Opened.At(phone, server.Address + "/write/set-up");
        await opened.Rest();
        var before = await opened.Module<int>("(await it.readAll()).length");
        await Allow(blank, server, 1);
        await FillUp(opened);

        await Fill(opened, "Jar without room");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Not written");
        var text = await opened.Page.Locator("textarea.unkept").InputValueAsync();
        Assert.Contains("Jar without room", text, StringComparison.Ordinal);
        Assert.Contains("\"name\":\"Jar without room\"", text, StringComparison.Ordinal);
        // Nothing half written, and it stays in sight on another page.
        Assert.Equal(before, await opened.Module<int>("(await it.readAll()).length"));
        await opened.GoTo("/journal");
        await Assertions.Expect(opened.Page.Locator("textarea.unkept")).ToHaveValueAsync(text);

        var file = await opened.Page.RunAndWaitForDownloadAsync(() =>
            opened.Page.GetByRole(AriaRole.Button, new() { Name = "Save it as a file" }).ClickAsync()
        );
        Assert.Equal(
            text,
            (
                await File.ReadAllTextAsync(await file.PathAsync(), TestContext.Current.CancellationToken)
            ).TrimEnd()
        );
        await phone.GrantPermissionsAsync(["clipboard-read", "clipboard-write"]);
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Copy the text" }).ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("The text is copied.")).ToBeVisibleAsync();
        Assert.Equal(text, await opened.Page.EvaluateAsync<string>("() => navigator.clipboard.readText()"));

        var again = opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it now" });
        await again.ClickAsync();
        await Assertions.Expect(opened.Page.GetByText("It still finds no room.")).ToBeVisibleAsync();
        await Allow(blank, server, 500e6);
        await again.ClickAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Journal");
        await Assertions.Expect(opened.Page.Locator(".story")).ToHaveCountAsync(1);
        await Assertions.Expect(opened.Page.Locator(".story")).ToContainTextAsync("Jar without room");
        Assert.Equal(1, await opened.Module<int>("(await it.readAll()).length > 0 ? 1 : 0"));
    }

    [Fact]
    public async Task A_tab_whose_store_another_one_made_newer_says_so_and_loses_nothing()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address + "/write/set-up");
        await opened.Rest();
        var other = await phone.NewPageAsync();
        await other.GotoAsync(server.Address + "/js/start.js");
        await other.EvaluateAsync(
            """
            () => new Promise((done, failed) => {
              const request = indexedDB.open('broodtide', 9000);
              request.onsuccess = () => { request.result.close(); done(); };
              request.onerror = () => failed(request.error);
            })
            """
        );

        await Assertions
            .Expect(opened.Page.Locator(".notices"))
            .ToContainTextAsync("A newer Broodtide was opened in another tab");
        await Fill(opened, "Jar in an old tab");
        await Assertions
            .Expect(opened.Page.Locator("textarea.unkept"))
            .ToHaveValueAsync(new System.Text.RegularExpressions.Regex("Jar in an old tab"));

        // Opened again it is an older version than the store, and says that too.
        await opened.Page.ReloadAsync();
        await Assertions
            .Expect(opened.Page.Locator(".notices"))
            .ToContainTextAsync("of an older version than the one that wrote here last");
    }

    [Fact]
    public async Task A_store_that_an_older_tab_holds_is_waited_for_in_words_and_opens_by_itself()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var first = await Opened.At(phone, server.Address);
        await first.Rest();
        // A tab of an older version that does not let go.
        await first.Page.GotoAsync(server.Address + "/js/start.js");
        await first.Page.EvaluateAsync(
            """
            () => new Promise(done => {
              const request = indexedDB.open('broodtide');
              request.onsuccess = () => { window.held = request.result; done(); };
            })
            """
        );
        var page = await phone.NewPageAsync();
        await page.AddInitScriptAsync(
            "const open = IDBFactory.prototype.open; IDBFactory.prototype.open = function (name, version) { return name === 'broodtide' && version ? open.call(this, name, version + 1) : open.apply(this, arguments); };"
        );
        await page.GotoAsync(server.Address);
        await Assertions
            .Expect(page.Locator(".notices"))
            .ToContainTextAsync("Broodtide is open in another tab, as an older version.");

        await first.Page.CloseAsync();
        await Assertions.Expect(page.Locator(".notices")).Not.ToContainTextAsync("older version");
        await page.Locator("main[data-settled=true]").WaitForAsync(new() { Timeout = 60_000 });
    }

    private static async Task Fill(Opened opened, string name)
    {
        await opened
            .Page.GetByLabel("Name", new() { Exact = true })
            .And(opened.Page.Locator("input"))
            .FillAsync(name);
        await opened.Page.Locator("form.writing select").First.SelectOptionAsync("larval-vessel");
        await opened.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
    }

    // The browser hands out room in advance; what it handed out is used up here.
    private static Task FillUp(Opened opened) =>
        opened.Page.EvaluateAsync(
            """
            async () => {
              const open = indexedDB.open('ballast', 1);
              const store = await new Promise(done => {
                open.onupgradeneeded = () => open.result.createObjectStore('s', { autoIncrement: true });
                open.onsuccess = () => done(open.result);
              });
              for (let piece = 0; piece < 200; piece++) {
                const bytes = crypto.getRandomValues(new Uint8Array(65536));
                const refused = await new Promise(done => {
                  const transaction = store.transaction('s', 'readwrite');
                  transaction.objectStore('s').add(bytes);
                  transaction.oncomplete = () => done(false);
                  transaction.onabort = () => done(true);
                });
                if (refused) return;
              }
              throw new Error('It was never full.');
            }
            """
        );

    private static async Task Allow(IPage page, RunningServer server, double bytes)
    {
        var devtools = await page.Context.NewCDPSessionAsync(page);
        await devtools.SendAsync(
            "Storage.overrideQuotaForOrigin",
            new() { ["origin"] = server.Address, ["quotaSize"] = bytes }
        );
    }
}
