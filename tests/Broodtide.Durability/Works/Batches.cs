using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Sqlite;
using NodaTime;

namespace Broodtide.Durability.Works;

/// <summary>Invented notes that say which batch they belong to and how many it has, so that half a batch is noticed.</summary>
internal static class Batches
{
    public const string StoreName = "journal.db";

    public static Task<SqliteJournal> OpenAsync(Bench bench) =>
        SqliteJournal.OpenAsync(
            Path.Combine(bench.Folder, StoreName),
            "cli",
            connection =>
            {
                // Every other one writes its log back often.
                if (bench.Random.Next(2) == 0)
                {
                    connection.Run("PRAGMA wal_autocheckpoint=30");
                }

                if (bench.IsPlanted)
                {
                    connection.Run("PRAGMA synchronous=OFF");
                }
            }
        );

    public static IReadOnlyList<Draft> Drafts(Random random, int size, int longest = 3000)
    {
        var batch = Guid.CreateVersion7();
        return
        [
            .. Enumerable.Range(0, size).Select(_ => Draft(TextOf(batch, size, random.Next(0, longest)))),
        ];
    }

    public static string TextOf(Guid batch, int size, int length) =>
        $"{batch}/{size} " + new string('x', length);

    /// <summary>Entries as another store would have written them.</summary>
    public static IReadOnlyList<Entry> Foreign(Random random, int size)
    {
        var replica = new ReplicaId(Guid.CreateVersion7());
        Digest? previous = null;
        var entries = new List<Entry>();
        foreach (var draft in Drafts(random, size, longest: 400))
        {
            var entry = draft.Seal(replica, entries.Count + 1, previous, Guid.NewGuid().ToByteArray());
            previous = entry.Digest;
            entries.Add(entry);
        }

        return entries;
    }

    public static string Said(IEnumerable<Entry> entries) =>
        "kept " + string.Join(' ', entries.Select(entry => entry.Digest));

    private static Draft Draft(string text) =>
        new(
            new EntryId(Guid.CreateVersion7()),
            new Author("durability", "1"),
            SystemClock.Instance.GetCurrentInstant(),
            "Etc/UTC",
            Happened.At(SystemClock.Instance.GetCurrentInstant()),
            new NoteWritten(text)
        );
}
