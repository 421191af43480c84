using System.Collections.Frozen;
using System.Text.Json;

namespace Broodtide.Cli.Words;

/// <summary>The English sentences of all codes, from the file beside this one.</summary>
internal static class Sentences
{
    private static readonly Lazy<FrozenDictionary<string, string>> English = new(Load);

    public static IReadOnlyDictionary<string, string> All => English.Value;

    public static string? Find(string code) => English.Value.GetValueOrDefault(code);

    private static FrozenDictionary<string, string> Load()
    {
        using var stream = typeof(Sentences).Assembly.GetManifestResourceStream("english.json")!;
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
