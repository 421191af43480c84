using Broodtide.Storage;
using Broodtide.Storage.Backups;
using Broodtide.Storage.Photos;
using Broodtide.Storage.Sqlite;
using NodaTime;

namespace Broodtide.Durability.Works;

/// <summary>Restores one backup into one new folder after another.</summary>
internal sealed class RestoreWork : Work
{
    private const string Beginning = "back-";
    private const int Entries = 40;
    private const int Photos = 2;

    public override string Name => "restore";

    public override int MostLines => 12;

    public override int MostChanges => 300;

    public override async Task RoundAsync(Bench bench)
    {
        var backup = await MadeAsync(bench);
        for (var i = bench.Random.Next(1, Math.Min(5, bench.Most) + 1); i > 0; i--)
        {
            var name = $"{Beginning}{Guid.NewGuid():N}";
            Restoring.Into(backup, Path.Combine(bench.Folder, name), null);
            await bench.Say($"kept {name}.");
        }
    }

    public override Look NewLook() => new RestoreLook();

    private static async Task<string> MadeAsync(Bench bench)
    {
        var backup = Path.Combine(bench.Outside, "source.backup");
        if (File.Exists(backup))
        {
            return backup;
        }

        var path = Path.Combine(bench.Outside, Batches.StoreName);
        await using var journal = await SqliteJournal.OpenAsync(path, "cli");
        await journal.AppendAsync(Batches.Drafts(bench.Random, Entries));
        for (var i = 0; i < Photos; i++)
        {
            var bytes = new byte[50_000];
            bench.Random.NextBytes(bytes);
            PhotoFolder.Beside(path).Put(bytes);
        }

        return BackupMaking.OfJournal(path, backup, null, SystemClock.Instance.GetCurrentInstant()).Path;
    }

    /// <summary>Whatever has the name it was to be restored under is all there.</summary>
    private sealed class RestoreLook : Look
    {
        private readonly HashSet<string> _kept = [];

        public override int Confirmed => _kept.Count;

        protected override void Hear(IReadOnlyList<string> said, Outcome outcome)
        {
            foreach (
                var line in said.Where(line =>
                    line.StartsWith(Kept, StringComparison.Ordinal) && line.EndsWith('.')
                )
            )
            {
                outcome.Confirmed += _kept.Add(line[Kept.Length..^1]) ? 1 : 0;
            }
        }

        protected override async Task ReadAsync(string copy, Outcome outcome, string when)
        {
            var here = Directory
                .GetDirectories(copy, Beginning + "*")
                .Select(folder => Path.GetFileName(folder))
                .Where(name => !name.Contains(".making-", StringComparison.Ordinal))
                .ToList();
            foreach (var name in _kept.Except(here, StringComparer.Ordinal).ToList())
            {
                outcome.Lost++;
                outcome.Faults.Add($"{when}: {name} is gone");
            }

            foreach (var name in here)
            {
                outcome.Unconfirmed += _kept.Contains(name) ? 0 : 1;
                try
                {
                    var path = Path.Combine(copy, name, Batches.StoreName);
                    var photos = PhotoFolder.Beside(path);
                    var whole = photos.All().Count(hash => photos.Read(hash) is { Succeeded: true });
                    await using var journal = await SqliteJournal.OpenAsync(path, "look");
                    if (
                        whole != Photos
                        || (await journal.ReadAllAsync()).Count != Entries
                        || (await journal.VerifyAsync()).Count > 0
                    )
                    {
                        outcome.Lost++;
                        outcome.Faults.Add($"{when}: {name} was not restored whole");
                    }
                }
                catch (StoreUnusableException refused)
                {
                    outcome.Lost++;
                    outcome.Faults.Add($"{when}: {refused.Reason}");
                }
            }
        }

        protected override void Tidy(string folder)
        {
            _kept.Clear();
            foreach (var inside in Directory.GetDirectories(folder, Beginning + "*"))
            {
                Directory.Delete(inside, recursive: true);
            }
        }
    }
}
