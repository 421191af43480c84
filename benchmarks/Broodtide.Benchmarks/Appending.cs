using System.Diagnostics;
using System.Globalization;
using Broodtide.Storage.Sqlite;

namespace Broodtide.Benchmarks;

/// <summary>How long one entry takes until it is on the disk.</summary>
internal static class Appending
{
    public static async Task RunAsync(string path, int times)
    {
        foreach (var file in Directory.GetFiles(Path.GetDirectoryName(path)!, Path.GetFileName(path) + "*"))
        {
            File.Delete(file);
        }

        await using var journal = await SqliteJournal.OpenAsync(path, "benchmark");
        var drafts = Invented.Drafts(times + 200).Select(written => written.Draft).ToList();
        var milliseconds = new List<double>(times);
        for (var i = 0; i < drafts.Count; i++)
        {
            var start = Stopwatch.GetTimestamp();
            await journal.AppendAsync([drafts[i]]);
            if (i >= 200)
            {
                milliseconds.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        }

        milliseconds.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"append of one entry, on the disk: p50 {milliseconds[times / 2]:F2} ms, p99 {milliseconds[times * 99 / 100]:F2} ms, worst {milliseconds[^1]:F2} ms, of {times}"
            )
        );
        // What the disk itself takes, as a measure of the machine: one page written and synced.
        await using var stream = new FileStream(
            path + ".probe",
            FileMode.Create,
            FileAccess.Write,
            FileShare.None,
            1
        );
        var page = new byte[4096];
        var syncs = new List<double>();
        for (var i = 0; i < 300; i++)
        {
            var start = Stopwatch.GetTimestamp();
            stream.Write(page);
            stream.Flush(flushToDisk: true);
            syncs.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        syncs.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"one page written and synced by itself: p50 {syncs[150]:F2} ms, p99 {syncs[297]:F2} ms"
            )
        );
    }
}
