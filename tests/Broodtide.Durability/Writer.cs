using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Sqlite;
using NodaTime;

namespace Broodtide.Durability;

/// <summary>
/// Writes to a store without end, and says on standard output what the store confirmed, after it confirmed it.
/// Somebody else ends it.
/// </summary>
internal static class Writer
{
    public const string StoreName = "journal.db";

    public static async Task<int> RunAsync(string folder, int seed, bool isPlanted)
    {
        var random = new Random(seed);
        // Straight to the pipe: what was said is out even if the process ends in the next instant.
        await using var output = Console.OpenStandardOutput();
        await SayAsync(output, "started");
        while (true)
        {
            // Opened again and again, so that recovery, write-back and removal of the log are under test too.
            await using var journal = await SqliteJournal.OpenAsync(
                Path.Combine(folder, StoreName),
                "cli",
                connection =>
                {
                    // Every other writer writes its log back often.
                    if (seed % 2 == 0)
                    {
                        connection.Run("PRAGMA wal_autocheckpoint=30");
                    }

                    if (isPlanted)
                    {
                        connection.Run("PRAGMA synchronous=OFF");
                    }
                }
            );
            for (var i = random.Next(1, 60); i > 0; i--)
            {
                var written = await journal.AppendAsync(Batch(random));
                await SayAsync(output, "kept " + string.Join(' ', written.Select(entry => entry.Digest)));
            }
        }
    }

    // A note that says which batch it belongs to and how many it has, so that half a batch is noticed.
    private static List<Draft> Batch(Random random)
    {
        var size = random.Next(1, 4);
        var batch = Guid.CreateVersion7();
        return
        [
            .. Enumerable
                .Range(1, size)
                .Select(i => new Draft(
                    new EntryId(Guid.CreateVersion7()),
                    new Author("durability", "1"),
                    SystemClock.Instance.GetCurrentInstant(),
                    "Etc/UTC",
                    Happened.At(SystemClock.Instance.GetCurrentInstant()),
                    new NoteWritten($"{batch}/{size} " + new string('x', random.Next(0, 3000)))
                )),
        ];
    }

    private static async Task SayAsync(Stream output, string line) =>
        await output.WriteAsync(System.Text.Encoding.ASCII.GetBytes(line + "\n"));
}
