using Broodtide.Domain.Journal;
using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage;
using Broodtide.Storage.Households;
using Broodtide.Storage.Moving;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Tests;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Postgres.Tests;

/// <summary>A house is carried from files into a database and back, and is the same house.</summary>
public sealed class MovingTests(Cluster cluster) : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);
    private readonly Folder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task There_and_back_is_the_same_house_byte_for_byte_and_in_the_same_order()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        var database = cluster.NewHouse();
        using (var store = PostgresStore.Open(database))
        {
            var moved = HouseMove.IntoDatabase(from, store);
            Assert.Equal((9, 1), (moved.Entries, moved.Photos));
            await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
            Assert.Equal(await OrderAsync(from), Shapes(await journal.ReadAllAsync(Stop)));
            // Both may be used by mistake: they never number as the same writer.
            await using var source = await SqliteJournal.OpenAsync(
                Path.Combine(from, "journal.db"),
                "server",
                Stop
            );
            Assert.NotEqual(source.Replica, journal.Replica);
            Assert.Equal(10, (await journal.AppendAsync([Samples.Note("here")], Stop)).Count + 9);
            var arrived = await journal.ArrivedSinceAsync(0, Stop);
            Assert.Equal(arrived.Count, arrived.Select(one => one.Place).Distinct().Count());
            Assert.Equal(
                "hash of Ada",
                new HousePeople(new PostgresHouse(store)).All().Single().PassphraseHash
            );
            new HouseSharing(new PostgresHouse(store)).Log(
                new(Noon, default, "Ada", "sync-not-json", "later")
            );
        }

        var untouched = cluster.NewHouse();
        using (var store = PostgresStore.Open(untouched))
        {
            HouseMove.IntoDatabase(from, store);
            HouseMove.IntoFiles(store, _folder["back"]);
        }

        Assert.Equal(await OrderAsync(from), await OrderAsync(_folder["back"]));
        foreach (var file in (string[])["journal.db", "house.db", "journal.sensors.db"])
        {
            Assert.Equal(
                WholeHouse.Rows(Path.Combine(from, file)),
                WholeHouse.Rows(Path.Combine(_folder["back"], file))
            );
        }

        var photos = PhotoFolder.Beside(Path.Combine(_folder["back"], "journal.db"));
        Assert.Equal(WholeHouse.Photo, photos.Read(Assert.Single(photos.All()))!.Value);
        Assert.Equal(
            "<key/>",
            await File.ReadAllTextAsync(Path.Combine(_folder["back"], "keys", "key-1.xml"), Stop)
        );
    }

    [Fact]
    public async Task A_place_that_is_not_empty_is_refused_and_left_as_it_was()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        using var store = PostgresStore.Open(cluster.NewHouse());
        await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        var there = await journal.AppendAsync([Samples.Note("here before")], Stop);
        Assert.Equal("store-not-empty", Refused(() => HouseMove.IntoDatabase(from, store)));
        Assert.Equal(Samples.Shape(there), Samples.Shape(await journal.ReadAllAsync(Stop)));
        Assert.False(new HousePeople(new PostgresHouse(store)).HasOwner());

        Directory.CreateDirectory(_folder["full"]);
        await File.WriteAllTextAsync(_folder["full/letter"], "here before", Stop);
        Assert.Equal("store-not-empty", Refused(() => HouseMove.IntoFiles(store, _folder["full"])));
        Assert.Equal([_folder["full/letter"]], Directory.EnumerateFileSystemEntries(_folder["full"]));
        Assert.Equal("house-none", Refused(() => HouseMove.IntoDatabase(_folder["nowhere"], store)));
    }

    [Fact]
    public async Task Whatever_fails_on_the_way_nothing_of_it_is_there()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        using var store = PostgresStore.Open(cluster.NewHouse());
        // The last table of all refuses its row.
        store.Write(connection =>
            connection.Run("ALTER TABLE photo ADD CONSTRAINT planted CHECK (bytes = '')")
        );
        Assert.Equal("store-failed", Refused(() => HouseMove.IntoDatabase(from, store)));
        Assert.Equal(0, store.Ask(connection => connection.Ask<long>("SELECT count(*) FROM entry")));
        Assert.False(new HousePeople(new PostgresHouse(store)).HasOwner());

        store.Write(connection => connection.Run("ALTER TABLE photo DROP CONSTRAINT planted"));
        HouseMove.IntoDatabase(from, store);
        store.Write(connection => connection.Run("UPDATE photo SET bytes = 'other'"));
        Assert.Equal("photo-file-damaged", Refused(() => HouseMove.IntoFiles(store, _folder["back"])));
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.ToString(), "back*"));
    }

    [Fact]
    public async Task A_damaged_journal_is_not_carried()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        using (
            var connection = new SqliteConnection(
                $"Data Source={Path.Combine(from, "journal.db")};Pooling=False"
            )
        )
        {
            connection.Open();
            using var change = connection.CreateCommand();
            change.CommandText =
                "UPDATE entry SET salted_body = zeroblob(length(salted_body)) WHERE number = 1";
            Assert.Equal(1, change.ExecuteNonQuery());
        }

        using var store = PostgresStore.Open(cluster.NewHouse());
        Assert.Equal("store-damaged", Refused(() => HouseMove.IntoDatabase(from, store)));
        Assert.Equal(0, store.Ask(connection => connection.Ask<long>("SELECT count(*) FROM entry")));
    }

    [Fact]
    public async Task One_command_carries_and_says_how_much()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        var database = cluster.NewHouse();
        var (code, said, complained) = await StoreServer.RunAsync(
            database,
            "store",
            "into-database",
            "--data",
            from
        );
        Assert.Equal((0, ""), (code, complained));
        Assert.Contains("9 entries", said, StringComparison.Ordinal);
        Assert.Contains("1 photos", said, StringComparison.Ordinal);
        (code, _, complained) = await StoreServer.RunAsync(
            database,
            "store",
            "into-database",
            "--data",
            from
        );
        Assert.Equal(2, code);
        Assert.Contains("holds a house already", complained, StringComparison.Ordinal);
        (code, _, _) = await StoreServer.RunAsync(database, "store", "into-files", "--data", _folder["back"]);
        Assert.Equal(0, code);
        Assert.Equal(await OrderAsync(from), await OrderAsync(_folder["back"]));
        (code, _, complained) = await StoreServer.RunAsync(
            null,
            "store",
            "into-files",
            "--data",
            _folder["more"]
        );
        Assert.Equal(2, code);
        Assert.Contains("BROODTIDE_STORE", complained, StringComparison.Ordinal);
        (code, said, _) = await StoreServer.RunAsync(database, "people", "list");
        Assert.Equal(0, code);
        Assert.Contains("Ada", said, StringComparison.Ordinal);
        (code, _, complained) = await StoreServer.RunAsync(null, "people", "list", "--store", database);
        Assert.Contains("A password does not belong on a command line", complained, StringComparison.Ordinal);
        Assert.DoesNotContain("invented-for-tests", complained, StringComparison.Ordinal);
        Assert.NotEqual(0, code);
    }

    [Theory]
    [InlineData("UPDATE photo SET bytes = 'other'")]
    [InlineData("UPDATE entry SET envelope = overlay(envelope placing 'x' from 20) WHERE number = 1")]
    public async Task A_house_in_a_database_is_verified_whole_and_what_is_wrong_is_told(string damage)
    {
        var database = cluster.NewHouse();
        using var store = PostgresStore.Open(database);
        HouseMove.IntoDatabase(await WholeHouse.MakeAsync(_folder["from"]), store);
        Directory.CreateDirectory(_folder["data"]);
        var (code, said, complained) = await VerifyAsync();
        Assert.Equal((0, ""), (code, complained));
        Assert.StartsWith("9 entries, 1 photos", said, StringComparison.Ordinal);

        store.Write(connection => connection.Run(damage));
        (code, said, complained) = await VerifyAsync();
        Assert.Equal((3, ""), (code, said));
        Assert.NotEmpty(complained);

        async Task<(int Code, string Said, string Complained)> VerifyAsync()
        {
            var told = await StoreServer.RunAsync(database, "store", "verify", "--data", _folder["data"]);
            Assert.Empty(Directory.EnumerateFileSystemEntries(_folder["data"]));
            return told;
        }
    }

    private static async Task<IReadOnlyList<string>> OrderAsync(string folder)
    {
        await using var journal = await SqliteJournal.OpenAsync(
            Path.Combine(folder, "journal.db"),
            "look",
            Stop
        );
        return Shapes(await journal.ReadAllAsync(Stop));
    }

    // In the order of arrival, unlike the shapes that two stores of any order agree on.
    private static IReadOnlyList<string> Shapes(IReadOnlyList<Entry> entries) =>
        [.. entries.SelectMany(entry => Samples.Shape([entry]))];

    private static string Refused(Func<Moved> move) =>
        Assert.Throws<StoreUnusableException>(move).Reason.Code;
}
