using System.Text;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Sharing;

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

public sealed class TheHouseInMemoryKeepsTheContract : HouseMemoryContract
{
    private protected override IHouseMemory Memory { get; } = new MemoryHouse();

    private protected override IHouseMemory Again() => ((MemoryHouse)Memory).Copy();
}

public sealed class TheHouseFileKeepsTheContract : HouseMemoryContract, IDisposable
{
    private readonly Folder _folder = new();
    private readonly List<HouseFile> _files = [];
    private HouseSharing? _memory;

    private protected override IHouseMemory Memory => _memory ??= Open();

    private protected override IHouseMemory Again()
    {
        _files.ForEach(file => file.Dispose());
        _files.Clear();
        return _memory = Open();
    }

    public void Dispose()
    {
        _files.ForEach(file => file.Dispose());
        _folder.Dispose();
    }

    private HouseSharing Open()
    {
        _files.Add(HouseFile.Open(_folder["house.db"]));
        return new HouseSharing(_files[^1]);
    }
}

public sealed class TheHouseFileKeepsTheContractOfPeople : HousePeopleContract
{
    private readonly Folder _folder = new();

    public override void Dispose()
    {
        base.Dispose();
        _folder.Dispose();
    }

    private protected override HouseStore Open() => HouseFile.Open(_folder["house.db"]);

    private protected override string Kept() =>
        string.Concat(
            Directory
                .EnumerateFiles(_folder.ToString())
                .Select(file => Encoding.Latin1.GetString(File.ReadAllBytes(file)))
        );
}

public sealed class TheHouseFileKeepsTheContractOfCalendars : HouseCalendarsContract
{
    private readonly Folder _folder = new();

    public override void Dispose()
    {
        base.Dispose();
        _folder.Dispose();
    }

    private protected override HouseStore Open() => HouseFile.Open(_folder["house.db"]);

    private protected override string Kept() =>
        string.Concat(
            Directory
                .EnumerateFiles(_folder.ToString())
                .Select(file => Encoding.Latin1.GetString(File.ReadAllBytes(file)))
        );
}
