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
    private const string Name = "house-to-copy";

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
        if (options.Store is not { } database)
        {
            return new(null, options.DataFolder.FullName);
        }

        // One that a power cut left there is of no use any more.
        Remove(options.DataFolder);
        var copy = new DirectoryInfo(Path.Combine(options.DataFolder.FullName, Name));
        using var store = PostgresStore.Open(database);
        HouseMove.IntoFiles(store, copy.FullName);
        return new(copy, copy.FullName);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_copy?.Parent is { } data)
        {
            Remove(data);
        }
    }

    // While it is being made, its name has an ending.
    private static void Remove(DirectoryInfo data)
    {
        foreach (var left in data.Exists ? data.EnumerateDirectories(Name + "*") : [])
        {
            left.Delete(recursive: true);
        }
    }
}
