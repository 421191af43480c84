using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>The app opened in a page, with everything that the browser complained of.</summary>
internal sealed class Opened
{
    // Said by what drives the browser, where a test does without the copy for days without a network.
    private const string WorkersAreBlocked = "Service Worker registration blocked by Playwright";

    // Asked by the browser itself where a file is opened that is no page; the pages of the app bring their icon.
    private const string IconOfAFile = "/favicon.ico";

    private readonly List<string> _complaints = [];

    private Opened(IPage page) => Page = page;

    public IPage Page { get; }

    public IReadOnlyList<string> Complaints => _complaints;

    /// <summary>Opened by the owner of the house, where the server has one; see <see cref="RunningServer"/>.</summary>
    public static async Task<Opened> At(IBrowserContext phone, string address)
    {
        await SignIn(phone, address);
        return await AsIs(phone, address);
    }

    /// <summary>The same in a tab that is there already.</summary>
    public static async Task<Opened> In(IPage tab, string address)
    {
        await SignIn(tab.Context, address);
        return await Load(tab, address);
    }

    /// <summary>Opened by whoever is signed in on this phone, or nobody.</summary>
    public static async Task<Opened> AsIs(IBrowserContext phone, string address) =>
        await Load(await phone.NewPageAsync(), address);

    private static Task SignIn(IBrowserContext phone, string address) =>
        phone.AddCookiesAsync(
            RunningServer
                .OwnersCookies(address)
                .Select(cookie => new Microsoft.Playwright.Cookie
                {
                    Name = cookie.Name,
                    Value = cookie.Value,
                    Url = new Uri(address).GetLeftPart(UriPartial.Authority),
                    HttpOnly = true,
                    SameSite = SameSiteAttribute.Strict,
                })
        );

    private static async Task<Opened> Load(IPage tab, string address)
    {
        var opened = new Opened(tab);
        opened.Page.Console += (_, message) =>
        {
            if (
                message.Type is "error" or "warning"
                && message.Text != WorkersAreBlocked
                && !IsIconOfAFile(message)
            )
            {
                opened._complaints.Add($"{message.Text} at {message.Location}");
            }
        };
        opened.Page.PageError += (_, error) => opened._complaints.Add(error);
        await opened.Page.GotoAsync(address);
        await opened
            .Page.Locator("h1:not(.opening h1)")
            .First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        // The pages behind the first come a moment later; a test that turns to one at once would only wait for them.
        await opened.Page.Locator("html[data-pages]").WaitForAsync(new() { Timeout = 120_000 });
        return opened;
    }

    private static bool IsIconOfAFile(IConsoleMessage message) =>
        message.Text.Contains("404", StringComparison.Ordinal)
        && message.Location.Contains(IconOfAFile, StringComparison.Ordinal);

    /// <summary>Moves as a link inside the app does, without loading anything.</summary>
    public async Task GoTo(string path)
    {
        await Page.EvaluateAsync("path => Blazor.navigateTo(path)", path);
        await Page.WaitForURLAsync(address => new Uri(address).PathAndQuery == path);
        await Settle();
    }

    /// <summary>Until the journal is read, the server was met and everything is worked out.</summary>
    public Task Rest() => Page.Locator("main[data-settled=true]").WaitForAsync(new() { Timeout = 120_000 });

    /// <summary>Until two frames have been painted.</summary>
    public Task Settle() =>
        Page.EvaluateAsync(
            "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done())))"
        );

    /// <summary>Another width, and the text at its own size or at 200 percent.</summary>
    public async Task Resize(int width, bool doubled)
    {
        await Page.SetViewportSizeAsync(width, Browsing.PhoneHeight);
        await Page.EvaluateAsync(
            "size => { document.documentElement.style.fontSize = size; }",
            doubled ? "200%" : ""
        );
    }

    /// <summary>As on a phone that is set to this ground.</summary>
    public async Task Ground(ColorScheme ground)
    {
        await Page.EmulateMediaAsync(new() { ColorScheme = ground });
        await Settle();
    }

    /// <summary>Calls the script module that the app itself uses.</summary>
    public Task<T> Module<T>(string expression) =>
        Page.EvaluateAsync<T>(
            $"async () => {{ const it = await import('/js/broodtide.js'); return {expression}; }}"
        );
}
