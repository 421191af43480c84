using Broodtide.Server.Sharing;
using Broodtide.Storage.Households;

namespace Broodtide.Server.People;

/// <summary>The file of the house's people beside the journal.</summary>
internal static class Household
{
    private const string FileName = "house.db";

    /// <summary>Opens it, making it readable by the server's own user alone. A demo has one of its own.</summary>
    public static HouseFile Open(ServerOptions options)
    {
        var path = options.Demo ? SharedJournal.DemoHouse(options) : PathOf(options.DataFolder);
        KeyFolder.MakeOwnFile(path);
        return HouseFile.Open(path);
    }

    public static string PathOf(DirectoryInfo dataFolder) => Path.Combine(dataFolder.FullName, FileName);
}
