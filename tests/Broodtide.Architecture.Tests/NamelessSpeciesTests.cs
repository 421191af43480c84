using System.Text.RegularExpressions;

namespace Broodtide.Architecture.Tests;

/// <summary>
/// What is known of a species stands in its profile. Code that named one would go on using its numbers for all; only
/// comments, and the words by which a figure names its source, may.
/// </summary>
public sealed partial class NamelessSpeciesTests
{
    // Where a literal is the source of a figure, told beside it.
    private static readonly string[] SourcesInWords = ["VesselPriors.cs", "AmmoniaStudies.cs"];

    [Fact]
    public void No_code_names_a_species()
    {
        var names = Directory
            .GetFiles(Path.Combine(RepositoryFiles.Root, "src", "Broodtide.Workbench", "Species"), "*.json")
            .Select(Path.GetFileNameWithoutExtension)
            .SelectMany(code => code!.Split('-'))
            .Where(word => word.Length > 3)
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        Assert.Contains("multidentata", names);
        Assert.True(names.Count > 20);

        var found = Sources()
            .Where(file => !SourcesInWords.Contains(Path.GetFileName(file)))
            .SelectMany(file =>
                Code(File.ReadAllText(file))
                    .Where(word => names.Contains(word))
                    .Select(word => $"{Path.GetRelativePath(RepositoryFiles.Root, file)}: {word}")
            );
        Assert.Empty(found);
    }

    [Fact]
    public void A_name_in_a_comment_is_told_from_one_in_code() =>
        Assert.Equal(
            ["var", "a", "typus", "b"],
            Code("// Caridina\nvar a = \"typus\"; /* lar */\n/// <em>idella</em>\n@* prashadi *@b")
        );

    private static IEnumerable<string> Sources() =>
        Directory
            .GetFiles(Path.Combine(RepositoryFiles.Root, "src"), "*", SearchOption.AllDirectories)
            .Where(file =>
                file.EndsWith(".cs", StringComparison.Ordinal)
                || file.EndsWith(".razor", StringComparison.Ordinal)
            );

    // The words of a file without its comments, camel humps parted.
    private static IEnumerable<string> Code(string text) =>
        Words().Matches(Comments().Replace(text, " ")).Select(word => word.Value);

    [GeneratedRegex(@"//[^\n]*|/\*.*?\*/|@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Comments();

    [GeneratedRegex("[A-Z]?[a-z]+|[A-Z]+(?![a-z])")]
    private static partial Regex Words();
}
