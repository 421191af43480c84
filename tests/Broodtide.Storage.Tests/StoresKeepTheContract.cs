using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;

namespace Broodtide.Storage.Tests;

public sealed class TheSqliteStoreKeepsTheContract : JournalContract
{
    private readonly Folder _folder = new();
    private int _count;

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        _folder.Dispose();
    }

    protected override async Task<IJournal> MakeAsync() =>
        await SqliteJournal.OpenAsync(_folder[$"journal-{++_count}.db"], "cli");
}

public sealed class TheStoreInMemoryKeepsTheContract : JournalContract
{
    protected override Task<IJournal> MakeAsync() =>
        Task.FromResult<IJournal>(new MemoryJournal(Samples.NewReplica()));
}
