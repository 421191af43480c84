using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Dossiers;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

namespace Broodtide.Phone.Dossiers;

/// <summary>
/// A dossier as one page that opens anywhere and asks for nothing: pictures, letters and style are in it, and no script.
/// The command line draws it with the same parts as the phone.
/// </summary>
internal static class DossierPage
{
    // Whatever a text in it may try: nothing is fetched, nothing is run.
    private const string Policy =
        "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'";

    // The scripts that stand in the page and those made of it, and nothing from elsewhere.
    private const string PolicyOfEngine = Policy + "; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:";

    /// <summary>The page. Estimates that are not at hand are worked out.</summary>
    /// <param name="dossier">The dossier.</param>
    /// <param name="engine">Name and version of the software that computed it.</param>
    /// <param name="words">In the language it is written in.</param>
    /// <param name="preferences">How numbers and hours are written.</param>
    /// <param name="style">Its style, from <see cref="DossierStyle"/>.</param>
    /// <param name="carried">The app's files that compute, for a page that computes its numbers again; none for a page without scripts.</param>
    public static async Task<string> OfAsync(
        Dossier dossier,
        string engine,
        Words words,
        Preferences preferences,
        string style,
        CarriedEngine? carried = null
    )
    {
        var clock = PhoneClock.In(dossier.Outlook.Zone);
        var formats = new Formats(preferences, words, clock);
        var naming = new Naming(words);
        var pictures = new PictureText(words, formats);
        await using var services = new ServiceCollection()
            .AddSingleton(words)
            .AddSingleton(formats)
            .AddSingleton(naming)
            .AddSingleton(new PhoneZone(clock))
            .AddSingleton(new Sayings(words, formats, naming, new PhoneZone(clock)))
            .AddSingleton(pictures)
            .AddSingleton(new TideLineText(words, pictures))
            .BuildServiceProvider();
        await using var renderer = new HtmlRenderer(services, NullLoggerFactory.Instance);
        var body = await renderer.Dispatcher.InvokeAsync(async () =>
        {
            var drawn = await renderer.RenderComponentAsync<DossierSheet>(
                ParameterView.FromDictionary(
                    new Dictionary<string, object?>
                    {
                        [nameof(DossierSheet.Dossier)] = dossier,
                        [nameof(DossierSheet.Engine)] = engine,
                        [nameof(DossierSheet.ComputesAgain)] = carried is not null,
                    }
                )
            );
            return drawn.ToHtmlString();
        });
        var title = System.Net.WebUtility.HtmlEncode(dossier.Title);
        var page = $"""
            <!doctype html>
            <html lang="{words.Language}">
            <head>
            <meta charset="utf-8">
            <meta http-equiv="Content-Security-Policy" content="{(
                carried is null ? Policy : PolicyOfEngine
            )}">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>{title}</title>
            <style>
            {style}</style>
            </head>
            <body>
            {body}
            {carried?.MarkupFor(dossier, words)}
            </body>
            </html>

            """;
        return page.ReplaceLineEndings("\n");
    }
}
