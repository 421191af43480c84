using System.Text.RegularExpressions;
using Broodtide.Phone.Language;

namespace Broodtide.Browser.Tests.Parts;

public sealed partial class WordsTests
{
    private static readonly Words English = Words.English();

    [Fact]
    public void Arguments_stand_in_their_places() => Assert.Equal("Step 2 in", English["clock.stepIn", 2]);

    [Fact]
    public void Words_follow_their_number()
    {
        Assert.Equal("1 entry waiting", English["waiting.count", 1]);
        Assert.Equal("3 entries waiting", English["waiting.count", 3]);
    }

    [Fact]
    public void What_is_worked_out_is_slanted()
    {
        var parts = English.Parts("figures.example.sentence", "118 (79–161)");

        Assert.Equal(
            [
                new("about ", WordStyle.Plain),
                new("118 (79–161)", WordStyle.Slanted),
                new(" alive", WordStyle.Plain),
            ],
            parts
        );
    }

    [Fact]
    public void An_argument_brings_no_marks_of_its_own() =>
        Assert.Equal("about _*x*_ alive", English["figures.example.sentence", "_*x*_"]);

    [Fact]
    public void A_code_without_words_is_shown_as_itself() => Assert.Equal("no.such", English["no.such"]);

    [Fact]
    public void Every_text_can_be_said()
    {
        foreach (var code in English.Codes)
        {
            Assert.NotEqual("", English[code, 1, 2, 3, 4, 5, 6]);
        }
    }

    /// <summary>Codes that stand whole in the pages; those put together there are named by the screens' own tests.</summary>
    [Fact]
    public void Every_code_that_a_page_names_has_words()
    {
        var named = new[] { "App", "Phone", "Later" }
            .SelectMany(project =>
                Directory.EnumerateFiles(
                    Path.Combine(PublishedSite.Root, "src", "Broodtide." + project),
                    "*",
                    SearchOption.AllDirectories
                )
            )
            .Where(file =>
                file.EndsWith(".razor", StringComparison.Ordinal)
                || file.EndsWith(".cs", StringComparison.Ordinal)
            )
            .SelectMany(file => Named().Matches(File.ReadAllText(file)))
            .Select(match => match.Groups["code"].Value)
            .Where(code => !code.EndsWith('.'))
            .ToHashSet();

        Assert.NotEmpty(named);
        Assert.Empty(named.Except(English.Codes));
    }

    [GeneratedRegex(
        """(?:[Ww]ords\[|Code=)"(?<code>[a-z][\w.]*)"(?! \+)""",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex Named();
}
