using System.Text;
using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Tests;
using Broodtide.Workbench;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Postgres.Tests;

public sealed class ThePostgresStoreKeepsTheContract(Cluster cluster) : JournalContract
{
    private readonly List<PostgresStore> _stores = [];

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        _stores.ForEach(store => store.Dispose());
    }

    protected override async Task<IJournal> MakeAsync()
    {
        _stores.Add(PostgresStore.Open(cluster.NewHouse()));
        return await PostgresJournal.OpenAsync(_stores[^1], "server");
    }
}

public sealed class ThePostgresHouseKeepsTheContractOfSharing(Cluster cluster)
    : HouseMemoryContract,
        IDisposable
{
    private readonly string _database = cluster.NewHouse();
    private PostgresStore? _store;

    private protected override IHouseMemory Memory => new HouseSharing(new PostgresHouse(Store()));

    public void Dispose() => _store?.Dispose();

    private protected override IHouseMemory Again()
    {
        _store?.Dispose();
        _store = null;
        return Memory;
    }

    private PostgresStore Store() => _store ??= PostgresStore.Open(_database);
}

public sealed class ThePostgresHouseKeepsTheContractOfPeople(Cluster cluster) : HousePeopleContract
{
    private readonly OneHouse _house = new(cluster);

    public override void Dispose()
    {
        base.Dispose();
        _house.Dispose();
    }

    private protected override HouseStore Open() => _house.Open();

    private protected override string Kept() => _house.Kept();
}

public sealed class ThePostgresHouseKeepsTheContractOfCalendars(Cluster cluster) : HouseCalendarsContract
{
    private readonly OneHouse _house = new(cluster);

    public override void Dispose()
    {
        base.Dispose();
        _house.Dispose();
    }

    private protected override HouseStore Open() => _house.Open();

    private protected override string Kept() => _house.Kept();
}

/// <summary>A house in a database of its own, opened anew each time.</summary>
internal sealed class OneHouse(Cluster cluster) : IDisposable
{
    private readonly string _house = cluster.NewHouse();
    private readonly List<PostgresStore> _stores = [];

    public HouseStore Open()
    {
        _stores.Add(PostgresStore.Open(_house));
        return new PostgresHouse(_stores[^1]);
    }

    /// <summary>The files of the database that it lies in, once all that was written has reached them.</summary>
    public string Kept()
    {
        cluster.Run("CHECKPOINT");
        return string.Concat(
            cluster.FilesOf("postgres").Select(file => Encoding.Latin1.GetString(File.ReadAllBytes(file)))
        );
    }

    public void Dispose() => _stores.ForEach(store => store.Dispose());
}

public sealed class ThePostgresReadingsKeepTheContract(Cluster cluster) : ReadingStoreContract
{
    private readonly string _house = cluster.NewHouse();
    private readonly List<PostgresStore> _stores = [];

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        _stores.ForEach(store => store.Dispose());
    }

    protected override Task<IReadingStore> MakeAsync() => AgainAsync();

    protected override Task<IReadingStore> AgainAsync()
    {
        _stores.Add(PostgresStore.Open(_house));
        return Task.FromResult<IReadingStore>(PostgresReadings.Open(_stores[^1], Start));
    }
}
