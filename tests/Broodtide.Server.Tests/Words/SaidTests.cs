using System.Text.RegularExpressions;
using Broodtide.Server.Words;
using Broodtide.Units;

namespace Broodtide.Server.Tests.Words;

public sealed partial class SaidTests
{
    [Fact]
    public void Places_are_filled_by_name_and_an_unknown_code_stands_for_itself()
    {
        Assert.Equal(
            "The house is at https://shelf.local",
            Said.Sentence("address-is", new Argument("address", "https://shelf.local"))
        );
        Assert.Equal("no-such-code", Said.Sentence("no-such-code"));
    }

    /// <summary>Codes as they are written in the source of the server, each with a sentence, and no sentence too many.</summary>
    [Fact]
    public void Every_code_in_the_source_has_a_sentence_and_every_sentence_a_code()
    {
        var source = string.Concat(
            Directory
                .GetFiles(
                    Path.Combine(RepositoryRoot(), "src", "Broodtide.Server"),
                    "*.cs",
                    SearchOption.AllDirectories
                )
                .Select(File.ReadAllText)
        );
        var used = Quoted()
            .Matches(source)
            .Select(match => match.Groups["code"].Value)
            .ToHashSet(StringComparer.Ordinal);

        Assert.DoesNotContain(Said.All.Keys, code => !used.Contains(code));
        var asked = Asked().Matches(source).Select(match => match.Groups["code"].Value).Distinct().ToList();
        Assert.True(asked.Count > 20, "The pattern finds nothing any more.");
        Assert.DoesNotContain(asked, code => !Said.All.ContainsKey(code));
    }

    [GeneratedRegex("\"(?<code>[a-z0-9.-]+)\"", RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture)]
    private static partial Regex Quoted();

    [GeneratedRegex(
        "(?:Said\\.Sentence\\(|Tell\\(|Put\\(\"[a-z0-9]+\", |Safe\\()\\s*\"(?<code>[a-z0-9.-]+)\"",
        RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture
    )]
    private static partial Regex Asked();

    private static string RepositoryRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The repository was not found.");
        }

        return folder.FullName;
    }
}
