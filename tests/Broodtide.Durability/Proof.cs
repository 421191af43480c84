using System.Diagnostics;
using System.Text.RegularExpressions;
using Broodtide.Durability.Works;

namespace Broodtide.Durability;

/// <summary>What is taken away, which must be found out.</summary>
internal enum Plant
{
    None,

    /// <summary>The store is told not to sync.</summary>
    Store,

    /// <summary>The disk answers every sync and does nothing.</summary>
    Disk,
}

/// <summary>
/// Ends a work suddenly and looks at what it left: everything confirmed must be there, nothing by half.
/// </summary>
/// <param name="work">What is done.</param>
/// <param name="shim">The preloaded library that forgets unsynced writes.</param>
/// <param name="seed">Of all chance.</param>
/// <param name="plant">What is taken away.</param>
internal sealed partial class Proof(Work work, string? shim, int seed, Plant plant = Plant.None)
{
    // Some stores grow over ten ends, the next begins from nothing.
    private const int EndsPerFolder = 10;

    private readonly Random _random = new(seed);

    /// <summary>The program dies (SIGKILL): what it gave to the system stays.</summary>
    public Task<Outcome> KillAsync(int times) =>
        ManyAsync(
            times,
            async (folders, said) =>
            {
                using var writer = Start(folders, []);
                var wanted = _random.Next(0, work.MostLines);
                while (said.Count < wanted && await writer.StandardOutput.ReadLineAsync() is { } line)
                {
                    said.Add(line);
                }

                await Task.Delay(
                    TimeSpan.FromMilliseconds(_random.NextDouble() * (_random.Next(3) == 0 ? 60 : 4))
                );
                writer.Kill();
                await Draining.DrainAsync(writer, said);
                return writer.ExitCode == 137
                    ? 0
                    : throw new InvalidOperationException(
                        $"It ended by itself: {await writer.StandardError.ReadToEndAsync()}"
                    );
            }
        );

    /// <summary>The power goes: what was not synced is gone, or there by chance.</summary>
    public Task<Outcome> CutAsync(int times) =>
        ManyAsync(
            times,
            async (folders, said) =>
            {
                // From the first changes of a new folder to some hundred things later.
                var change = _random.Next(4) == 0 ? _random.Next(1, 60) : _random.Next(1, work.MostChanges);
                using var writer = Start(
                    folders,
                    new()
                    {
                        ["LD_PRELOAD"] = shim!,
                        ["LOSSY_DIR"] = folders.Disk,
                        ["LOSSY_CUT"] = $"{change}",
                        ["LOSSY_KEEP"] = $"{(new[] { 0, 0, 50, 90 })[_random.Next(4)]}",
                        ["LOSSY_SEED"] = $"{_random.Next()}",
                        ["LOSSY_DEAF"] = plant is Plant.Disk ? "1" : "0",
                    }
                );
                var errors = writer.StandardError.ReadToEndAsync();
                await Draining.DrainAsync(writer, said);
                var found = CutLine().Match(await errors);
                return writer.ExitCode == 137 && found.Success
                    ? int.Parse(found.Groups["lost"].Value)
                    : throw new InvalidOperationException(
                        $"The power did not go: exit {writer.ExitCode}. {await errors}"
                    );
            }
        );

    [GeneratedRegex(
        @"power cut at change \d+: (?<lost>\d+) unsynced writes lost",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex CutLine();

    private async Task<Outcome> ManyAsync(int times, Func<Folders, List<string>, Task<int>> end)
    {
        var outcome = new Outcome();
        while (outcome.Ends < times)
        {
            using var folders = new Folders();
            await FolderAsync(folders, Math.Min(times - outcome.Ends, EndsPerFolder), end, outcome);
        }

        return outcome;
    }

    private async Task FolderAsync(
        Folders folders,
        int times,
        Func<Folders, List<string>, Task<int>> end,
        Outcome outcome
    )
    {
        var look = work.NewLook();
        for (var i = 0; i < times; i++)
        {
            var said = new List<string>();
            outcome.Ends++;
            var when = $"{work.Name}, end {outcome.Ends}";
            try
            {
                outcome.UnsyncedWritesLost += await end(folders, said);
            }
            catch (InvalidOperationException failed)
            {
                // A work that cannot go on with what the end before left: its folder is given up.
                outcome.Faults.Add($"{when}: {string.Join(" | ", failed.Message.Split('\n').Take(4))}");
                outcome.Lost += look.Confirmed;
                return;
            }

            await look.AtAsync(folders.Disk, said, outcome, when);
        }
    }

    private Process Start(Folders folders, Dictionary<string, string> environment) =>
        Draining.Start(
            [
                "work",
                work.Name,
                folders.Disk,
                folders.Outside,
                $"{_random.Next()}",
                .. plant is Plant.Store ? (string[])["plant"] : [],
            ],
            environment
        );
}
