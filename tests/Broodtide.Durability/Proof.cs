using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Broodtide.Durability;

/// <summary>
/// Ends writers suddenly and looks at what they left: everything confirmed must be there, nothing by half.
/// </summary>
/// <param name="shim">The preloaded library that forgets unsynced writes.</param>
/// <param name="seed">Of all chance.</param>
/// <param name="isPlanted">Whether the writers are told not to sync, which must be found out.</param>
internal sealed partial class Proof(string? shim, int seed, bool isPlanted)
{
    // Some stores grow over ten ends, the next begins from nothing.
    private const int EndsPerFolder = 10;

    private readonly Random _random = new(seed);

    /// <summary>The program dies (SIGKILL): what it gave to the system stays.</summary>
    public Task<Outcome> KillAsync(int times) =>
        ManyAsync(
            times,
            async (folder, said) =>
            {
                using var writer = Start(folder, []);
                var wanted = _random.Next(0, 50);
                while (said.Count < wanted && await writer.StandardOutput.ReadLineAsync() is { } line)
                {
                    said.Add(line);
                }

                await Task.Delay(TimeSpan.FromMilliseconds(_random.NextDouble() * 4));
                writer.Kill();
                await DrainAsync(writer, said);
                return 0;
            }
        );

    /// <summary>The power goes: what was not synced is gone, or there by chance.</summary>
    public Task<Outcome> CutAsync(int times) =>
        ManyAsync(
            times,
            async (folder, said) =>
            {
                // From the first changes of a new store to some hundred entries later.
                var change = _random.Next(4) == 0 ? _random.Next(1, 60) : _random.Next(1, 2500);
                using var writer = Start(
                    folder,
                    new()
                    {
                        ["LD_PRELOAD"] = shim!,
                        ["LOSSY_DIR"] = folder,
                        ["LOSSY_CUT"] = $"{change}",
                        ["LOSSY_KEEP"] = $"{(new[] { 0, 0, 50, 90 })[_random.Next(4)]}",
                        ["LOSSY_SEED"] = $"{_random.Next()}",
                    }
                );
                var errors = writer.StandardError.ReadToEndAsync();
                await DrainAsync(writer, said);
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

    private async Task<Outcome> ManyAsync(int times, Func<string, List<string>, Task<int>> end)
    {
        var outcome = new Outcome();
        while (outcome.Ends < times)
        {
            var folder = Directory.CreateTempSubdirectory("broodtide-durability-").FullName;
            try
            {
                await FolderAsync(folder, Math.Min(times - outcome.Ends, EndsPerFolder), end, outcome);
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        }

        return outcome;
    }

    private static async Task FolderAsync(
        string folder,
        int times,
        Func<string, List<string>, Task<int>> end,
        Outcome outcome
    )
    {
        var look = new Look();
        for (var i = 0; i < times; i++)
        {
            var said = new List<string>();
            outcome.Ends++;
            var when = $"end {outcome.Ends}";
            try
            {
                outcome.UnsyncedWritesLost += await end(folder, said);
            }
            catch (InvalidOperationException failed)
            {
                // A writer that cannot go on with what the end before left: its folder is given up.
                outcome.Faults.Add($"{when}: {failed.Message.Split('\n')[0]}");
                outcome.Lost += look.Confirmed;
                return;
            }

            await look.AtAsync(folder, said, outcome, when);
        }
    }

    private Process Start(string folder, Dictionary<string, string> environment)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            ArgumentList = { typeof(Proof).Assembly.Location, "write", folder, $"{_random.Next()}" },
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment =
            {
                // Short lives: what the compiler would do on the second core is never of use.
                ["DOTNET_TieredPGO"] = "0",
            },
        };
        if (isPlanted)
        {
            start.ArgumentList.Add("plant");
        }

        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }

    private static async Task DrainAsync(Process writer, List<string> said)
    {
        using var limit = new CancellationTokenSource(TimeSpan.FromMinutes(2));
        try
        {
            while (await writer.StandardOutput.ReadLineAsync(limit.Token) is { } line)
            {
                said.Add(line);
            }

            await writer.WaitForExitAsync(limit.Token);
        }
        finally
        {
            if (!writer.HasExited)
            {
                writer.Kill();
            }
        }
    }
}
