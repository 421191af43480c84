namespace Broodtide.Domain.Tests.Kit;

/// <summary>Files that tests compare with, copied beside them.</summary>
internal static class Files
{
    public static string PathOf(string name) => Path.Combine(AppContext.BaseDirectory, name);

    public static string[] Lines(string name) => File.ReadAllLines(PathOf(name));

    /// <summary>The rows of a two-column file, without its remarks and its heading.</summary>
    public static IEnumerable<(string Left, string Right)> Pairs(string name) =>
        Lines(name)
            .Where(line => !line.StartsWith('#'))
            .Skip(1)
            .Select(line => (line[..line.LastIndexOf(',')], line[(line.LastIndexOf(',') + 1)..]));
}
