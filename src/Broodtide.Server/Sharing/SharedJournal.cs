using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using NodaTime;

namespace Broodtide.Server.Sharing;

/// <summary>The house's journal on the server's disk.</summary>
internal static class SharedJournal
{
    /// <summary>What a demo remembers of sharing lies beside its journal, so that both are thrown away together.</summary>
    public static string DemoHouse(ServerOptions options) =>
        Path.Combine(options.DataFolder.CreateSubdirectory("demo").FullName, "house.db");

    /// <summary>
    /// Opens it. A demo has a file of its own, so that no real journal is touched; it is kept from start to start,
    /// since phones remember what they were given. Whoever removes its folder gets a new one.
    /// </summary>
    /// <param name="options">Where.</param>
    /// <param name="store">The database, where the house lies in one.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task<ISharedJournal> OpenAsync(
        ServerOptions options,
        PostgresStore? store,
        CancellationToken cancel
    )
    {
        if (store is not null)
        {
            return await PostgresJournal.OpenAsync(
                store,
                "server",
                Path.Combine(options.DataFolder.FullName, "journal.postgresql"),
                cancel
            );
        }

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
        var journal = await SqliteJournal.OpenAsync(path, "server", cancel);
        if ((await journal.ReadAllAsync(cancel)).Count > 0)
        {
            return journal;
        }

        var zone = DateTimeZoneProviders.Tzdb.GetSystemDefault();
        var now = SystemClock.Instance.GetCurrentInstant();
        await journal.AppendAsync(InventedHouse.Drafts(now, zone), cancel);
        return journal;
    }
}
