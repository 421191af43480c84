using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Broodtide.Units;

namespace Broodtide.Server.Words;

/// <summary>The English sentences of what the server says to a person, from the file beside this one.</summary>
internal static class Said
{
    private static readonly Lazy<FrozenDictionary<string, string>> English = new(Load);

    public static IReadOnlyDictionary<string, string> All => English.Value;

    /// <summary>The sentence of a remark; without one, the code itself.</summary>
    public static string Sentence(Remark remark)
    {
        if (!English.Value.TryGetValue(remark.Code, out var text))
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

    private static FrozenDictionary<string, string> Load()
    {
        using var stream = typeof(Said).Assembly.GetManifestResourceStream("english.json")!;
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
