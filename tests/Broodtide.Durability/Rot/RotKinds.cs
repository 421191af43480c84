using Broodtide.Domain.Journal;
using Broodtide.Durability.Works;
using Broodtide.Storage;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using Broodtide.Storage.Verifying;
using NodaTime;

namespace Broodtide.Durability.Rot;

/// <summary>Every kind of file that is kept.</summary>
internal static partial class RotKinds
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
}
