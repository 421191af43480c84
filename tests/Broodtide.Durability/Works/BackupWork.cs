using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Photos;
using NodaTime;

namespace Broodtide.Durability.Works;

/// <summary>Writes entries and photos and backs them up, encrypted every other time; the three newest stay.</summary>
internal sealed class BackupWork : Work
{
    public const string Passphrase = "a passphrase for proofs";

    // What a key costs is none of this proof's business.
    private const int Rounds = 1000;
    private const string FolderName = "backups";

    public override string Name => "backup";

    public override int MostLines => 12;

    public override int MostChanges => 700;

    public override async Task RoundAsync(Bench bench)
    {
        await using var journal = await Batches.OpenAsync(bench);
        var photos = PhotoFolder.Beside(Path.Combine(bench.Folder, Batches.StoreName));
        var backups = Path.Combine(bench.Folder, FolderName);
        if (!Directory.Exists(backups))
        {
            Directory.CreateDirectory(backups);
            Disk.SyncFolder(bench.Folder);
        }

        for (var i = bench.Random.Next(1, Math.Min(4, bench.Most) + 1); i > 0; i--)
        {
            await bench.Say(
                Batches.Said(await journal.AppendAsync(Batches.Drafts(bench.Random, bench.Random.Next(1, 4))))
            );
            if (photos.All().Count < 4)
            {
                var bytes = new byte[bench.Random.Next(1000, 100_000)];
                bench.Random.NextBytes(bytes);
                photos.Put(bytes);
            }

            var (entries, pictures) = ((await journal.ReadAllAsync()).Count, photos.All().Count);
            var now = SystemClock.Instance.GetCurrentInstant();
            var made = BackupMaking.OfHouse(
                bench.Folder,
                withKeys: false,
                BackupFolder.NewName(backups, now),
                bench.Random.Next(2) == 0 ? Passphrase : null,
                now,
                Rounds,
                CancellationToken.None
            );
            await bench.Say($"backup {Path.GetFileName(made.Path)} {entries} {pictures}.");
            BackupFolder.Thin(backups, 3, made.Path);
        }
    }

    public override Look NewLook() => new BackupLook();

    /// <summary>
    /// The journal as ever; and whatever has the name of a backup can be restored, the newest that was confirmed with all
    /// that it was made of.
    /// </summary>
    private sealed class BackupLook : JournalLook
    {
        private (string Name, int Entries, int Photos)? _newest;

        protected override void Hear(IReadOnlyList<string> said, Outcome outcome)
        {
            base.Hear(said, outcome);
            foreach (var line in said.Where(line => line.EndsWith('.')))
            {
                if (line.TrimEnd('.').Split(' ') is ["backup", var name, var entries, var photos])
                {
                    _newest = (name, int.Parse(entries), int.Parse(photos));
                    outcome.Backups++;
                }
            }
        }

        protected override async Task ReadAsync(string copy, Outcome outcome, string when)
        {
            var backups = Path.Combine(copy, FolderName);
            if (_newest is { } newest && !File.Exists(Path.Combine(backups, newest.Name)))
            {
                outcome.Lost++;
                outcome.Faults.Add($"{when}: the backup {newest.Name} is gone");
                _newest = null;
            }

            foreach (var file in Directory.Exists(backups) ? Directory.GetFiles(backups, "*.backup") : [])
            {
                Check(file, outcome, when);
            }

            await base.ReadAsync(copy, outcome, when);
        }

        private void Check(string file, Outcome outcome, string when)
        {
            try
            {
                var read = Opened(file);
                var isNewest = Path.GetFileName(file) == _newest?.Name;
                if (
                    read.Faults.Count > 0
                    || (
                        isNewest
                        && (
                            read.List.EntryCount < _newest!.Value.Entries
                            || read.List.PhotoCount < _newest.Value.Photos
                        )
                    )
                )
                {
                    outcome.Lost++;
                    outcome.Faults.Add($"{when}: the backup {Path.GetFileName(file)} is not whole");
                }
            }
            catch (StoreUnusableException refused)
            {
                outcome.Lost++;
                outcome.Faults.Add($"{when}: {refused.Reason}");
            }
        }

        private static BackupChecked Opened(string file)
        {
            try
            {
                return Restoring.Check(file, null);
            }
            catch (StoreUnusableException refused) when (refused.Reason.Code == "backup-passphrase-wanted")
            {
                return Restoring.Check(file, Passphrase);
            }
        }
    }
}
