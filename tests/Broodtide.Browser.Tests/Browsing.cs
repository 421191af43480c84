using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>One Chromium for all tests; where there is none, they are skipped by name, or fail on a build machine.</summary>
public sealed class Browsing : IAsyncLifetime
{
    public const int PhoneWidth = 390;
    public const int PhoneHeight = 844;

    internal static readonly string[] Switches =
    [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        // Otherwise the browser tells every page that it has ten gigabytes left, whatever is set for a test.
        "--disable-features=StaticStorageQuota",
    ];

    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private RunningServer? _server;
    private DemoPhones? _demo;
    private IPage? _emptied;

    internal static string Executable =>
        Environment.GetEnvironmentVariable("BROODTIDE_CHROMIUM") ?? "/usr/bin/chromium";

    public async ValueTask InitializeAsync()
    {
        if (File.Exists(Executable))
        {
            _playwright = await Playwright.CreateAsync();
            // The app opens slowly on a machine with other work: a page is waited for, not guessed at.
            Assertions.SetDefaultExpectTimeout(20_000);
            _browser = await _playwright.Chromium.LaunchAsync(
                new() { ExecutablePath = Executable, Args = Switches }
            );
        }
    }

    /// <summary>A server that tests share; who stops one starts one of its own.</summary>
    internal async Task<RunningServer> Server() => _server ??= await RunningServer.Start();

    /// <summary>Phones that hold the invented house; pages are only looked at on them, and nothing is written.</summary>
    internal DemoPhones Demo => _demo ??= new(this);

    /// <summary>
    /// A page of the shared server, opened by its address on a phone that holds nothing. It is one tab for all, emptied
    /// in between: the files of the app stay fetched and compiled, as on the second visit of a person.
    /// </summary>
    internal async Task<Opened> OpenOnAnEmptyPhone(string path)
    {
        var server = await Server();
        // The copy for days without a network has tests of its own; here it would be made anew for every page.
        _emptied ??= await (await NewPhone(workers: ServiceWorkerPolicy.Block)).NewPageAsync();
        // A file of the same address that is no page of the app: nobody holds the stores open there.
        await _emptied.GotoAsync(server.Address + "/css/tokens.css");
        await _emptied.EvaluateAsync(
            """
            async () => {
              localStorage.clear();
              sessionStorage.clear();
              for (const { name } of await indexedDB.databases())
                await new Promise((done, failed) => {
                  const gone = indexedDB.deleteDatabase(name);
                  gone.onsuccess = done;
                  gone.onerror = () => failed(gone.error);
                });
            }
            """
        );
        await _emptied.Context.ClearCookiesAsync();
        return await Opened.In(_emptied, server.Address + path);
    }

    /// <summary>A phone of its own: empty storage, a touch screen, 390 by 844.</summary>
    public async Task<IBrowserContext> NewPhone(
        ColorScheme ground = ColorScheme.Light,
        int width = PhoneWidth,
        string locale = "en-GB",
        ServiceWorkerPolicy workers = ServiceWorkerPolicy.Allow
    )
    {
        if (_browser is null)
        {
            var reason = $"There is no Chromium at {Executable}; BROODTIDE_CHROMIUM names another place.";
            if (Environment.GetEnvironmentVariable("CI") == "true")
            {
                Assert.Fail(reason);
            }

            Assert.Skip(reason);
        }

        return await _browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = PhoneHeight },
                HasTouch = true,
                ColorScheme = ground,
                TimezoneId = "Europe/Berlin",
                Locale = locale,
                ServiceWorkers = workers,
            }
        );
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        if (_demo is not null)
        {
            await _demo.DisposeAsync();
        }

        if (_server is not null)
        {
            await _server.DisposeAsync();
        }

        _playwright?.Dispose();
    }
}
