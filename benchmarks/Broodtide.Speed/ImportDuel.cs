using System.Globalization;
using Broodtide.Benchmarks;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Speed;

/// <summary>
/// A logger's file of invented temperatures, one row a minute: read by a mapping, each row's date, time and number with it
/// and one row an hour kept, against SQLite's shell taking the same file into a table as text. The shell checks nothing and
/// writes every row; ours checks every row and writes none yet.
/// </summary>
internal static class ImportDuel
{
    public static void Run(int rows, int rounds)
    {
        var folder = Directory.CreateTempSubdirectory("broodtide-speed-").FullName;
        try
        {
            var file = Path.Combine(folder, "logger.csv");
            File.WriteAllText(file, LoggerFile.Rows(rows));
            Told.Title(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"IMPORT: a logger's file of {rows} rows, {new FileInfo(file).Length / 1e6:F0} MB"
                )
            );
            var table = Path.Combine(folder, "table.db");
            var took = Duel.Run(
                "import",
                rounds,
                new Runner("ours, each row checked", () => Read(file, rows)),
                new Runner(
                    "SQLite's shell, .import, WAL and synchronous=FULL",
                    () =>
                        AppendDuel.Shell(
                            table,
                            $"PRAGMA journal_mode=WAL;\nPRAGMA synchronous=FULL;\nCREATE TABLE reading (at TEXT, value TEXT);\n.separator ;\n.import --skip 1 {file} reading\n"
                        ),
                    () =>
                    {
                        foreach (var old in Directory.GetFiles(folder, "table.db*"))
                        {
                            File.Delete(old);
                        }
                    }
                )
            );
            Told.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  a row: ours {1e6 * took[0] / rows:F0} ns, shell {1e6 * took[1] / rows:F0} ns; ours takes {took[0] / took[1]:F2} times the shell (aim 1.5)"
                )
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    public static NotesMap Map { get; } =
        new()
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

    public static void Read(string file, int rows)
    {
        using var stream = File.OpenRead(file);
        var jar = new VesselId(Guid.NewGuid());
        var read = NotesReading
            .OfAsync(stream, Map, new Account(), Instant.FromUtc(2026, 11, 26, 0, 0), _ => jar)
            .GetAwaiter()
            .GetResult();
        if (read.Value.Rows != rows)
        {
            throw new InvalidOperationException($"{read.Value.Rows} rows were read of {rows}.");
        }
    }
}
