using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Tests;
using Broodtide.Workbench;

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
        _stores.Add(PostgresStore.Open(cluster.NewDatabase()));
        return await PostgresJournal.OpenAsync(_stores[^1], "server");
    }
}
