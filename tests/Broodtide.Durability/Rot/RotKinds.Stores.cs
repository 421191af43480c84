using Broodtide.Durability.Works;
using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Verifying;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Durability.Rot;

/// <summary>The stores beside the journal, and backups.</summary>
internal static partial class RotKinds
{
    private sealed class SensorRot : RotKind
    {
        private const int Days = 20;
        private static readonly SensorId Sensor = SensorId.Find("shelf-1", "water")!;
        private List<string> _put = [];

        public override string Name => "closed days of sensors";

        public override async Task<string> MakeAsync(string folder)
        {
            var path = ReadingsFile.BesidePath(Path.Combine(folder, Batches.StoreName));
            await using var readings = ReadingsFile.Open(path);
            await readings.DescribeAsync(Sensor, new("Cel"), Now);
            for (var day = 0; day < Days; day++)
            {
                var date = new LocalDate(2026, 3, 1).PlusDays(day);
                var start = date.AtMidnight().InUtc().ToInstant();
                var block = DayBlock.Of(
                    new(Sensor, date),
                    "Cel",
                    [
                        .. Enumerable
                            .Range(0, 1440)
                            .Select(minute => new RawReading(
                                start + Duration.FromMinutes(minute),
                                24 + ((minute * 7 % 31) / 100.0)
                            )),
                    ]
                );
                await readings.CloseAsync(block, [], null);
            }

            _put = await BlocksAsync(readings);
            return Path.GetFileName(path);
        }

        public override async Task<RotSeen> LookAsync(string folder, string file)
        {
            var path = Path.Combine(folder, file);
            var (faults, _) = await ReadingsCheck.OfAsync(path);
            var whole = await WholeAsync(path);
            return new(
                faults.Count > 0,
                whole.SequenceEqual(_put, StringComparer.Ordinal),
                (double)whole.Count(_put.Contains) / Days,
                whole.Count(name => !_put.Contains(name))
            );
        }

        private static async Task<List<string>> WholeAsync(string path)
        {
            try
            {
                await using var readings = ReadingsFile.Open(path);
                return await BlocksAsync(readings);
            }
            catch (StoreUnusableException)
            {
                return [];
            }
        }

        // Day by day: one that cannot be read takes no other with it.
        private static async Task<List<string>> BlocksAsync(ReadingsFile readings)
        {
            var whole = new List<string>();
            for (var day = 0; day < Days; day++)
            {
                try
                {
                    var date = new LocalDate(2026, 3, 1).PlusDays(day);
                    foreach (var seen in await readings.BlocksAsync(Sensor, date, date))
                    {
                        if (await readings.BlockAsync(seen.Sha256) is { Succeeded: true })
                        {
                            whole.Add(seen.Sha256);
                        }
                    }
                }
                catch (StoreUnusableException)
                {
                    // That day is lost.
                }
            }

            return whole;
        }
    }

    /// <summary>The people of a house: SQLite tells damage of its pages; a changed letter inside a row it does not.</summary>
    private sealed class HouseRot : RotKind
    {
        private IReadOnlyList<string> _put = [];

        public override string Name => "house";

        public override bool MustBeFound => false;

        public override Task<string> MakeAsync(string folder)
        {
            using var house = HouseFile.Open(Path.Combine(folder, "house.db"));
            new HousePeople(house).AddFirstOwner(
                new(new PersonId(Guid.CreateVersion7()), "Ada", Role.Owner, "hash", Now, null)
            );
            var sessions = new HouseSessions(house);
            var owner = new HousePeople(house).Named("Ada")!;
            for (var i = 0; i < 100; i++)
            {
                sessions.Begin(
                    new(Guid.CreateVersion7(), owner.Id, $"Browser {i}", Now, Now, null, null),
                    SecretHash.Of($"{i}")
                );
            }

            _put = Shape(house);
            return Task.FromResult("house.db");
        }

        public override Task<RotSeen> LookAsync(string folder, string file)
        {
            var path = Path.Combine(folder, file);
            var isNamed = HouseFile.Verify(path).Count > 0;
            using var house = HouseFile.Open(path);
            return Task.FromResult(
                new RotSeen(isNamed, isNamed || Shape(house).SequenceEqual(_put, StringComparer.Ordinal))
            );
        }

        private static IReadOnlyList<string> Shape(HouseFile house) =>
            house.Ask(tables =>
                (IReadOnlyList<string>)
                    [
                        .. tables.List(Row, "SELECT * FROM person ORDER BY id"),
                        .. tables.List(Row, "SELECT * FROM session ORDER BY id"),
                    ]
            );

        private static string Row(System.Data.Common.DbDataReader row) =>
            string.Join(
                ' ',
                Enumerable
                    .Range(0, row.FieldCount)
                    .Select(row.GetValue)
                    .Select(value => value is byte[] bytes ? Convert.ToHexString(bytes) : $"{value}")
            );
    }

    private sealed class BackupRot(string? passphrase) : RotKind
    {
        private BackupList? _list;

        public override string Name => passphrase is null ? "backup" : "encrypted backup";

        public override async Task<string> MakeAsync(string folder)
        {
            var source = Directory.CreateDirectory(Path.Combine(folder, "source")).FullName;
            await MakeJournalAsync(source);
            var random = new Random(1);
            for (var i = 0; i < 8; i++)
            {
                var bytes = new byte[40_000];
                random.NextBytes(bytes);
                PhotoFolder.Beside(Path.Combine(source, Batches.StoreName)).Put(bytes);
            }

            _list = BackupMaking
                .OfHouse(
                    source,
                    withKeys: false,
                    Path.Combine(folder, "a.backup"),
                    passphrase,
                    Now,
                    rounds: 1000,
                    CancellationToken.None
                )
                .List;
            Directory.Delete(source, recursive: true);
            return "a.backup";
        }

        public override Task<RotSeen> LookAsync(string folder, string file)
        {
            var path = Path.Combine(folder, file);
            var isNamed = false;
            try
            {
                Restoring.Into(path, Path.Combine(folder, "back"), passphrase);
            }
            catch (StoreUnusableException refused) when (refused.Reason["file"] is not null)
            {
                isNamed = !Path.Exists(Path.Combine(folder, "back"));
            }

            return Task.FromResult(
                new RotSeen(isNamed, !isNamed, isNamed ? Saved(path, Path.Combine(folder, "back")) : 1)
            );
        }

        private double Saved(string path, string to)
        {
            try
            {
                var restored = Restoring.Into(path, to, passphrase, whatIsWhole: true);
                return 1
                    - (
                        (double)
                            restored
                                .Faults.Select(fault => $"{fault["file"]}")
                                .Distinct(StringComparer.Ordinal)
                                .Count() / _list!.Files.Count
                    );
            }
            catch (StoreUnusableException)
            {
                return 0;
            }
        }
    }
}
