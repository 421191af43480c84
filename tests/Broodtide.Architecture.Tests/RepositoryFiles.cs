using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Broodtide.Architecture.Tests;

/// <summary>The solution as it lies on the disk.</summary>
internal static partial class RepositoryFiles
{
    public static string Root { get; } = FindRoot();

    /// <summary>Each project under src/ without the common prefix, with the projects it refers to.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> References() =>
        Directory
            .GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories)
            .ToDictionary(
                path => Short(Path.GetFileNameWithoutExtension(path)),
                path =>
                    (IReadOnlyList<string>)
                        [
                            .. XDocument
                                .Load(path)
                                .Descendants("ProjectReference")
                                .Select(reference =>
                                    Short(
                                        Path.GetFileNameWithoutExtension(
                                            reference.Attribute("Include")!.Value
                                        )
                                    )
                                )
                                .Order(StringComparer.Ordinal),
                        ],
                StringComparer.Ordinal
            );

    /// <summary>The arrows of a picture: lines such as "Units, Domain &lt;- Workbench".</summary>
    public static IReadOnlyDictionary<string, SortedSet<string>> Arrows(string text)
    {
        var arrows = new Dictionary<string, SortedSet<string>>(StringComparer.Ordinal);
        foreach (Match line in ArrowLine().Matches(text))
        {
            foreach (var to in Names(line.Groups["to"].Value))
            {
                if (!arrows.TryGetValue(to, out var from))
                {
                    arrows[to] = from = new SortedSet<string>(StringComparer.Ordinal);
                }

                from.UnionWith(Names(line.Groups["from"].Value));
            }
        }

        return arrows;
    }

    private static IEnumerable<string> Names(string list) =>
        list.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    private static string Short(string project) =>
        project.StartsWith("Broodtide.", StringComparison.Ordinal) ? project["Broodtide.".Length..] : project;

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName
            ?? throw new InvalidOperationException("Broodtide.slnx stands above no test folder.");
    }

    [GeneratedRegex(
        @"^    (?<from>[A-Z][A-Za-z, ]+?) <- (?<to>[A-Z][A-Za-z, ]+?)\s*$",
        RegexOptions.Multiline,
        1000
    )]
    private static partial Regex ArrowLine();
}
