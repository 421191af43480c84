using Broodtide.Domain.Journal;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Tests;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>An invented house in files with something of everything, odd things too.</summary>
internal static class WholeHouse
{
    private static readonly Instant Noon = Instant.FromUtc(2026, 3, 1, 12, 0);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static byte[] Photo => [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3];

    public static async Task<string> MakeAsync(string place)
    {
        var folder = Directory.CreateDirectory(place).FullName;
        await using (
            var journal = await SqliteJournal.OpenAsync(Path.Combine(folder, "journal.db"), "server", Stop)
        )
        {
            var own = await journal.AppendAsync([Samples.Note("a"), Samples.Note("secret")], Stop);
            var other = Samples.NewReplica();
            var first = Samples.Seal(Samples.Note("b"), other, 1, null);
            var rival = Samples.Seal(Samples.Note("c"), other, 1, null);
            var later = Samples.Seal(Samples.Note("d"), other, 9, first.Digest);
            await journal.TakeAsync(
                [later, rival, first, Samples.Unknown(Samples.NewReplica(), 1, null)],
                Stop
            );
            await journal.AppendAsync(
                [Samples.Erasure(own[1].Id), Samples.Erasure(Samples.Note("never").Id)],
                Stop
            );
            await journal.AppendAsync([Samples.Note("e")], Stop);
            await journal.KeepAsync([new Checkpoint("ledger", 1, 4, new(1, 2), new byte[] { 1 })], Stop);
        }

        using (var house = HouseFile.Open(Path.Combine(folder, "house.db")))
        {
            var ada = new Person(
                new PersonId(Guid.CreateVersion7()),
                "Ada",
                Role.Owner,
                "hash of Ada",
                Noon,
                null
            );
            new HousePeople(house).AddFirstOwner(ada);
            new HouseSessions(house).Begin(
                new(Guid.CreateVersion7(), ada.Id, "Browser", Noon, Noon, null, null),
                SecretHash.Of("k")
            );
            new HouseCalendars(house).Put(new(ada.Id, Noon, "Europe/Berlin", "en"), SecretHash.Of("s"));
            new HouseAddresses(house).KeepFirst("https://shelf.local", Noon);
            var sharing = new HouseSharing(house);
            sharing.Bind([Samples.NewReplica()], ada.Id);
            var held = Samples.Seal(Samples.Note("held"), Samples.NewReplica(), 1, null);
            sharing.HoldBack([
                new(
                    held.Digest,
                    held.Id,
                    held.Envelope.Replica,
                    1,
                    ada.Id,
                    Noon,
                    "revoked",
                    held.Bytes,
                    Decision.None
                ),
            ]);
            sharing.Mark([new(held.Digest, held.Envelope.Replica, MarkSort.Brought, ada.Id, Noon, 0)]);
            sharing.Log(new(Noon, ada.Id, "Ada", "sync-not-json", "ü"));
        }

        await using (
            var readings = ReadingsFile.Open(ReadingsFile.BesidePath(Path.Combine(folder, "journal.db")))
        )
        {
            var water = SensorId.Find("shelf-1", "water")!;
            await readings.DescribeAsync(water, new("Cel", "water", 0.0625, 10), Noon, Stop);
            await readings.TakeAsync(
                [
                    new(water, new(Noon, 24.5)),
                    new(water, new(Noon + Duration.FromDays(75), -0.0)),
                    new(water, new(Noon - Duration.FromDays(400), 1e-300)),
                ],
                Stop
            );
        }

        PhotoFolder.Beside(Path.Combine(folder, "journal.db")).Put(Photo);
        Directory.CreateDirectory(Path.Combine(folder, "keys"));
        await File.WriteAllTextAsync(Path.Combine(folder, "keys", "key-1.xml"), "<key/>", Stop);
        return folder;
    }

    public static IReadOnlyList<string> Rows(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        return
        [
            .. connection
                .List(
                    row => row.GetString(0),
                    "SELECT name FROM sqlite_schema WHERE type='table' AND name NOT LIKE 'sqlite_%' "
                        + "AND name NOT IN ('life', 'door', 'checkpoint') ORDER BY name"
                )
                .SelectMany(table =>
                    connection
                        .List(
                            row =>
                                table
                                + string.Join(
                                    '|',
                                    Enumerable
                                        .Range(0, row.FieldCount)
                                        .Select(at =>
                                            row.GetValue(at) switch
                                            {
                                                byte[] bytes => Convert.ToHexString(bytes),
                                                double number => BitConverter
                                                    .DoubleToInt64Bits(number)
                                                    .ToString(
                                                        "X",
                                                        System.Globalization.CultureInfo.InvariantCulture
                                                    ),
                                                var value => $"{value}",
                                            }
                                        )
                                ),
                            $"SELECT * FROM \"{table}\""
                        )
                        .Order(StringComparer.Ordinal)
                ),
        ];
    }
}
