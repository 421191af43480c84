using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sensors;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Tests;

public sealed class TheReadingsFileKeepsTheContract : ReadingStoreContract
{
    private readonly Folder _folder = new();

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        _folder.Dispose();
    }

    protected override Task<IReadingStore> MakeAsync() => AgainAsync();

    protected override Task<IReadingStore> AgainAsync() =>
        Task.FromResult<IReadingStore>(ReadingsFile.Open(_folder["readings.db"]));
}

public sealed class ReadingsFileTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public void A_file_of_the_house_in_its_place_is_left_alone()
    {
        using var folder = new Folder();
        HouseFile.Open(folder["house.db"]).Dispose();
        var trouble = Assert.Throws<StoreUnusableException>(() => ReadingsFile.Open(folder["house.db"]));
        Assert.Equal("store-foreign", trouble.Reason.Code);
    }

    [Fact]
    public async Task A_block_whose_bytes_were_changed_on_the_disk_is_told_and_not_given()
    {
        using var folder = new Folder();
        var path = folder["readings.db"];
        var sensor = SensorId.Find("shelf-1", "water")!;
        var start = NodaTime.Instant.FromUtc(2026, 3, 1, 0, 0);
        var other = DayBlock.Of(new(sensor, new(2026, 3, 1)), "Cel", [new(start, 25)]);
        string name;
        await using (var store = ReadingsFile.Open(path))
        {
            await store.DescribeAsync(sensor, new("Cel"), start, Token);
            var block = DayBlock.Of(new(sensor, new(2026, 3, 1)), "Cel", [new(start, 24)]);
            name = block.Sha256;
            Assert.True(await store.CloseAsync(block, [], null, Token));
        }

        await using (var file = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            await file.OpenAsync(Token);
            using var command = file.CreateCommand();
            command.CommandText = "UPDATE block SET bytes=$bytes";
            command.Parameters.AddWithValue("$bytes", other.ToBytes());
            await command.ExecuteNonQueryAsync(Token);
        }

        await using var again = ReadingsFile.Open(path);
        Assert.Equal("sensor-block-damaged", (await again.BlockAsync(name, Token))!.Reason!.Code);
    }
}
