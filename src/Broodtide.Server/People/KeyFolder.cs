using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace Broodtide.Server.People;

/// <summary>The framework's keys as files in the data folder, to be read by the server's own user alone.</summary>
internal sealed class KeyFolder(DirectoryInfo folder, ILoggerFactory logging)
    : FileSystemXmlRepository(Narrowed(folder), logging)
{
    private const UnixFileMode OwnFolder =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode OwnFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    public override void StoreElement(XElement element, string friendlyName)
    {
        base.StoreElement(element, friendlyName);
        foreach (var file in Directory.EnumerateFiles())
        {
            Narrow(file.FullName);
        }
    }

    /// <summary>Makes a file that none but the server's own user may read, if there is none.</summary>
    public static void MakeOwnFile(string path)
    {
        if (!File.Exists(path))
        {
            using var made = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite);
        }

        Narrow(path);
    }

    private static DirectoryInfo Narrowed(DirectoryInfo folder)
    {
        folder.Create();
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(folder.FullName, OwnFolder);
        }

        return folder;
    }

    // On Windows a person's own data folder is closed to others already.
    private static void Narrow(string path)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, OwnFile);
        }
    }
}
