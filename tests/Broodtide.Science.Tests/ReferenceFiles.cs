using System.Collections.Concurrent;
using Broodtide.Checks;

namespace Broodtide.Science.Tests;

/// <summary>The published values kept under tests/reference.</summary>
internal static class ReferenceFiles
{
    private static readonly ConcurrentDictionary<string, IReadOnlyList<ReadRow>> Read = new(
        StringComparer.Ordinal
    );

    /// <summary>Path of a file there.</summary>
    public static string PathOf(string name)
    {
        for (
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            folder is not null;
            folder = folder.Parent
        )
        {
            if (File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
            {
                return Path.Combine(folder.FullName, "tests", "reference", name);
            }
        }

        throw new DirectoryNotFoundException("The tests run outside the repository.");
    }

    /// <summary>The rows of a check file, read once.</summary>
    public static IReadOnlyList<ReadRow> Rows(string name) =>
        Read.GetOrAdd(name, file => CheckFile.Read(PathOf(file)));

    /// <summary>Where data files are.</summary>
    public static CheckSurroundings Surroundings { get; } = new([PathOf("data")]);
}
