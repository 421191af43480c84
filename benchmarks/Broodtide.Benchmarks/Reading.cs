using System.Diagnostics;
using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;

namespace Broodtide.Benchmarks;

/// <summary>From the bytes on the disk to every view.</summary>
internal static class Reading
{
    public static async Task<Stages> RunAsync(string path, bool useCheckpoints)
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        GC.Collect();
        var clock = new Laps();
        await using var journal = await SqliteJournal.OpenAsync(path, "benchmark");
        var entries = await journal.ReadAllAsync();
        var read = clock.Next();
        var account = Account.Of(entries);
        var tell = clock.Next();
        if (useCheckpoints)
        {
            foreach (var checkpoint in (await journal.CheckpointsAsync()).Reverse())
            {
                if (account.IndexFolding.Offer(checkpoint))
                {
                    break;
                }
            }
        }

        _ = account.Subjects(SubjectKind.House).Count();
        var index = clock.Next();
        var house = new House(account);
        var views =
            house.Animals.Count()
            + house.Broods.Count()
            + house.Vessels.Count()
            + house.Cohorts.Count()
            + house.Runs.Count()
            + house.Instruments.Count();
        if (views == 0)
        {
            throw new InvalidOperationException("There was nothing to see.");
        }

        return new(read, tell, index, clock.Next(), clock.Processor);
    }

    public static async Task KeepCheckpointsAsync(string path)
    {
        await using var journal = await SqliteJournal.OpenAsync(path, "benchmark");
        var account = Account.Of(await journal.ReadAllAsync());
        _ = account.Subjects(SubjectKind.House).Count();
        await journal.KeepAsync([.. account.IndexFolding.Checkpoints]);
    }

    public static async Task OnceAsync(string path)
    {
        var stages = await RunAsync(path, useCheckpoints: false);
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{stages.Read:R} {stages.Tell:R} {stages.Index:R} {stages.Views:R} {stages.Processor:R}"
            )
        );
    }

    public static List<Stages> InFreshProcesses(string path, int times)
    {
        var found = new List<Stages>();
        for (var i = 0; i < times; i++)
        {
            var start = new ProcessStartInfo("dotnet")
            {
                ArgumentList = { typeof(Reading).Assembly.Location, "once", path },
                UseShellExecute = false,
                RedirectStandardOutput = true,
            };
            using var process = Process.Start(start)!;
            var said = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                throw new InvalidOperationException($"The fresh process ended with {process.ExitCode}.");
            }

            var parts = said.Split(' ').Select(double.Parse).ToArray();
            found.Add(new(parts[0], parts[1], parts[2], parts[3], parts[4]));
        }

        return found;
    }
}
