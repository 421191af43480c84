using Broodtide.Server.People;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;

namespace Broodtide.Server.Stores;

/// <summary>The house as a command beside the server opens it, wherever it lies.</summary>
internal static class HouseAtHand
{
    /// <summary>Does something with the house.</summary>
    /// <param name="data">Folder of the files, where it lies in files.</param>
    /// <param name="database">The database, where it lies in one.</param>
    /// <param name="work">What is done.</param>
    public static T With<T>(DirectoryInfo data, string? database, Func<HouseStore, T> work)
    {
        using var store = database is null ? null : PostgresStore.Open(database);
        using HouseStore house = store is null
            ? HouseFile.Open(Household.PathOf(data))
            : new PostgresHouse(store);
        return work(house);
    }
}
