using System.Diagnostics;
using System.Globalization;
using Broodtide.Benchmarks;
using Broodtide.Domain.Journal;
using Broodtide.Science.Water;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Speed;

/// <summary>
/// How the cost grows with the work: each at 1x, 10x and 100x, with the slope of log time by log size (1 is linear), and
/// the most memory it held. Processor time, since other work beside it lengthens the wall; the best of several turns.
/// </summary>
internal static class CostLaws
{
    public static void Run(bool quick)
    {
        Told.Title(
            "COST LAWS: processor time at 1x, 10x, 100x; exponent; most memory beyond what stood before"
        );
        var now = Instant.FromUtc(2026, 11, 26, 0, 0);
        var zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
        var most = quick ? 20_000 : 50_000;
        int[] entries = [most / 100, most / 10, most];
        var told = entries.ToDictionary(count => count, count => TenYears.Entries(count, now));

        Law("salinity of N rows", [10_000, 100_000, 1_000_000], Rows);
        Law(
            "N entries from their bytes",
            entries,
            count =>
            {
                var bytes = told[count];
                return () =>
                {
                    foreach (var entry in bytes)
                    {
                        _ = Entry.ReadTrusted(entry.Bytes, entry.Digest).Value.Fact;
                    }
                };
            }
        );
        Law(
            "account and index of N entries",
            entries,
            count => () => _ = Account.Of(told[count]).Subjects(SubjectKind.Vessel).Count()
        );
        Law(
            "what is due, account and ledgers with it, N entries",
            entries,
            count => () => _ = Outlook.Of(Account.Of(told[count]), now, zone).Due.Items.Count
        );
        Law(
            "N entries as JSON Lines",
            entries,
            count => () => _ = JournalLines.Write([.. told[count]]).Count()
        );
        Law(
            "one entry more, told by an account of N",
            entries,
            count =>
            {
                var account = Account.Of(told[count].Take(count - 50));
                var next = told[count].Skip(count - 50).ToList();
                var at = 0;
                return () => account.Add(next[at++]);
            },
            turns: 40
        );
        using (var folder = new TakenFolder())
        {
            Law(
                "200 entries appended to a store of N",
                entries,
                count =>
                {
                    var journal = SqliteJournal
                        .OpenAsync(Path.Combine(folder.Path, $"{count}.db"), "speed")
                        .GetAwaiter()
                        .GetResult();
                    journal.TakeAsync(told[count]).AsTask().GetAwaiter().GetResult();
                    var drafts = Invented.Drafts(1400).Select(written => written.Draft).ToList();
                    var at = 0;
                    return () =>
                    {
                        for (var i = 0; i < 200; i++)
                        {
                            journal.AppendAsync([drafts[at++]]).AsTask().GetAwaiter().GetResult();
                        }
                    };
                }
            );
            Law(
                "a logger's file of N rows",
                [10_000, 100_000, 1_000_000],
                rows =>
                {
                    var file = Path.Combine(folder.Path, $"{rows}.csv");
                    File.WriteAllText(file, LoggerFile.Rows(rows));
                    return () => ImportDuel.Read(file, rows);
                }
            );
        }
    }

    private static Action Rows(int rows)
    {
        var (r, t, s) = (new double[rows], new double[rows], new double[rows]);
        Array.Fill(r, 0.9);
        Array.Fill(t, 24);
        return () => PracticalSalinityRows.FromConductivityRatios(r, t, [], s);
    }

    private static void Law(string title, int[] sizes, Func<int, Action> make, int turns = 5)
    {
        var points = new List<(double Size, double Time)>();
        var memory = new List<double>();
        foreach (var size in sizes)
        {
            var work = make(size);
            // The first turns pay for what is compiled; so does the measure of memory.
            work();
            memory.Add(PeakMemory.Of(work));
            var best = double.MaxValue;
            var start = Stopwatch.GetTimestamp();
            for (
                var turn = 0;
                turn < turns && (turn < 2 || Stopwatch.GetElapsedTime(start).TotalSeconds < 8);
                turn++
            )
            {
                var before = Environment.CpuUsage.TotalTime;
                work();
                best = Math.Min(best, (Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
            }

            points.Add((size, best));
        }

        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  {title, -54} {string.Join(", ", points.Select(p => $"{p.Size:N0}: {Told.Number(p.Time, "F3")} ms"))}; exponent {Told.Exponent([.. points.Select(p => (p.Size, Math.Max(p.Time, 1e-4)))]):F2} (last tenfold {Math.Log10(points[^1].Time / Math.Max(points[^2].Time, 1e-4)):F2}); memory {string.Join(", ", memory.Select(mb => Told.Number(mb, "F1")))} MB"
            )
        );
    }
}
