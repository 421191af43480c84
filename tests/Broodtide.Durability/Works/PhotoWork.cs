using Broodtide.Storage.Photos;
using Broodtide.Workbench.Photos;

namespace Broodtide.Durability.Works;

/// <summary>Puts photos into their folder.</summary>
internal sealed class PhotoWork : Work
{
    private const string FolderName = "journal.photos";

    public override string Name => "photos";

    public override int MostLines => 50;

    public override int MostChanges => 400;

    public override async Task RoundAsync(Bench bench)
    {
        var photos = PhotoFolder.Open(Path.Combine(bench.Folder, FolderName));
        for (var i = bench.Random.Next(1, bench.Most + 1); i > 0; i--)
        {
            var bytes = new byte[bench.Random.Next(1000, 150_000)];
            bench.Random.NextBytes(bytes);
            await bench.Say($"kept {photos.Put(bytes).Sha256}");
        }
    }

    public override Look NewLook() => new PhotoLookAfter();

    /// <summary>Every confirmed photo is there, and nothing stands under a name that is not its own.</summary>
    private sealed class PhotoLookAfter : Look
    {
        private readonly HashSet<string> _confirmed = [];

        public override int Confirmed => _confirmed.Count;

        protected override void Hear(IReadOnlyList<string> said, Outcome outcome)
        {
            foreach (var line in said.Where(line => line.StartsWith(Kept, StringComparison.Ordinal)))
            {
                outcome.Confirmed +=
                    PhotoIntake.IsHash(line[Kept.Length..]) && _confirmed.Add(line[Kept.Length..]) ? 1 : 0;
            }
        }

        protected override Task ReadAsync(string copy, Outcome outcome, string when)
        {
            var photos = PhotoFolder.Open(Path.Combine(copy, FolderName));
            var here = photos.All();
            foreach (var hash in here.Where(hash => photos.Read(hash) is not { Succeeded: true }))
            {
                outcome.Faults.Add($"{when}: photo {hash} is not what its name says");
            }

            foreach (var hash in _confirmed.Except(here, StringComparer.Ordinal).ToList())
            {
                outcome.Lost++;
                outcome.Faults.Add($"{when}: photo {hash} is gone");
                _confirmed.Remove(hash);
            }

            outcome.Unconfirmed += here.Count(_confirmed.Add);
            return Task.CompletedTask;
        }

        // Photos only cost time once they were seen to be there.
        protected override void Tidy(string folder)
        {
            foreach (var hash in _confirmed.Take(Math.Max(0, _confirmed.Count - 20)).ToList())
            {
                PhotoFolder.Open(Path.Combine(folder, FolderName)).Remove(hash);
                _confirmed.Remove(hash);
            }
        }
    }
}
