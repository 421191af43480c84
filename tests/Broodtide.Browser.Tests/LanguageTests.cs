using Broodtide.Browser.Tests.Parts;
using Broodtide.Workbench.Species;
using Microsoft.Playwright;

namespace Broodtide.Browser.Tests;

/// <summary>The language of the app, in the published app.</summary>
[Collection(LookingBrowser.Name)]
public sealed class LanguageTests(Browsing browsing)
{
    // What a page may say that is no word of the app's: units, names of zones, the product's own name.
    private static readonly string[] NoWords =
    [
        "Broodtide",
        "Europe/Berlin",
        "mL",
        "L",
        "g",
        "kg",
        "mg",
        "°C",
        "°F",
    ];

    // The names of stages are symbols of the trade: Z1 to Z9, PL.
    private static readonly string[] Stages =
    [
        .. SpeciesProfiles.All.SelectMany(profile => profile.Stages).Select(stage => stage.Code),
    ];

    // Scientific names are the same in every language.
    private static readonly string[] Species =
    [
        .. SpeciesProfiles.Known.Select(species => species.ScientificName),
    ];

    [Theory]
    [MemberData(nameof(PageTable.All), MemberType = typeof(PageTable))]
    public async Task Every_word_on_a_page_comes_from_the_language_file(PageUnderTest page)
    {
        var opened = await browsing.Demo.At(page, DemoPhones.Pseudo);
        var names = await DemoOutlook.Names();
        // What is folded in is unfolded: it has words too.
        await opened.Page.EvaluateAsync(
            "() => document.querySelectorAll('main button.ask[aria-expanded=false], main details.quantity > summary').forEach(it => it.click())"
        );
        await opened.Settle();

        var told = await opened.Page.EvaluateAsync<string[]>(
            """
            () => {
              const own = it => it.closest('.opening, #blazor-error-ui, pre, script, style, [lang]:not(html)') === null;
              const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
              const texts = [];
              while (walk.nextNode()) if (own(walk.currentNode.parentElement)) texts.push(walk.currentNode.data);
              const attributes = ['aria-label', 'title', 'alt', 'placeholder', 'aria-valuetext', 'aria-description', 'label'];
              const told = [...document.querySelectorAll(attributes.map(name => `[${name}]`).join())]
                .filter(own)
                .flatMap(it => attributes.filter(name => it.hasAttribute(name)).map(name => it.getAttribute(name)));
              return [texts.join('\n'), document.title, ...told];
            }
            """
        );

        Assert.Contains(PseudoLanguage.Open, told[0]);
        Assert.Equal(
            [],
            told.SelectMany(text =>
                    PseudoLanguage.Outside(text, [.. NoWords, .. Stages, .. Species, .. names])
                )
                // The fingerprint of an entry.
                .Where(said => !said.All(char.IsAsciiHexDigitLower) || said.Length < 16)
                .ToArray()
        );
    }

    [Fact]
    public void A_word_without_brackets_is_found()
    {
        Assert.Equal([], PseudoLanguage.Outside("⟦Šálíñítý⟧\n 33,6 \nOld jar", ["Old jar"]));
        Assert.Equal(["Salinity"], PseudoLanguage.Outside("⟦a⟧ Salinity\n⟦b ⟦c⟧⟧", []));
        Assert.Equal(["1 brackets stay open"], PseudoLanguage.Outside("⟦a", []));
        Assert.Equal(
            "⟦{0} {0:éñtrý|éñtríéš} wáítíñg öööööö ⟧",
            PseudoLanguage.Of("{0} {0:entry|entries} waiting")
        );
    }

    [Fact]
    public async Task A_phone_that_speaks_German_is_spoken_to_in_German_from_the_first_picture_on()
    {
        await using var phone = await browsing.NewPhone(locale: "de-DE");
        var server = await browsing.Server();
        await phone.AddInitScriptAsync(
            """
            globalThis.seen = [];
            document.addEventListener('DOMContentLoaded', () => {
              const look = () => seen.push(document.body.innerText);
              look();
              new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
            });
            """
        );
        var opened = await Opened.At(phone, server.Address);

        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Fällig");
        Assert.Equal("de", await opened.Page.Locator("html").GetAttributeAsync("lang"));
        var seen = await opened.Page.EvaluateAsync<string[]>("() => seen");
        Assert.Contains(seen, text => text.Contains("Wird geöffnet", StringComparison.Ordinal));
        Assert.DoesNotContain(
            seen,
            text =>
                text.Contains("Opening.", StringComparison.Ordinal)
                || text.Contains("Journal", StringComparison.Ordinal)
        );
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task Who_reads_English_fetches_no_other_language()
    {
        await using var phone = await browsing.NewPhone();
        var server = await browsing.Server();
        var fetched = new List<string>();
        phone.Request += (_, request) => fetched.Add(request.Url);
        var opened = await Opened.At(phone, server.Address);
        await WorkerIsReady(opened);

        Assert.Contains(fetched, address => address.Contains("/_framework/", StringComparison.Ordinal));
        Assert.DoesNotContain(fetched, address => address.Contains("/language/", StringComparison.Ordinal));
        Assert.Equal(0, await KeptLanguages(opened));
    }

    [Fact]
    public async Task A_language_is_chosen_on_the_phone_stays_and_is_there_without_a_network()
    {
        await using var phone = await browsing.NewPhone();
        // A choice goes with the person to every phone of the house: this house is nobody else's.
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address + "/settings");
        await WorkerIsReady(opened);
        await Choose(opened, "Deutsch");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Dieses Handy");
        Assert.Equal(1, await KeptLanguages(opened));

        await phone.SetOfflineAsync(true);
        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("Dieses Handy");
        Assert.Equal("de", await opened.Page.Locator("html").GetAttributeAsync("lang"));

        await Choose(opened, "English");
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("This phone");
        Assert.Equal("en", await opened.Page.Locator("html").GetAttributeAsync("lang"));
    }

    [Fact]
    public async Task A_language_that_cannot_be_fetched_is_not_chosen_and_the_page_says_so()
    {
        await using var phone = await browsing.NewPhone();
        // A choice goes with the person to every phone of the house: this house is nobody else's.
        await using var server = await RunningServer.Start();
        var opened = await Opened.At(phone, server.Address + "/settings");
        await WorkerIsReady(opened);
        await phone.SetOfflineAsync(true);
        await Choose(opened, "Deutsch");

        await Assertions
            .Expect(opened.Page.Locator("[role=alert]:not(#blazor-error-ui)"))
            .ToContainTextAsync("could not be fetched");
        await opened.Page.ReloadAsync();
        await Assertions.Expect(opened.Page.Locator("h1")).ToHaveTextAsync("This phone");
    }

    private static Task Choose(Opened opened, string language) =>
        opened.Page.Locator("label", new() { HasText = language }).ClickAsync();

    private static Task WorkerIsReady(Opened opened) =>
        opened.Page.EvaluateAsync(
            "async () => { await navigator.serviceWorker.ready; while (!navigator.serviceWorker.controller) await new Promise(done => setTimeout(done, 50)); }"
        );

    private static Task<int> KeptLanguages(Opened opened) =>
        opened.Page.EvaluateAsync<int>(
            """
            async () => {
              let kept = 0;
              for (const name of (await caches.keys()).filter(name => name.startsWith('broodtide-app-')))
                kept += (await (await caches.open(name)).keys()).filter(it => it.url.includes('/language/')).length;
              return kept;
            }
            """
        );
}
