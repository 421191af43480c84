using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Storage;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Durability.Works;

/// <summary>
/// Takes in what comes from elsewhere: a written journal, entries of another store as a meeting brings them, a table of old
/// notes; and writes the journal out.
/// </summary>
internal sealed class ImportWork : Work
{
    public const string FileName = "written.jsonl";

    public override string Name => "import";

    public override int MostLines => 20;

    public override int MostChanges => 900;

    public override async Task RoundAsync(Bench bench)
    {
        await using var journal = await Batches.OpenAsync(bench);
        for (var i = bench.Random.Next(1, Math.Min(6, bench.Most) + 1); i > 0; i--)
        {
            switch (bench.Random.Next(4))
            {
                case 0:
                    await FileAsync(bench, journal);
                    break;
                case 1:
                    await MeetingAsync(bench, journal);
                    break;
                case 2:
                    await OldNotesAsync(bench, journal);
                    break;
                default:
                    var count = await JournalFile.ExportAsync(journal, Path.Combine(bench.Folder, FileName));
                    await bench.Say($"written {count}.");
                    break;
            }
        }
    }

    public override Look NewLook() => new JournalLook();

    private static int SizeOf(Bench bench) => bench.Random.Next(1, Math.Min(200, 10 * bench.Most));

    private static async Task FileAsync(Bench bench, SqliteJournal journal)
    {
        var entries = Batches.Foreign(bench.Random, SizeOf(bench));
        var path = Path.Combine(bench.Outside, $"{Guid.NewGuid():N}.jsonl");
        JournalFile.Write(path, entries);
        var taken = await JournalFile.ImportAsync(journal, path);
        File.Delete(path);
        if (taken.Value.New != entries.Count)
        {
            throw new InvalidOperationException("Not all of the file came in.");
        }

        await bench.Say(Batches.Said(entries));
    }

    private static async Task MeetingAsync(Bench bench, SqliteJournal journal)
    {
        var entries = Batches.Foreign(bench.Random, SizeOf(bench));
        await journal.TakeAsync(entries);
        await bench.Say(Batches.Said(entries));
        // An answer that was lost: the same comes again.
        await journal.TakeAsync(entries);
    }

    private static async Task OldNotesAsync(Bench bench, SqliteJournal journal)
    {
        var size = SizeOf(bench);
        var batch = Guid.CreateVersion7();
        var table = new StringBuilder("Datum;Was\n");
        for (var row = 0; row < size; row++)
        {
            table.Append(
                System.Globalization.CultureInfo.InvariantCulture,
                $"{1 + (row % 28)}.{1 + (row / 28)}.2025 18:00;{Batches.TextOf(batch, size, bench.Random.Next(200))}\n"
            );
        }

        var map = NotesMapText.Read(
            """
            {
              "delimiter": ";", "dateColumn": "Datum", "dateOrder": "day-month-year", "zone": "Europe/Berlin",
              "decimal": "comma", "vessel": "Tank", "columns": [{"column": "Was", "as": "note"}]
            }
            """u8.ToArray(),
            ["Datum", "Was"]
        );
        var vessel = new VesselId(Guid.CreateVersion7());
        var read = await NotesReading.OfAsync(
            new MemoryStream(Encoding.UTF8.GetBytes(table.ToString())),
            map.Value,
            new Account(),
            SystemClock.Instance.GetCurrentInstant(),
            _ => vessel
        );
        if (read.Value.Facts.Count != size || read.Value.Hindrances.Count > 0)
        {
            throw new InvalidOperationException($"{read.Value.Facts.Count} of {size} notes were read.");
        }

        var written = await journal.AppendAsync([
            .. read.Value.Facts.Select(fact => new Draft(
                new EntryId(Guid.CreateVersion7()),
                new Author("durability", "1"),
                SystemClock.Instance.GetCurrentInstant(),
                "Etc/UTC",
                fact.Happened,
                fact.Fact
            )),
        ]);
        await bench.Say(Batches.Said(written));
    }
}
