using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>
/// Phones that hold the invented house, one for each language, opened once for all tests that only look.
/// A test moves inside the app, as a person does: pages are not loaded anew for each.
/// </summary>
internal sealed class DemoPhones(Browsing browsing) : IAsyncDisposable
{
    // Where a page needs something that exists, the first of its kind that the page of everything names.
    private static readonly Dictionary<string, (string Page, string Links)> Found = new(
        StringComparer.Ordinal
    )
    {
        ["/run/{Id:guid}"] = ("/index", "a[href^='run/']"),
        ["/vessel/{Id:guid}"] = ("/index", "a[href^='vessel/']"),
        ["/what-if/{Id:guid}"] = ("/index", "a[href^='vessel/']"),
        ["/culture/{Id:guid}"] = ("/cultures", "a[href^='culture/']"),
        ["/brood/{Id:guid}"] = ("/index", "a[href^='brood/']"),
        ["/journal/{Id}"] = ("/journal", "a[href^='journal/']"),
    };

    private readonly Dictionary<string, Opened> _phones = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _addresses = new(StringComparer.Ordinal);
    private RunningServer? _server;

    /// <summary>The language that is no language: see <see cref="PseudoLanguage"/>.</summary>
    public const string Pseudo = "pseudo";

    /// <summary>A page of the app with the invented house on it, in a language.</summary>
    public async Task<Opened> At(PageUnderTest page, string language) =>
        await At(await Address(await Phone(language), page), language);

    /// <summary>An address of the app with the invented house on it, in a language and on the light ground.</summary>
    public async Task<Opened> At(string path, string language)
    {
        var opened = await Phone(language);
        await opened.Ground(ColorScheme.Light);
        await opened.Resize(Browsing.PhoneWidth, doubled: false);
        await opened.GoTo(path);
        await Calm(opened);
        return opened;
    }

    private async Task<Opened> Phone(string language)
    {
        if (_phones.TryGetValue(language, out var known))
        {
            return known;
        }

        _server ??= await RunningServer.Start("--demo");
        var phone = await browsing.NewPhone(
            locale: language is "en" ? "en-GB" : "de-DE",
            workers: ServiceWorkerPolicy.Block
        );
        if (language is Pseudo)
        {
            await phone.RouteAsync(
                "**/language/de.json",
                route => route.FulfillAsync(new() { Json = PseudoLanguage.Texts() })
            );
        }

        var opened = await Opened.At(phone, _server.Address);
        await opened.Rest();
        _phones.Add(language, opened);
        return opened;
    }

    private async Task<string> Address(Opened opened, PageUnderTest page)
    {
        if (!Found.TryGetValue(page.Route, out var found))
        {
            return page.Path;
        }

        if (!_addresses.TryGetValue(page.Route, out var address))
        {
            await opened.GoTo(found.Page);
            await opened.Rest();
            address = "/" + await opened.Page.Locator(found.Links).First.GetAttributeAsync("href");
            _addresses.Add(page.Route, address);
        }

        return address;
    }

    // The journal is read and everything worked out; pages at the bench have no such mark and need no waiting.
    public static async Task Calm(Opened opened)
    {
        await opened.Page.Locator("h1").First.WaitForAsync();
        await Assertions
            .Expect(opened.Page.Locator("main[data-settled=false]"))
            .ToHaveCountAsync(0, new() { Timeout = 120_000 });
        await opened.Settle();
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }
}
