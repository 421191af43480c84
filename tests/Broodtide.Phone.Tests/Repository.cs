namespace Broodtide.Phone.Tests;

/// <summary>Where the files of the repository lie.</summary>
internal static class Repository
{
    public static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Broodtide.slnx")))
        {
            folder =
                folder.Parent ?? throw new InvalidOperationException("The repository's root was not found.");
        }

        return folder.FullName;
    }
}
