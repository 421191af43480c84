using System.Diagnostics;
using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// A logger's file of invented temperatures, one row a minute, days written the German way with decimal commas: read from
/// the disk by a mapping, every row's date and number with it, one row an hour kept.
/// </summary>
internal static class NotesPace
{
    public static async Task RunAsync(int rows, int turns)
    {
        Console.WriteLine(Machine.Describe());
        var file = Path.Combine(Path.GetTempPath(), $"broodtide-logger-{Environment.ProcessId}.csv");
        try
        {
            await File.WriteAllTextAsync(file, LoggerFile.Rows(rows));
            var map = new NotesMap
            {
                Delimiter = ';',
                DateColumn = 0,
                Order = DateOrder.DayMonthYear,
                Zone = "Europe/Berlin",
                Decimal = DecimalMark.Comma,
                Vessels = new Dictionary<string, string> { [""] = "Jar" },
                Columns = [new(1, ColumnMeaning.Reading, "Cel")],
                OneInMinutes = 60,
                // The hour that the clock goes forward over is in a logger's file of local time too.
                LeaveOutUnreadable = true,
            };
            var (jar, now) = (new VesselId(Guid.NewGuid()), Instant.FromUtc(2026, 11, 26, 0, 0));
            var took = new List<double>();
            for (var turn = 0; turn < turns; turn++)
            {
                await using var stream = File.OpenRead(file);
                var watch = Stopwatch.StartNew();
                var read = await NotesReading.OfAsync(stream, map, new Account(), now, _ => jar);
                took.Add(watch.Elapsed.TotalMilliseconds);
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{read.Value.Rows} rows of {stream.Length / 1e6:F1} MB in {took[^1]:F0} ms, {read.Value.Facts.Count} entries, {read.Value.TroubleCounts.Values.Sum()} left out"
                    )
                );
            }

            took.Sort();
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"median {took[took.Count / 2]:F0} ms of {turns} (best {took[0]:F0}, worst {took[^1]:F0})"
                )
            );
        }
        finally
        {
            File.Delete(file);
        }
    }
}
