using System.Diagnostics;
using System.Globalization;
using Broodtide.Benchmarks;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Speed;

/// <summary>
/// A journal of ten years opened in a process that runs already: from the file to the account with its index by subject,
/// and on to what is due, resting on what an opening before kept and on nothing. The peer fetches the same rows by bare Microsoft.Data.Sqlite and does nothing with them.
/// </summary>
internal static class Opening
{
    public static void Run(int entries, int rounds)
    {
        Told.Title($"OPENING: a journal of ten years, {entries} entries, from the file");
        using var folder = new TakenFolder();
        var path = Path.Combine(folder.Path, "ten-years.db");
        var now = Instant.FromUtc(2026, 11, 26, 0, 0);
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        Made(path, TenYears.Entries(entries, now));
        var began = Stopwatch.GetTimestamp();
        var kept =
            KeepWhatIsWorkedOut(path, now, zone)
            ?? throw new InvalidOperationException("Nothing was worth keeping.");
        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  the first opening, what it worked out kept: {Stopwatch.GetElapsedTime(began).TotalMilliseconds:F0} ms; kept {kept.State.Length / 1e6:F2} MB"
            )
        );
        var stages = new List<(double Read, double Account, double Due)>();
        Duel.Run(
            "opening",
            rounds,
            new Runner("ours, to the account and its index", () => _ = Open(path)),
            new Runner("bare Microsoft.Data.Sqlite, the rows fetched", () => Fetch(path)),
            new Runner(
                "ours, to what is due, nothing kept",
                () => _ = Outlook.Of(Open(path).Account, now, zone).Due.Items.Count
            ),
            new Runner(
                "ours, to what is due",
                () =>
                {
                    var (account, read, told, checkpoints) = Open(path);
                    var due = Stopwatch.GetTimestamp();
                    _ = Outlook.Of(account, now, zone, kept: checkpoints).Due.Items.Count;
                    stages.Add((read, told, Stopwatch.GetElapsedTime(due).TotalMilliseconds));
                }
            )
        );
        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  medians: bytes to entries {Told.Median(stages.Select(s => s.Read)):F0} ms, account and index {Told.Median(stages.Select(s => s.Account)):F0} ms, what is due {Told.Median(stages.Select(s => s.Due)):F0} ms (aim for all: 200 ms)"
            )
        );
    }

    /// <summary>Makes a store of these entries, and tells its path.</summary>
    public static string Made(string path, IReadOnlyList<Entry> entries)
    {
        using var making = SqliteJournal.OpenAsync(path, "speed").GetAwaiter().GetResult().Held();
        making.Journal.TakeAsync(entries).AsTask().GetAwaiter().GetResult();
        return path;
    }

    /// <summary>Works out what is due once, and keeps in the store what the next opening may rest on; none where nothing was worth it.</summary>
    public static Checkpoint? KeepWhatIsWorkedOut(string path, Instant now, DateTimeZone zone)
    {
        var first = Outlook.Of(Open(path).Account, now, zone);
        _ = first.Due.Items.Count;
        if (first.TakeCheckpoint() is not { } kept)
        {
            return null;
        }

        using var keeping = SqliteJournal.OpenAsync(path, "speed").GetAwaiter().GetResult().Held();
        keeping.Journal.KeepAsync([kept]).AsTask().GetAwaiter().GetResult();
        return kept;
    }

    /// <summary>Opens it, to the account with its index; the milliseconds of reading and of telling with it.</summary>
    public static (Account Account, double Read, double Told, IReadOnlyList<Checkpoint> Kept) Open(
        string path
    )
    {
        var start = Stopwatch.GetTimestamp();
        using var held = SqliteJournal.OpenAsync(path, "speed").GetAwaiter().GetResult().Held();
        var entries = held.Journal.ReadAllAsync().AsTask().GetAwaiter().GetResult();
        var kept = held.Journal.CheckpointsAsync().AsTask().GetAwaiter().GetResult();
        var read = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        var account = Account.Of(entries);
        _ = account.Subjects(SubjectKind.Vessel).Count();
        return (account, read, Stopwatch.GetElapsedTime(start).TotalMilliseconds - read, kept);
    }

    private static void Fetch(string path)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT digest, envelope, salted_body FROM entry ORDER BY number";
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            _ =
                rows.GetFieldValue<byte[]>(0).Length
                + rows.GetFieldValue<byte[]>(1).Length
                + rows.GetFieldValue<byte[]>(2).Length;
        }
    }

    private static HeldJournal Held(this SqliteJournal journal) => new(journal);

    private sealed class HeldJournal(SqliteJournal journal) : IDisposable
    {
        public SqliteJournal Journal { get; } = journal;

        public void Dispose() => Journal.DisposeAsync().AsTask().GetAwaiter().GetResult();
    }
}
