using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests.FirstLoad;

/// <summary>What a phone fetches before the first page can be used, what behind it, and that all of it is kept.</summary>
[Collection(LookingBrowser.Name)]
public sealed partial class FirstLoadTests(Browsing browsing)
{
    private const string BeforeTheFirstPage = """
        () => {
          const [first] = performance.getEntriesByName('first page');
          return performance.getEntriesByType('resource')
            .filter(it => it.startTime < first.startTime)
            .map(it => new URL(it.name).pathname.slice(1));
        }
        """;

    private static readonly HashSet<string> First =
    [
        .. ByteBudget.Read().Where(file => file.When is Fetched.First).Select(file => file.Name),
    ];

    [Fact]
    public async Task The_first_page_comes_with_the_files_that_are_counted_for_it_and_no_others()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var opened = await Opened.At(phone, server.Address);

        var fetched = await opened.Page.EvaluateAsync<string[]>(BeforeTheFirstPage);
        var files = fetched
            .Where(name => !name.StartsWith("api/", StringComparison.Ordinal))
            .Append("index.html")
            .ToHashSet(StringComparer.Ordinal);
        Assert.Empty(files.Except(First));
        Assert.Empty(First.Except(files));
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task No_assembly_of_the_later_pages_is_asked_for_while_the_first_page_is_not_drawn()
    {
        var lazy = await LazyAssemblies();
        Assert.Contains("Broodtide.Later.wasm", lazy);
        await using var phone = await browsing.NewPhone(workers: ServiceWorkerPolicy.Block);
        var server = await browsing.Server();
        var held = new TaskCompletionSource();
        var asked = new List<string>();
        await phone.RouteAsync(
            address => lazy.Any(name => address.EndsWith("/" + name, StringComparison.Ordinal)),
            async route =>
            {
                lock (asked)
                {
                    asked.Add(new Uri(route.Request.Url).Segments[^1]);
                }

                await held.Task;
                await route.ContinueAsync();
            }
        );
        var page = await phone.NewPageAsync();
        await page.GotoAsync(server.Address);

        // Held back on the way, they hold nothing up: the first page stands and can be used.
        await Assertions.Expect(page.Locator("h1:not(.opening h1)")).ToHaveTextAsync("Due");
        await page.WaitForFunctionAsync("() => performance.getEntriesByName('first page').length > 0");
        await Assertions.Expect(page.Locator(".empty .key")).ToBeVisibleAsync();
        Assert.Equal(
            0,
            await page.EvaluateAsync<int>("() => performance.getEntriesByName('all pages').length")
        );

        // A tap on a page that is still on its way waits for it.
        await page.Locator(".empty .key").ClickAsync();
        held.SetResult();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Write");
        lock (asked)
        {
            Assert.Equal(lazy.Order(StringComparer.Ordinal), asked.Distinct().Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public async Task Each_later_page_opens_by_its_address_with_the_server_gone()
    {
        await using var phone = await browsing.NewPhone();
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address);
        await opened.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await server.Stop();

        foreach (var page in PageTable.Pages.Where(page => page.Path != "/"))
        {
            await opened.Page.GotoAsync(server.Address + page.Path);
            await Assertions.Expect(opened.Page.Locator("h1:not(.opening h1)")).ToHaveTextAsync(page.Title);
        }
    }

    [Fact]
    public async Task A_later_page_that_cannot_be_fetched_says_so_and_comes_when_it_is_tried_again()
    {
        await using var phone = await browsing.NewPhone(workers: ServiceWorkerPolicy.Block);
        var server = await browsing.Server();
        var away = true;
        await phone.RouteAsync(
            "**/Broodtide.Later.wasm",
            route => away ? route.AbortAsync() : route.ContinueAsync()
        );
        var page = await phone.NewPageAsync();
        await page.GotoAsync(server.Address);
        await Assertions.Expect(page.Locator("h1:not(.opening h1)")).ToHaveTextAsync("Due");

        await page.Locator("nav a[href='journal']").ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Not here yet");

        // The first page is still there.
        await page.Locator("nav a").First.ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Due");
        await page.Locator("nav a[href='journal']").ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Not here yet");

        away = false;
        await page.Locator(".empty .key").ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Journal");
    }

    // The app's own list of what it may fetch later.
    private static async Task<IReadOnlyList<string>> LazyAssemblies()
    {
        var script = await File.ReadAllTextAsync(
            Path.Combine(await PublishedSite.GetFolder(), "wwwroot", "_framework", "dotnet.js")
        );
        return [.. Named().Matches(Lazy().Match(script).Value).Select(match => match.Groups["name"].Value)];
    }

    [GeneratedRegex("\"lazyAssembly\":\\s*\\[[^\\]]*\\]", RegexOptions.None, 1000)]
    private static partial Regex Lazy();

    [GeneratedRegex("\"name\":\\s*\"(?<name>[^\"]+)\"", RegexOptions.None, 1000)]
    private static partial Regex Named();
}
