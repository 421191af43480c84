using System.Globalization;

namespace Broodtide.Browser.Tests.FirstLoad;

/// <summary>What each file of the app may weigh, and when it is fetched.</summary>
/// <param name="Name">Name below the app's root.</param>
/// <param name="Bytes">Brotli bytes at most; letters and pictures as they are.</param>
/// <param name="When">When it is fetched.</param>
internal sealed record FileBudget(string Name, long Bytes, Fetched When);

/// <summary>When a file is fetched on the first load.</summary>
internal enum Fetched
{
    /// <summary>Before the first page can be used.</summary>
    First,

    /// <summary>Behind it, without being asked for.</summary>
    Later,

    /// <summary>Only where a phone asks for it: words of another language.</summary>
    Asked,
}

/// <summary>The list of budgets, one file a line: when, bytes, name.</summary>
internal static class ByteBudget
{
    /// <summary>Where it lies; <c>eng/first-load</c> reads it too.</summary>
    public static string Path { get; } =
        System.IO.Path.Combine(
            PublishedSite.Root,
            "tests",
            "Broodtide.Browser.Tests",
            "FirstLoad",
            "budget.txt"
        );

    /// <summary>All that is fetched before the first page can be used, bytes at most.</summary>
    public const long FirstBytes = 3_990_000;

    public static IReadOnlyList<FileBudget> Read() =>
        [
            .. File.ReadLines(Path)
                .Where(line => line.Length > 0 && line[0] != '#')
                .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))
                .Select(parts => new FileBudget(
                    parts[2],
                    long.Parse(parts[1], CultureInfo.InvariantCulture),
                    Enum.Parse<Fetched>(parts[0], ignoreCase: true)
                )),
        ];

    /// <summary>What does not keep to it, one sentence each: a file over its budget, one that is missing, one that nobody budgeted.</summary>
    public static IReadOnlyList<string> Broken(
        IReadOnlyList<FileBudget> budgets,
        IReadOnlyDictionary<string, long> files
    )
    {
        var known = budgets.ToDictionary(budget => budget.Name, StringComparer.Ordinal);
        var first = budgets
            .Where(budget => budget.When is Fetched.First)
            .Sum(budget => files.GetValueOrDefault(budget.Name));
        return
        [
            .. budgets
                .Where(budget => !files.ContainsKey(budget.Name))
                .Select(budget => $"{budget.Name} has a budget and is not there."),
            .. files
                .Where(file => !known.ContainsKey(file.Key))
                .Select(file => $"{file.Key}, {file.Value} bytes, has no budget."),
            .. files
                .Where(file => known.GetValueOrDefault(file.Key)?.Bytes < file.Value)
                .Select(file => $"{file.Key}, {file.Value} bytes, may have {known[file.Key].Bytes}."),
            .. first > FirstBytes ? new[] { $"The first load, {first} bytes, may have {FirstBytes}." } : [],
        ];
    }
}
