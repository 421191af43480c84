using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using NodaTime;

namespace Broodtide.Server.Sharing;

/// <summary>The house's journal on the server's disk.</summary>
internal static class SharedJournal
{
    /// <summary>Opens it. A demo has a file of its own, made anew at each start, so that no real journal is touched.</summary>
    public static async Task<IJournal> OpenAsync(ServerOptions options, CancellationToken cancel)
    {
        if (!options.Demo)
        {
            return await SqliteJournal.OpenAsync(
                Path.Combine(options.DataFolder.FullName, "journal.db"),
                "server",
                cancel
            );
        }

        var folder = options.DataFolder.CreateSubdirectory("demo");
        var path = Path.Combine(folder.FullName, "invented.db");
        foreach (var file in new[] { path, path + "-wal", path + "-shm" })
        {
            File.Delete(file);
        }

        var journal = await SqliteJournal.OpenAsync(path, "server", cancel);
        var zone = DateTimeZoneProviders.Tzdb.GetSystemDefault();
        var now = SystemClock.Instance.GetCurrentInstant();
        await journal.AppendAsync(InventedHouse.Drafts(now, zone), cancel);
        return journal;
    }
}
