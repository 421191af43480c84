using Broodtide.Postgres.Tests.Kit;
using Broodtide.Storage.Postgres;
using NodaTime;

namespace Broodtide.Postgres.Tests;

/// <summary>Two servers on one database hear the same alarm; one of them mails.</summary>
public sealed class OneOfTwoTellsTests(Cluster cluster)
{
    private static readonly Instant Start = Instant.FromUtc(2026, 5, 1, 12, 0);
    private static readonly Duration Holds = Duration.FromMinutes(1);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Of_two_that_ask_at_the_same_time_exactly_one_may_tell()
    {
        var database = cluster.NewHouse();
        using var firstStore = PostgresStore.Open(database);
        using var secondStore = PostgresStore.Open(database);
        var servers = new[]
        {
            (Readings: PostgresReadings.Open(firstStore, Start), Holder: Guid.CreateVersion7()),
            (Readings: PostgresReadings.Open(secondStore, Start), Holder: Guid.CreateVersion7()),
        };
        for (var round = 0; round < 60; round++)
        {
            // The claim of the round before has just run out: either can have it.
            var now = Start + (round * Holds);
            using var together = new Barrier(servers.Length);
            var may = await Task.WhenAll(
                servers.Select(server =>
                    Task.Run(
                        async () =>
                        {
                            together.SignalAndWait(Stop);
                            return await server.Readings.ClaimAsync(
                                "telling",
                                server.Holder,
                                now,
                                now + Holds,
                                Stop
                            );
                        },
                        Stop
                    )
                )
            );
            Assert.Single(may, granted => granted);
        }
    }
}
