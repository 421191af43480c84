namespace Broodtide.Browser.Tests.FirstLoad;

/// <summary>The files of a published app and the bytes that a phone is sent for each: the packed twin's where there is one.</summary>
internal static class PublishedFiles
{
    private static readonly string[] NeverFetched = [".br", ".gz", ".map"];

    /// <summary>Name below the app's root, and bytes as they are sent.</summary>
    public static SortedDictionary<string, long> In(string root)
    {
        var files = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var file in Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories))
        {
            if (
                NeverFetched.Contains(Path.GetExtension(file))
                || Path.GetFileName(file).StartsWith("LICENSE", StringComparison.Ordinal)
            )
            {
                continue;
            }

            var packed = new FileInfo(file + ".br");
            var name = Path.GetRelativePath(root, file).Replace('\\', '/');
            files[name] = packed.Exists ? packed.Length : new FileInfo(file).Length;
        }

        return files;
    }
}
