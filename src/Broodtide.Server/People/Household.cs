using Broodtide.Server.Sharing;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;

namespace Broodtide.Server.People;

/// <summary>The house's people beside the journal: in a file, or in the house's database.</summary>
internal static class Household
{
    private const string FileName = "house.db";

    /// <summary>
    /// Opens it. A file is made readable by the server's own user alone; a demo has one of its own.
    /// </summary>
    /// <param name="options">Where.</param>
    /// <param name="store">The database, where the house lies in one.</param>
    public static HouseStore Open(ServerOptions options, PostgresStore? store)
    {
        if (store is not null)
        {
            return new PostgresHouse(store);
        }

        var path = options.Demo ? SharedJournal.DemoHouse(options) : PathOf(options.DataFolder);
        KeyFolder.MakeOwnFile(path);
        return HouseFile.Open(path);
    }

    public static string PathOf(DirectoryInfo dataFolder) => Path.Combine(dataFolder.FullName, FileName);
}
