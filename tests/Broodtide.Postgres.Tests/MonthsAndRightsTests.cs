using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage;
using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Tests;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Postgres.Tests;

/// <summary>Readings lie in a table a month, and a server needs no right but to read and write rows.</summary>
public sealed class MonthsAndRightsTests(Cluster cluster)
{
    private static readonly Instant Now = Instant.FromUtc(2026, 11, 30, 23, 59, 50);
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Months_are_made_ahead_and_one_that_nobody_foresaw_when_it_comes()
    {
        using var store = PostgresStore.Open(cluster.NewHouse());
        await using var readings = PostgresReadings.Open(store, Now);
        Assert.Equal(
            ["hour_2026_11", "hour_2026_12", "hour_2027_01", "hour_2027_02"],
            Tables(store).Where(table => table.StartsWith("hour_", StringComparison.Ordinal))
        );
        Assert.Equal(12, Tables(store).Count(table => table.Contains("_20", StringComparison.Ordinal)));

        await readings.DescribeAsync(Water, new("Cel", "water", 0.0625, 10), Now, Stop);
        // The last second of a month, the first of the next, and an old logger's file.
        var times = new[]
        {
            Instant.FromUtc(2026, 11, 30, 23, 59, 59),
            Instant.FromUtc(2026, 12, 1, 0, 0),
            Instant.FromUtc(2019, 2, 28, 12, 0),
        };
        await readings.TakeAsync([.. times.Select(at => new SensorReading(Water, new(at, 24)))], Stop);
        foreach (
            var (table, at) in ((string, Instant)[])
                [("reading_2026_11", times[0]), ("reading_2026_12", times[1]), ("reading_2019_02", times[2])]
        )
        {
            Assert.Equal(
                at.ToUnixTimeMilliseconds(),
                store.Ask(connection => connection.Ask<long>($"SELECT at FROM {table}"))
            );
        }

        Assert.Equal(
            times.Order(),
            (await readings.OpenAsync(Water, times[2], Now + Duration.FromDays(9), Stop)).Select(one =>
                one.At
            )
        );
    }

    [Fact]
    public async Task A_question_of_one_week_looks_at_its_month_alone()
    {
        using var store = PostgresStore.Open(cluster.NewHouse());
        await using var readings = PostgresReadings.Open(store, Now);
        var plan = store.Ask(connection =>
            connection.List(
                row => row.GetString(0),
                "EXPLAIN SELECT at, value FROM reading WHERE sensor = 1 AND at >= 1796083200000 AND at < 1796688000000"
            )
        );
        var looked = plan.Where(line => line.Contains("reading_", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(looked);
        Assert.All(looked, line => Assert.Contains("reading_2026_12", line, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_role_that_may_read_and_write_rows_is_enough_for_a_server_and_may_do_no_more()
    {
        var name = cluster.NewDatabaseName();
        var role = name + "_server";
        cluster.Run($"CREATE ROLE {role} LOGIN PASSWORD 'invented-for-server'", name);
        var asServer = cluster.ConnectionTo(name, role, "invented-for-server");
        // Before it is prepared there is nothing it could use, and it may make nothing.
        Assert.Equal(
            "store-not-prepared",
            Assert.Throws<StoreUnusableException>(() => PostgresStore.Open(asServer)).Reason.Code
        );
        PostgresStore.Prepare(cluster.ConnectionTo(name), role);

        using var store = PostgresStore.Open(asServer);
        await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        await journal.AppendAsync([Samples.Note("a")], Stop);
        var house = new PostgresHouse(store);
        Assert.Null(new HouseAddresses(house).Current());
        Assert.True(new HouseAddresses(house).KeepFirst("https://shelf.local", Now));
        using (new HouseSharing(house).TakeTurn())
        {
            new PostgresKeys(store).Keep("one", "<key/>");
        }

        // Months come although the role may make no table.
        await using var readings = PostgresReadings.Open(store, Now);
        await readings.DescribeAsync(Water, new("Cel"), Now, Stop);
        await readings.TakeAsync([new(Water, new(Now + Duration.FromDays(4000), 1))], Stop);
        foreach (
            var forbidden in new[]
            {
                "CREATE TABLE mine (one integer)",
                "DROP TABLE entry",
                "TRUNCATE entry",
                "UPDATE about SET steps = 0",
                "ALTER TABLE entry ADD COLUMN mine text",
            }
        )
        {
            Assert.Equal(
                "store-read-only",
                Assert
                    .Throws<StoreUnusableException>(() => store.Ask(connection => connection.Run(forbidden)))
                    .Reason.Code
            );
        }
    }

    private static IReadOnlyList<string> Tables(PostgresStore store) =>
        store.Ask(connection =>
            connection.List(
                row => row.GetString(0),
                "SELECT tablename::text FROM pg_tables WHERE schemaname = current_schema() ORDER BY 1"
            )
        );
}
