using Broodtide.Storage;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;

namespace Broodtide.Durability.Works;

/// <summary>Lays down files of a house as older programs wrote them, and opens each: it is brought to the shape of today.</summary>
internal sealed class MigrationWork : Work
{
    private const string Beginning = "house-";

    public override string Name => "migrate";

    public override int MostLines => 30;

    public override int MostChanges => 500;

    public override async Task RoundAsync(Bench bench)
    {
        string? last = null;
        for (var i = bench.Random.Next(1, Math.Min(10, bench.Most) + 1); i > 0; i--)
        {
            var name = $"{Beginning}{Guid.NewGuid():N}.db";
            var people = bench.Random.Next(1, 20);
            var old = Path.Combine(bench.Outside, name);
            MakeOld(old, bench.Random.Next(1, HouseSchema.Steps.Count), people);
            var place = Path.Combine(bench.Folder, name);
            await using (var file = new FileStream(place, FileMode.CreateNew, FileAccess.Write))
            {
                await file.WriteAsync(await File.ReadAllBytesAsync(old));
                file.Flush(flushToDisk: true);
            }

            File.Delete(old);
            Disk.SyncFolder(bench.Folder);
            await bench.Say($"laid {name} {people}.");
            using (HouseFile.Open(place))
            {
                // Opening is the work.
            }

            await bench.Say($"kept {name}.");
            if (last is not null)
            {
                await bench.Say($"gone {last}.");
                File.Delete(Path.Combine(bench.Folder, last));
            }

            last = name;
        }
    }

    public override Look NewLook() => new MigrationLook();

    private static void MakeOld(string path, int version, int people)
    {
        using var connection = StoreSettings.ConnectionTo(path);
        connection.Open();
        connection.Run("PRAGMA application_id=1114788968");
        for (var step = 0; step < version; step++)
        {
            connection.Run(HouseSchema.Steps[step]);
        }

        connection.Run($"PRAGMA user_version={version}");
        for (var i = 0; i < people; i++)
        {
            connection.Run(
                "INSERT INTO person(id, name, name_key, role, passphrase, made) VALUES ($id, $name, $name, 'owner', 'hash', 0)",
                ("$id", Guid.CreateVersion7().ToByteArray()),
                ("$name", $"person {i}")
            );
        }
    }

    /// <summary>Every house that was laid down opens with all its people; one that was confirmed has today's shape.</summary>
    private sealed class MigrationLook : Look
    {
        private readonly Dictionary<string, int> _laid = [];
        private readonly HashSet<string> _kept = [];

        public override int Confirmed => _kept.Count;

        protected override void Hear(IReadOnlyList<string> said, Outcome outcome)
        {
            foreach (var line in said.Where(line => line.EndsWith('.')))
            {
                var words = line.TrimEnd('.').Split(' ');
                switch (words)
                {
                    case ["laid", var name, var people]:
                        _laid[name] = int.Parse(people);
                        break;
                    case ["kept", var name]:
                        outcome.Confirmed += _kept.Add(name) ? 1 : 0;
                        break;
                    case ["gone", var name]:
                        _laid.Remove(name);
                        _kept.Remove(name);
                        break;
                    default:
                        break;
                }
            }
        }

        protected override Task ReadAsync(string copy, Outcome outcome, string when)
        {
            foreach (var (name, people) in _laid)
            {
                var path = Path.Combine(copy, name);
                try
                {
                    var wasNew = File.Exists(path) && VersionOf(path) == HouseSchema.Steps.Count;
                    if (!File.Exists(path) || (_kept.Contains(name) && !wasNew))
                    {
                        outcome.Lost += people;
                        outcome.Faults.Add($"{when}: {name} is gone or of an older shape");
                        continue;
                    }

                    outcome.Unconfirmed += wasNew && !_kept.Contains(name) ? 1 : 0;
                    using var house = HouseFile.Open(path);
                    var here = new HousePeople(house).All().Count;
                    if (here != people || HouseFile.Verify(path).Count > 0)
                    {
                        outcome.Lost += people - here;
                        outcome.Faults.Add($"{when}: {name} has {here} of {people} people");
                    }
                }
                catch (Exception wrong) when (wrong is StoreUnusableException or SqliteException)
                {
                    outcome.Lost += people;
                    outcome.Faults.Add($"{when}: {name}: {wrong.Message}");
                }
            }

            return Task.CompletedTask;
        }

        protected override void Tidy(string folder)
        {
            _laid.Clear();
            _kept.Clear();
            foreach (var file in Directory.GetFiles(folder, Beginning + "*"))
            {
                File.Delete(file);
            }
        }

        private static int VersionOf(string path)
        {
            using var connection = StoreSettings.ConnectionTo(path);
            connection.Open();
            return (int)connection.Ask<long>("PRAGMA user_version");
        }
    }
}
