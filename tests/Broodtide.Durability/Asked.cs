using System.Diagnostics;
using Broodtide.Durability.Rot;
using Broodtide.Durability.Works;

namespace Broodtide.Durability;

/// <summary>The proofs as they are asked for.</summary>
internal static class Asked
{
    // Of a thousand ends so many go to each kind of work.
    private static readonly Dictionary<string, double> Shares = new(StringComparer.Ordinal)
    {
        ["append"] = 0.25,
        ["photos"] = 0.2,
        ["import"] = 0.2,
        ["migrate"] = 0.12,
        ["backup"] = 0.15,
        ["restore"] = 0.08,
    };

    public static int Usage()
    {
        Console.Error.WriteLine(
            "prove [--shim FILE] [--full FILE] [--works NAMES] [--kills N] [--cuts N] [--every N] [--plants N] [--rot N] [--jobs N] [--seed N] [--only-planted]"
        );
        return 2;
    }

    private static async Task<bool> RotAsync(int times, int seed)
    {
        Console.WriteLine($"\nbytes changed\n{RotOutcome.Heads}");
        var isRight = true;
        foreach (var kind in RotKinds.All)
        {
            var outcome = await RotProof.RunAsync(kind, times, seed);
            Console.WriteLine(outcome.Row(kind.Name));
            isRight &= (outcome.Silent == 0 || !kind.MustBeFound) && outcome.WronglySaved == 0;
        }

        return isRight;
    }

    public static async Task<int> RunAsync(string[] rest)
    {
        var options = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i + 1 < rest.Length; i += 2)
        {
            options[rest[i]] = rest[i + 1];
        }

        var shim = options.TryGetValue("--shim", out var lossy) ? Path.GetFullPath(lossy) : null;
        var full = options.TryGetValue("--full", out var fills) ? Path.GetFullPath(fills) : null;
        var (kills, cuts, plants) = (Number("--kills", 0), Number("--cuts", 0), Number("--plants", 0));
        var (every, seed, jobs) = (Number("--every", 0), Number("--seed", 20_260), Number("--jobs", 2));
        var works = options.GetValueOrDefault("--works", string.Join(',', Shares.Keys)).Split(',');
        if (
            rest.Length % 2 != 0
            || (shim is null && cuts + plants > 0)
            || (full is null && every > 0)
            || works.Any(work => !Shares.ContainsKey(work))
        )
        {
            return Usage();
        }

        var clock = Stopwatch.StartNew();
        var sum = works.Sum(work => Shares[work]);
        using var gate = new SemaphoreSlim(jobs);
        var isRight = true;
        if (kills > 0)
        {
            isRight &= await ManyAsync(
                "killed",
                kills,
                work => (n, s) => new Proof(work, shim, s).KillAsync(n)
            );
        }

        if (cuts > 0)
        {
            isRight &= await ManyAsync(
                "power cut",
                cuts,
                work => (n, s) => new Proof(work, shim, s).CutAsync(n)
            );
        }

        if (every > 0)
        {
            isRight &= await ManyAsync(
                "disk full at a write",
                every * works.Length,
                work => (_, s) => new FullProof(work, full!, s).EveryAsync(every),
                isEach: true
            );
        }

        if (plants > 0)
        {
            isRight &= await PlantedAsync(Plant.Disk, works);
            isRight &= await PlantedAsync(
                Plant.Store,
                [.. works.Where(work => work is "append" or "import")]
            );
        }

        if (Number("--rot", 0) is var rot and > 0)
        {
            isRight &= await RotAsync(rot, seed);
        }

        Console.WriteLine($"{clock.Elapsed.TotalSeconds:0} s");
        return isRight ? 0 : 1;

        int Number(string name, int otherwise) =>
            options.TryGetValue(name, out var text) ? int.Parse(text) : otherwise;

        async Task<bool> ManyAsync(
            string how,
            int times,
            Func<Work, Func<int, int, Task<Outcome>>> prove,
            bool isEach = false
        )
        {
            // In slices, so that two processes are busy to the end.
            var slices = new List<(string Work, Task<Outcome> Outcome)>();
            var begun = clock.Elapsed;
            foreach (var work in works)
            {
                var wanted = isEach ? 1 : (int)Math.Round(times * Shares[work] / sum);
                for (var done = 0; done < wanted; done += 20)
                {
                    var (count, own) = (
                        Math.Min(20, wanted - done),
                        seed + (1000 * Array.IndexOf(works, work)) + done
                    );
                    slices.Add(
                        (work, InTurnAsync($"{how}, {work}", () => prove(Work.All[work])(count, own)))
                    );
                }
            }

            await Task.WhenAll(slices.Select(slice => slice.Outcome));
            return await TellAsync(how, slices, begun);
        }

        async Task<Outcome> InTurnAsync(string name, Func<Task<Outcome>> prove)
        {
            await gate.WaitAsync();
            try
            {
                var outcome = await Task.Run(prove);
                // So that a run that is broken off has told how far it came.
                await Console.Error.WriteLineAsync(outcome.Row($"{clock.Elapsed.TotalSeconds:0} s: {name}"));
                return outcome;
            }
            finally
            {
                gate.Release();
            }
        }

        async Task<bool> TellAsync(
            string how,
            List<(string Work, Task<Outcome> Outcome)> slices,
            TimeSpan begun
        )
        {
            var all = new Outcome();
            Console.WriteLine($"\n{how}, {(clock.Elapsed - begun).TotalSeconds:0} s\n{Outcome.Heads}");
            foreach (var work in works)
            {
                var one = new Outcome();
                foreach (var slice in slices.Where(slice => slice.Work == work))
                {
                    one.Add(await slice.Outcome);
                }

                Console.WriteLine(one.Row(work));
                all.Add(one);
            }

            Console.WriteLine(all.Row("all"));
            foreach (var fault in all.Faults.Take(20))
            {
                Console.WriteLine($"  {fault}");
            }

            return all.Faults.Count == 0;
        }

        async Task<bool> PlantedAsync(Plant plant, string[] of)
        {
            var found = true;
            foreach (var work in of)
            {
                var outcome = await new Proof(Work.All[work], shim, seed + 7, plant).CutAsync(plants);
                Console.WriteLine(
                    $"{work}, syncing planted off in the {plant}: {outcome.Ends} cuts, lost {outcome.Lost}, faults {outcome.Faults.Count}"
                );
                found &= outcome.Faults.Count > 0;
            }

            if (!found)
            {
                Console.WriteLine(
                    "A planted fault was not found out: the forgetting disk does not reach that work."
                );
            }

            return found;
        }
    }
}
