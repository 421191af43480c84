using Broodtide.Storage;
using Broodtide.Storage.Moving;
using Broodtide.Storage.Postgres;

namespace Broodtide.Server.Backups;

/// <summary>
/// The files that a backup is made of: the data folder; or, of a house in a database, a copy of one moment of it as files,
/// which goes again when this is disposed of. The copy lies in the data folder, where only the server's user may look:
/// the folder of the backups may be somebody else's disk.
/// </summary>
internal sealed class HouseToCopy : IDisposable
{
    private const string ForBackup = "house-to-copy";
    private const string ForVerifying = "house-to-verify";

    private readonly DirectoryInfo? _copy;

    private HouseToCopy(DirectoryInfo? copy, string folder)
    {
        _copy = copy;
        Folder = folder;
    }

    /// <summary>Where the files are.</summary>
    public string Folder { get; }

    /// <summary>Copies where that is needed.</summary>
    /// <exception cref="StoreUnusableException">The database is away, or what was copied is not what was read; nothing is left behind.</exception>
    public static HouseToCopy Of(ServerOptions options)
    {
        return options.Store is { } database
            ? Of(database, options.DataFolder, ForBackup)
            : new(null, options.DataFolder.FullName);
    }

    /// <summary>
    /// A copy of one moment of a house in a database, to be looked at. Beside it a server may make a backup from its own.
    /// </summary>
    /// <exception cref="StoreUnusableException">The database is away, or what was copied is not what was read; nothing is left behind.</exception>
    public static HouseToCopy ToVerify(string database, DirectoryInfo data) =>
        Of(database, data, ForVerifying);

    private static HouseToCopy Of(string database, DirectoryInfo data, string name)
    {
        // One that a power cut left there is of no use any more.
        Remove(data, name);
        var copy = new DirectoryInfo(Path.Combine(data.FullName, name));
        using var store = PostgresStore.Open(database);
        HouseMove.IntoFiles(store, copy.FullName);
        return new(copy, copy.FullName);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_copy?.Parent is { } data)
        {
            Remove(data, _copy.Name);
        }
    }

    // While it is being made, its name has an ending.
    private static void Remove(DirectoryInfo data, string name)
    {
        foreach (var left in data.Exists ? data.EnumerateDirectories(name + "*") : [])
        {
            left.Delete(recursive: true);
        }
    }
}
