using System.Text.Json;
using Broodtide.Phone.Browser;

namespace Broodtide.Phone.Language;

/// <summary>In which language this phone speaks.</summary>
internal enum Tongue
{
    AsPhone,
    En,
    De,
}

/// <summary>
/// Brings the words in the language that was chosen, or that the phone itself speaks. English is built in; every
/// other language is a file of its own, which only those fetch who read it.
/// </summary>
internal static class Tongues
{
    /// <summary>What stands in front of the language's own name in its file.</summary>
    public const string FileFolder = "language/";

    /// <summary>The language meant on a phone that speaks this one: English where it is none of ours.</summary>
    public static Tongue Meant(Tongue chosen, string phoneSpeaks) =>
        chosen is not Tongue.AsPhone ? chosen
        : Code(Tongue.De) is var german
        && (
            phoneSpeaks.Equals(german, StringComparison.OrdinalIgnoreCase)
            || phoneSpeaks.StartsWith(german + "-", StringComparison.OrdinalIgnoreCase)
        )
            ? Tongue.De
        : Tongue.En;

    /// <summary>The code that pages and files name it by.</summary>
    public static string Code(Tongue tongue) => tongue.ToString().ToLowerInvariant();

    /// <summary>The words, whole, before the first page is drawn.</summary>
    public static async Task<Words> Read(HttpClient http, Tongue tongue)
    {
        var english = Words.English();
        if (tongue is Tongue.En)
        {
            return english;
        }

        try
        {
            // Whole, since the browser's stream cannot be read without waiting.
            using var file = new MemoryStream(
                await http.GetByteArrayAsync($"{FileFolder}{Code(tongue)}.json")
            );
            return english.In(Code(tongue), file);
        }
        catch (Exception error) when (error is HttpRequestException or JsonException or TaskCanceledException)
        {
            // Never fetched and no network now: English, until there is one.
            Glue.SetLanguage(Code(Tongue.En));
            return english;
        }
    }

    /// <summary>Whether the words of a language can be had now; afterwards they are kept on the phone.</summary>
    public static async Task<bool> Fetch(HttpClient http, Tongue tongue)
    {
        try
        {
            return tongue is Tongue.En
                || (await http.GetAsync($"{FileFolder}{Code(tongue)}.json")).IsSuccessStatusCode;
        }
        catch (Exception error) when (error is HttpRequestException or TaskCanceledException)
        {
            return false;
        }
    }
}
