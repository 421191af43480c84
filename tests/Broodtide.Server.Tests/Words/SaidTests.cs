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

    [Fact]
    public void What_a_browser_may_want_in_German_has_every_sentence_with_its_places_and_none_in_English()
    {
        var page = Said
            .All.Where(sentence =>
                sentence.Key.StartsWith("trust.", StringComparison.Ordinal)
                || sentence.Key.StartsWith("alarm-mail.", StringComparison.Ordinal)
            )
            .ToList();
        Assert.True(page.Count > 15);
        Assert.Equal(page.Select(sentence => sentence.Key).Order(), Said.German.Keys.Order());
        foreach (var (code, english) in page)
        {
            Assert.NotEqual(english, Said.German[code]);
            Assert.Equal(Places(english), Places(Said.German[code]));
        }

        static IEnumerable<string> Places(string text) =>
            Place().Matches(text).Select(match => match.Value).Order();
    }

    [Theory]
    [InlineData("de-AT,de;q=0.9,en;q=0.5", "German")]
    [InlineData("fr, de;q=0.3", "German")]
    [InlineData("en-GB,de;q=0.9", "English")]
    [InlineData("de;q=0, *", "English")]
    [InlineData("fr", "English")]
    [InlineData("", "English")]
    [InlineData(";;;", "English")]
    public void The_wanted_language_that_is_spoken_here_is_taken(string wanted, string speech)
    {
        var context = new Microsoft.AspNetCore.Http.DefaultHttpContext();
        context.Request.Headers.AcceptLanguage = wanted;
        Assert.Equal(speech, Speeches.WantedBy(context.Request).ToString());
    }

    [GeneratedRegex("\\{[a-z]+\\}", RegexOptions.NonBacktracking)]
    private static partial Regex Place();

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
