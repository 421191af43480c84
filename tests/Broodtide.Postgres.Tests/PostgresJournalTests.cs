using Broodtide.Domain.Journal;
using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage;
using Broodtide.Storage.Postgres;
using Broodtide.Storage.Tests;
using Npgsql;

namespace Broodtide.Postgres.Tests;

/// <summary>What the journal promises in a database beyond the contract of every store.</summary>
public sealed class PostgresJournalTests(Cluster cluster)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Two_programs_of_one_door_number_without_a_gap_and_see_each_others_arrivals_in_order()
    {
        var database = cluster.NewHouse();
        using var firstStore = PostgresStore.Open(database);
        using var secondStore = PostgresStore.Open(database);
        await using var first = await PostgresJournal.OpenAsync(firstStore, "server", cancellation: Stop);
        await using var second = await PostgresJournal.OpenAsync(secondStore, "server", cancellation: Stop);
        Assert.Equal(first.Replica, second.Replica);

        // Somebody looks all the while: what has arrived is never seen behind what arrived later.
        using var done = new CancellationTokenSource();
        var watched = Task.Run(
            async () =>
            {
                var seen = new List<long>();
                var isLast = false;
                while (!isLast)
                {
                    isLast = done.IsCancellationRequested;
                    foreach (
                        var arrival in await first.ArrivedSinceAsync(seen.Count > 0 ? seen[^1] : 0, Stop)
                    )
                    {
                        seen.Add(arrival.Place);
                    }
                }

                return seen;
            },
            Stop
        );
        await Task.WhenAll(
            Enumerable
                .Range(0, 6)
                .Select(writer =>
                    Task.Run(
                        async () =>
                        {
                            for (var i = 0; i < 15; i++)
                            {
                                await (writer % 2 == 0 ? first : second).AppendAsync(
                                    [Samples.Note($"{writer}-{i}"), Samples.Note("and")],
                                    Stop
                                );
                            }
                        },
                        Stop
                    )
                )
        );
        await done.CancelAsync();

        var all = await second.ReadAllAsync(Stop);
        Assert.Empty(Account.Of(all).Conflicts());
        Assert.Equal(
            Enumerable.Range(1, 180).Select(i => (long)i),
            all.Select(entry => entry.Envelope.Sequence).Order()
        );
        Assert.Equal(Enumerable.Range(1, 180).Select(i => (long)i), await watched);
    }

    [Fact]
    public async Task The_command_line_and_the_server_are_two_replicas()
    {
        var database = cluster.NewHouse();
        using var store = PostgresStore.Open(database);
        await using var server = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        await using var line = await PostgresJournal.OpenAsync(store, "cli", cancellation: Stop);
        Assert.NotEqual(server.Replica, line.Replica);
        Assert.Equal(
            new HashSet<Domain.ReplicaId> { server.Replica, line.Replica },
            await server.OwnReplicasAsync(Stop)
        );
    }

    [Fact]
    public async Task What_was_confirmed_outlives_the_sudden_end_of_the_database_and_the_program_goes_on()
    {
        await using var own = new Cluster();
        using var store = PostgresStore.Open(own.NewHouse());
        await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        var written = (await journal.AppendAsync([Samples.Note("a")], Stop)).ToList();
        own.Restart();
        // The lines are cut; the program finds new ones by itself.
        written.AddRange(await journal.AppendAsync([Samples.Note("b")], Stop));
        Assert.Equal(Samples.Shape(written), Samples.Shape(await journal.ReadAllAsync(Stop)));
        Assert.Equal([1L, 2L], written.Select(entry => entry.Envelope.Sequence));
    }

    [Theory]
    [InlineData("fsync")]
    [InlineData("full_page_writes")]
    public async Task A_database_that_does_not_keep_what_it_confirms_is_refused_by_the_settings_name(
        string setting
    )
    {
        await using var own = new Cluster();
        var database = own.NewHouse();
        PostgresStore.Open(database).Dispose();
        own.Run($"ALTER SYSTEM SET {setting} = off");
        own.Restart("fast");
        var refused = Assert.Throws<StoreUnusableException>(() => PostgresStore.Open(database));
        Assert.Equal("store-not-durable", refused.Reason.Code);
        Assert.Equal(
            (setting, "off", "on"),
            (
                (string)refused.Reason["setting"]!,
                (string)refused.Reason["found"]!,
                (string)refused.Reason["wanted"]!
            )
        );
        Assert.DoesNotContain("invented-for-tests", refused.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_commit_waits_for_the_disk_whatever_the_role_or_the_caller_says()
    {
        var name = cluster.NewDatabaseName();
        cluster.Run($"ALTER DATABASE {name} SET synchronous_commit = off");
        using var store = PostgresStore.Open(
            cluster.ConnectionTo(name) + ";Options=-c synchronous_commit=off"
        );
        for (var use = 0; use < 3; use++)
        {
            // Given back and taken again, a connection is as it was when it was opened.
            var found = store.Ask(connection =>
            {
                var before = connection.Ask<string>("SHOW synchronous_commit");
                connection.Run("SET synchronous_commit = off");
                return before;
            });
            Assert.Equal("on", found);
        }
    }

    [Fact]
    public async Task A_dump_that_is_read_in_elsewhere_writes_as_a_new_replica()
    {
        var name = cluster.NewDatabaseName();
        using var store = PostgresStore.Open(cluster.ConnectionTo(name));
        await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        await journal.AppendAsync([Samples.Note("a")], Stop);
        NpgsqlConnection.ClearAllPools();
        store.Dispose();
        cluster.Run($"CREATE DATABASE {name}copy TEMPLATE {name}");

        using var copied = PostgresStore.Open(cluster.ConnectionTo(name + "copy"));
        await using var copy = await PostgresJournal.OpenAsync(copied, "server", cancellation: Stop);
        Assert.NotEqual(journal.Replica, copy.Replica);
        Assert.Single(await copy.ReadAllAsync(Stop));

        using var again = PostgresStore.Open(cluster.ConnectionTo(name));
        await using var same = await PostgresJournal.OpenAsync(again, "server", cancellation: Stop);
        Assert.Equal(journal.Replica, same.Replica);
    }

    [Fact]
    public async Task A_database_that_is_behind_what_the_program_saw_writes_as_a_new_replica()
    {
        using var folder = new Folder();
        var name = cluster.NewDatabaseName();
        using var store = PostgresStore.Open(cluster.ConnectionTo(name));
        await using var journal = await PostgresJournal.OpenAsync(store, "server", folder["mark"], Stop);
        var before = journal.Replica;
        await journal.AppendAsync([Samples.Note("a"), Samples.Note("b")], Stop);
        await using (var kept = await PostgresJournal.OpenAsync(store, "server", folder["mark"], Stop))
        {
            Assert.Equal(before, kept.Replica);
        }

        // As if an image of the whole machine from before the second entry had been put back.
        cluster.Run("DELETE FROM broodtide.entry WHERE number = 2; UPDATE broodtide.life SET last = 1", name);
        await using var behind = await PostgresJournal.OpenAsync(store, "server", folder["mark"], Stop);
        Assert.NotEqual(before, behind.Replica);
    }

    [Fact]
    public void What_is_not_ours_or_newer_is_refused_and_left_as_it_was()
    {
        var name = cluster.NewDatabaseName();
        cluster.Run("CREATE SCHEMA broodtide; CREATE TABLE broodtide.shrimp (name text)", name);
        Assert.Equal("store-foreign", Refused(cluster.ConnectionTo(name)));

        var newer = cluster.NewDatabaseName();
        PostgresStore.Open(cluster.ConnectionTo(newer)).Dispose();
        cluster.Run("UPDATE broodtide.about SET steps = 999", newer);
        Assert.Equal("store-newer", Refused(cluster.ConnectionTo(newer)));
    }

    [Fact]
    public void What_cannot_be_connected_to_is_told_without_the_secret()
    {
        Assert.Equal("store-text-wrong", Refused("Hoast=127.0.0.1"));
        Assert.Equal("store-schema-name", Refused("Host=127.0.0.1;Search Path=Big House"));
        var name = cluster.NewDatabaseName();
        var refused = Assert.Throws<StoreUnusableException>(() =>
            PostgresStore.Open(cluster.ConnectionTo(name, secret: "guessed-wrong"))
        );
        Assert.Equal("store-cannot-be-opened", refused.Reason.Code);
        Assert.DoesNotContain("guessed-wrong", refused.ToString(), StringComparison.Ordinal);
        Assert.Equal("store-cannot-be-opened", Refused(cluster.ConnectionTo("nowhere")));
    }

    [Fact]
    public async Task Two_houses_may_lie_in_one_database_each_in_a_schema_of_its_own()
    {
        var database = cluster.NewDatabase();
        using var east = PostgresStore.Open(database + ";Search Path=east");
        using var west = PostgresStore.Open(database + ";Search Path=west");
        await using var one = await PostgresJournal.OpenAsync(east, "server", cancellation: Stop);
        await using var other = await PostgresJournal.OpenAsync(west, "server", cancellation: Stop);
        await one.AppendAsync([Samples.Note("a")], Stop);
        Assert.Empty(await other.ReadAllAsync(Stop));
        Assert.NotEqual(one.Replica, other.Replica);
    }

    [Fact]
    public void Several_programs_may_open_a_new_database_at_once()
    {
        var database = cluster.NewHouse();
        Parallel.For(0, 8, _ => PostgresStore.Open(database).Dispose());
        using var store = PostgresStore.Open(database);
        Assert.Equal(1, store.Ask(connection => connection.Ask<long>("SELECT count(*) FROM life")));
    }

    [Fact]
    public async Task A_large_batch_goes_in_as_one_or_not_at_all()
    {
        using var store = PostgresStore.Open(cluster.NewHouse());
        await using var journal = await PostgresJournal.OpenAsync(store, "server", cancellation: Stop);
        var replica = Samples.NewReplica();
        var batch = new List<Entry>();
        for (var number = 1; number <= 4500; number++)
        {
            batch.Add(
                Samples.Seal(
                    Samples.Note($"{number}"),
                    replica,
                    number,
                    batch.Count > 0 ? batch[^1].Digest : null
                )
            );
        }

        // The second thousand fails at the database: nothing of the first is there.
        store.Write(connection =>
            connection.Run("ALTER TABLE entry ADD CONSTRAINT planted CHECK (seq < 4000)")
        );
        await Assert.ThrowsAsync<StoreUnusableException>(async () => await journal.TakeAsync(batch, Stop));
        Assert.Empty(await journal.ReadAllAsync(Stop));
        store.Write(connection => connection.Run("ALTER TABLE entry DROP CONSTRAINT planted"));
        var taken = await journal.TakeAsync(batch, Stop);
        Assert.Equal((4500, 0, 0), (taken.New, taken.Known, taken.Conflicts.Count));
        Assert.Equal(
            batch.Select(entry => entry.Digest),
            (await journal.ReadAllAsync(Stop)).Select(e => e.Digest)
        );
        Assert.Equal(
            batch.Take(500).Select(entry => entry.Digest),
            (await journal.ReadAfterAsync(replica, 0, 500, Stop)).Select(entry => entry.Digest)
        );
    }

    private static string Refused(string connection) =>
        Assert.Throws<StoreUnusableException>(() => PostgresStore.Open(connection)).Reason.Code;
}
