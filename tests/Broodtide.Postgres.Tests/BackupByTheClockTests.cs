using Broodtide.Postgres.Tests.Kit;
using Broodtide.Server;
using Broodtide.Server.Backups;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Moving;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Tests;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Postgres.Tests;

/// <summary>A server whose house lies in a database backs it up by its clock as any other does.</summary>
public sealed class BackupByTheClockTests(Cluster cluster) : IDisposable
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 11, 26, 12, 0);
    private readonly Folder _folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task What_is_in_the_database_can_be_had_from_the_backup_alone()
    {
        var from = await WholeHouse.MakeAsync(_folder["from"]);
        var database = cluster.NewHouse();
        using (var store = PostgresStore.Open(database))
        {
            HouseMove.IntoDatabase(from, store);
        }

        var data = Directory.CreateDirectory(_folder["data"]);
        // What a power cut in the middle of the last one left.
        Directory.CreateDirectory(Path.Combine(data.FullName, "house-to-copy.coming-1", "keys"));
        var clock = Clock(data, database);
        Assert.True(clock.Look(Stop), clock.Trouble?.Why.ToString());
        Assert.Empty(data.EnumerateFileSystemInfos());

        Restoring.Into(Assert.Single(clock.Kept).Path, _folder["back"], null, cancellation: Stop);
        Assert.Equal(await OrderAsync(from), await OrderAsync(_folder["back"]));
        Assert.True(File.Exists(Path.Combine(_folder["back"], "house.db")));
        Assert.False(Directory.Exists(Path.Combine(_folder["back"], "keys")));
    }

    [Fact]
    public void A_database_that_is_away_is_told_to_the_owner()
    {
        var data = Directory.CreateDirectory(_folder["data"]);
        var clock = Clock(data, "Host=127.0.0.1;Port=1;Database=none;Username=none;Timeout=1");
        Assert.False(clock.Look(Stop));
        Assert.Contains("store-away", clock.Trouble?.Why.ToString(), StringComparison.Ordinal);
        Assert.Empty(clock.Kept);
        Assert.Empty(data.EnumerateFileSystemInfos());
    }

    private BackupClock Clock(DirectoryInfo data, string database)
    {
        var plan = new BackupPlan(
            new DirectoryInfo(_folder["backups"]),
            Duration.FromHours(24),
            Keep: 2,
            Passphrase: null
        );
        return new(
            new ServerOptions([], data, Demo: false) { Store = database, Backups = plan },
            plan,
            new FakeClock(Noon),
            NullLogger<BackupClock>.Instance
        );
    }

    private static async Task<IReadOnlyList<string>> OrderAsync(string folder)
    {
        await using var journal = await SqliteJournal.OpenAsync(
            Path.Combine(folder, "journal.db"),
            "look",
            Stop
        );
        return [.. (await journal.ReadAllAsync(Stop)).Select(entry => entry.Digest.ToString())];
    }
}
