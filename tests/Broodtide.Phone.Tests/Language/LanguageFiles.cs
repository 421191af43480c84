using System.Text.Json;
using System.Text.RegularExpressions;

namespace Broodtide.Phone.Tests.Language;

/// <summary>The language files as they lie in the repository, and the sources that name their codes.</summary>
internal static partial class LanguageFiles
{
    private static readonly string Phone = Path.Combine(Repository.Root(), "src", "Broodtide.Phone");

    public static IReadOnlyDictionary<string, string> English { get; } =
        Read(Path.Combine(Phone, "Language", "en.json"));

    public static IReadOnlyDictionary<string, string> German { get; } =
        Read(Path.Combine(Phone, "wwwroot", "language", "de.json"));

    public static Stream OpenGerman() => File.OpenRead(Path.Combine(Phone, "wwwroot", "language", "de.json"));

    /// <summary>Codes that stand whole in a page or in C#, and the beginnings of those that are put together there.</summary>
    public static (HashSet<string> Whole, HashSet<string> Beginnings) Named()
    {
        var whole = new HashSet<string>(StringComparer.Ordinal);
        var beginnings = new HashSet<string>(StringComparer.Ordinal);
        foreach (
            var file in new[] { "App", "Phone", "Later" }
                .SelectMany(project =>
                    Directory.EnumerateFiles(
                        Path.Combine(Repository.Root(), "src", "Broodtide." + project),
                        "*",
                        SearchOption.AllDirectories
                    )
                )
                .Where(file => Path.GetExtension(file) is ".razor" or ".cs")
                .Where(file => !file.Contains("/obj/", StringComparison.Ordinal))
        )
        {
            foreach (Match literal in Literal().Matches(File.ReadAllText(file)))
            {
                var text = literal.Groups["text"].Value;
                var isBeginning =
                    text.EndsWith('.')
                    || literal.Groups["hole"].Success && text.Contains('.', StringComparison.Ordinal);
                (isBeginning ? beginnings : whole).Add(text);
            }
        }

        // A beginning may be handed on without its point: "vessel.read" and then ".scale".
        foreach (
            var code in whole.Where(code =>
                code.Contains('.', StringComparison.Ordinal) && !English.ContainsKey(code)
            )
        )
        {
            beginnings.Add(code + ".");
        }

        return (whole, beginnings);
    }

    private static Dictionary<string, string> Read(string path)
    {
        using var file = JsonDocument.Parse(File.ReadAllText(path));
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var text in file.RootElement.EnumerateObject())
        {
            Assert.True(texts.TryAdd(text.Name, text.Value.GetString()!), $"{text.Name} stands twice.");
        }

        return texts;
    }

    [GeneratedRegex(
        "\"(?<text>[a-z][a-zA-Z]*(?:[.-][^\"{}\\s]*)?)(?:\"|(?<hole>\\{))",
        RegexOptions.ExplicitCapture,
        2000
    )]
    private static partial Regex Literal();
}
