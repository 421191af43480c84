using Broodtide.Durability.Works;

namespace Broodtide.Durability;

/// <summary>
/// Lets the disk run full at every write of a work in turn: for ever, for a few writes, with syncs that fail too. What was
/// confirmed must be there, nothing by half, the trouble told in plain words, nothing half left lying, and the work must go on
/// once there is room again.
/// </summary>
/// <param name="work">What is done.</param>
/// <param name="shim">The preloaded library that runs full.</param>
/// <param name="seed">Of all chance.</param>
internal sealed class FullProof(Work work, string shim, int seed)
{
    /// <summary>The disk is full at every <paramref name="step"/>th write.</summary>
    public async Task<Outcome> EveryAsync(int step)
    {
        var outcome = new Outcome();
        var writes = await OnceAsync(0, outcome);
        for (var at = 1; at <= writes; at += step)
        {
            outcome.Ends++;
            await OnceAsync(at, outcome);
        }

        return outcome;
    }

    private async Task<int> OnceAsync(int at, Outcome outcome)
    {
        using var folders = new Folders();
        var count = Path.Combine(folders.Outside, "writes");
        var when = $"{work.Name}, full at write {at}";
        var isForEver = at % 3 != 0;
        var said = new List<string>();
        using var writer = Draining.Start(
            ["few", work.Name, folders.Disk, folders.Outside, $"{seed}"],
            new()
            {
                ["LD_PRELOAD"] = shim,
                ["FULL_DIR"] = folders.Disk,
                ["FULL_AT"] = $"{at}",
                ["FULL_FOR"] = isForEver ? "0" : "6",
                ["FULL_SYNC"] = at % 2 == 0 ? "1" : "0",
                ["FULL_COUNT"] = count,
            }
        );
        var errors = writer.StandardError.ReadToEndAsync();
        await Draining.DrainAsync(writer, said);
        if (writer.ExitCode != 0)
        {
            outcome.Faults.Add(
                $"{when}: exit {writer.ExitCode}: {string.Join(" | ", (await errors).Split('\n').Take(4))}"
            );
            return 0;
        }

        var refusals = said.Where(line => line.StartsWith("refused ", StringComparison.Ordinal)).ToList();
        outcome.Refused += refusals.Count;
        // Where room comes back at once the store only knows that a file could not be made.
        string[] plain = isForEver
            ? ["refused disk-full.", "refused no-space."]
            :
            [
                "refused disk-full.",
                "refused no-space.",
                "refused store-cannot-be-opened.",
                "refused store-failed.",
            ];
        foreach (var odd in refusals.Except(plain, StringComparer.Ordinal))
        {
            outcome.Faults.Add($"{when}: {odd}");
        }

        // Nothing told is right where nothing was lost: a log that is not written back yet, a mark that lags behind.
        var writes = File.Exists(count) ? int.Parse(await File.ReadAllTextAsync(count)) : 0;
        foreach (
            var left in Directory.GetFileSystemEntries(
                folders.Disk,
                "*.making-*",
                SearchOption.AllDirectories
            )
        )
        {
            outcome.Faults.Add($"{when}: {Path.GetFileName(left)} was left lying");
        }

        var look = work.NewLook();
        await look.AtAsync(folders.Disk, said, outcome, when);
        // There is room again.
        var more = new List<string>();
        try
        {
            await work.RoundAsync(
                new Bench(
                    folders.Disk,
                    folders.Outside,
                    new Random(seed),
                    line =>
                    {
                        more.Add(line);
                        return Task.CompletedTask;
                    },
                    IsPlanted: false,
                    Most: 2
                )
            );
            await look.AtAsync(folders.Disk, more, outcome, when + ", room again");
        }
        catch (IOException failed)
        {
            outcome.Faults.Add($"{when}: it did not go on: {failed.Message}");
        }

        return writes;
    }
}
