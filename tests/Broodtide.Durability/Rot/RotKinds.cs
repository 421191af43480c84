using Broodtide.Domain.Journal;
using Broodtide.Durability.Works;
using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Verifying;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Durability.Rot;

/// <summary>Every kind of file that is kept.</summary>
internal static class RotKinds
{
    public static IReadOnlyList<RotKind> All { get; } =
    [
        new JournalRot(),
        new MarkRot(),
        new WrittenRot(),
        new PhotoRot(),
        new SensorRot(),
        new HouseRot(),
        new BackupRot(passphrase: null),
        new BackupRot(BackupWork.Passphrase),
    ];

    private static readonly Instant Now = Instant.FromUtc(2026, 3, 1, 21, 5);

    private static async Task<IReadOnlyList<Entry>> MakeJournalAsync(string folder)
    {
        await using var journal = await SqliteJournal.OpenAsync(
            Path.Combine(folder, Batches.StoreName),
            "cli"
        );
        var random = new Random(1);
        for (var i = 0; i < 60; i++)
        {
            await journal.AppendAsync(Batches.Drafts(random, 3, longest: 900));
        }

        return await journal.ReadAllAsync();
    }

    private static HashSet<Digest> Digests(IEnumerable<Entry> entries) =>
        [.. entries.Where(entry => entry.HasBody).Select(entry => entry.Digest)];

    private class JournalRot : RotKind
    {
        private HashSet<Digest> _put = [];

        public override string Name => "journal";

        public override async Task<string> MakeAsync(string folder)
        {
            _put = Digests(await MakeJournalAsync(folder));
            return Batches.StoreName;
        }

        public override async Task<RotSeen> LookAsync(string folder, string file)
        {
            var path = Path.Combine(folder, Batches.StoreName);
            bool isNamed;
            HashSet<Digest>? read = null;
            try
            {
                await using var journal = await SqliteJournal.OpenAsync(path, "look");
                isNamed = (await Verification.OfAsync(journal, path, Now, DateTimeZone.Utc)).Faults.Count > 0;
                read = isNamed ? null : Digests(await journal.ReadAllAsync());
            }
            catch (StoreUnusableException refused) when (refused.Reason["file"] is not null)
            {
                isNamed = true;
            }

            var saved = isNamed ? Saved(path) : [];
            return new(
                isNamed,
                read?.SetEquals(_put) ?? false,
                (double)saved.Count(_put.Contains) / _put.Count,
                saved.Count(digest => !_put.Contains(digest))
            );
        }

        private static HashSet<Digest> Saved(string path)
        {
            try
            {
                return Digests(StoreSalvage.Read(path));
            }
            catch (StoreUnusableException)
            {
                return [];
            }
        }
    }

    /// <summary>The mark of a life: a damaged one begins another life, and no entry is touched.</summary>
    private sealed class MarkRot : JournalRot
    {
        public override string Name => "mark of a life";

        public override async Task<string> MakeAsync(string folder)
        {
            var store = await base.MakeAsync(folder);
            return store + "-life";
        }
    }

    private sealed class WrittenRot : RotKind
    {
        private HashSet<Digest> _put = [];

        public override string Name => "written journal";

        public override async Task<string> MakeAsync(string folder)
        {
            var entries = await MakeJournalAsync(folder);
            _put = Digests(entries);
            JournalFile.Write(Path.Combine(folder, "copy.jsonl"), entries);
            return "copy.jsonl";
        }

        public override Task<RotSeen> LookAsync(string folder, string file)
        {
            var path = Path.Combine(folder, file);
            var read = JournalFile.Read(path);
            var saved = read.Succeeded ? [] : Digests(JournalFile.Salvage(path).Entries);
            return Task.FromResult(
                new RotSeen(
                    !read.Succeeded,
                    read.Succeeded && Digests(read.Value).SetEquals(_put),
                    (double)saved.Count(_put.Contains) / _put.Count,
                    saved.Count(digest => !_put.Contains(digest))
                )
            );
        }
    }

    private sealed class PhotoRot : RotKind
    {
        private readonly List<string> _put = [];

        public override string Name => "photo";

        public override Task<string> MakeAsync(string folder)
        {
            var photos = PhotoFolder.Open(folder);
            var random = new Random(1);
            for (var i = 0; i < 5; i++)
            {
                var bytes = new byte[20_000];
                random.NextBytes(bytes);
                _put.Add(photos.Put(bytes).Sha256);
            }

            return Task.FromResult(Path.GetRelativePath(folder, photos.PlaceOf(_put[0])));
        }

        public override Task<RotSeen> LookAsync(string folder, string file)
        {
            var photos = PhotoFolder.Open(folder);
            var whole = _put.Count(hash => photos.Read(hash) is { Succeeded: true });
            return Task.FromResult(
                new RotSeen(
                    photos.Read(_put[0]) is { Succeeded: false },
                    whole == _put.Count,
                    (double)whole / (_put.Count - 1)
                )
            );
        }
    }

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
