namespace Broodtide.Checks;

/// <summary>Where the data files named by checks are looked for.</summary>
/// <param name="Folders">Folders in the order they are searched.</param>
public sealed record CheckSurroundings(IReadOnlyList<string> Folders)
{
    /// <summary>For a check file: its own <c>data</c> folder, then the one given.</summary>
    public static CheckSurroundings Of(string checkFile, string dataFolder) =>
        new([Path.Combine(Path.GetDirectoryName(Path.GetFullPath(checkFile)) ?? ".", "data"), dataFolder]);

    /// <summary>Reads a data file.</summary>
    /// <exception cref="CheckFormatException">It is in none of the folders, or is no table.</exception>
    public DataTable Table(string name)
    {
        foreach (var folder in Folders)
        {
            var path = Path.Combine(folder, name);
            if (File.Exists(path))
            {
                return DataTable.Parse(File.ReadAllText(path));
            }
        }

        throw new CheckFormatException($"the data file {name} is not in {string.Join(" or ", Folders)}");
    }
}
