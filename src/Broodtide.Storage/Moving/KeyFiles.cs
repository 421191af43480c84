namespace Broodtide.Storage.Moving;

/// <summary>The keys of a server as files of its folder, to be read by its own user alone.</summary>
internal static class KeyFiles
{
    public const string Folder = "keys";

    public static IEnumerable<(string Name, string Text)> Read(string folder) =>
        Directory.Exists(folder)
            ? Directory
                .EnumerateFiles(folder, "*.xml")
                .Order(StringComparer.Ordinal)
                .Select(file => (Path.GetFileNameWithoutExtension(file), File.ReadAllText(file)))
            : [];

    public static void Write(string folder, IEnumerable<(string Name, string Text)> keys)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(
                folder,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
            );
        }

        foreach (var (name, text) in keys)
        {
            var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            using var file = new FileStream(Path.Combine(folder, Path.GetFileName(name) + ".xml"), options);
            file.Write(System.Text.Encoding.UTF8.GetBytes(text));
            file.Flush(flushToDisk: true);
        }
    }
}
