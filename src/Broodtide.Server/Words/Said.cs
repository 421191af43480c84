using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Broodtide.Units;

namespace Broodtide.Server.Words;

/// <summary>
/// The sentences of what the server says to a person, from the files beside this one: all of them in English, those of
/// pages that a browser asks for in its own language in German too.
/// </summary>
internal static class Said
{
    private static readonly Lazy<FrozenDictionary<string, string>> English = new(() => Load("english.json"));
    private static readonly Lazy<FrozenDictionary<string, string>> InGerman = new(() => Load("german.json"));

    public static IReadOnlyDictionary<string, string> All => English.Value;

    public static IReadOnlyDictionary<string, string> German => InGerman.Value;

    /// <summary>The sentence of a remark in English; without one, the code itself.</summary>
    public static string Sentence(Remark remark) => Sentence(remark, Speech.English);

    /// <summary>The sentence of a remark; in English where there is none in the language, and without one the code itself.</summary>
    public static string Sentence(Remark remark, Speech speech)
    {
        var words =
            speech is Speech.German && German.ContainsKey(remark.Code) ? InGerman.Value : English.Value;
        if (!words.TryGetValue(remark.Code, out var text))
        {
            return remark.ToString();
        }

        var said = new StringBuilder();
        var at = 0;
        while (text.IndexOf('{', at) is var open and >= 0)
        {
            var close = text.IndexOf('}', open);
            said.Append(text, at, open - at);
            said.Append(Convert.ToString(remark[text[(open + 1)..close]], CultureInfo.InvariantCulture));
            at = close + 1;
        }

        return said.Append(text, at, text.Length - at).ToString();
    }

    /// <summary>The sentence of a code.</summary>
    public static string Sentence(string code, params ReadOnlySpan<Argument> arguments) =>
        Sentence(new Remark(code, arguments));

    private static FrozenDictionary<string, string> Load(string file)
    {
        using var stream = typeof(Said).Assembly.GetManifestResourceStream(file)!;
        using var document = JsonDocument.Parse(stream);
        return document
            .RootElement.EnumerateObject()
            .ToFrozenDictionary(
                member => member.Name,
                member => member.Value.GetString()!,
                StringComparer.Ordinal
            );
    }
}
