using System.Runtime.InteropServices;
using Broodtide.Durability.Works;
using Broodtide.Storage;

namespace Broodtide.Durability;

/// <summary>The program that is ended: does one kind of work and says on standard output what was confirmed.</summary>
internal static class Child
{
    // What the store asks of the system by name would go past a preloaded library; it must meet the same disk.
    static Child()
    {
        if (Environment.GetEnvironmentVariable("LD_PRELOAD") is { Length: > 0 } shim)
        {
            var handle = NativeLibrary.Load(shim);
            NativeLibrary.SetDllImportResolver(
                typeof(StoreUnusableException).Assembly,
                (library, _, _) => library is "libc" ? handle : IntPtr.Zero
            );
        }
    }

    /// <summary>Works without end. Somebody else ends it.</summary>
    public static async Task<int> ForeverAsync(
        string work,
        string folder,
        string outside,
        int seed,
        bool isPlanted
    )
    {
        // Straight to the pipe: what was said is out even if the process ends in the next instant.
        await using var output = Console.OpenStandardOutput();
        var bench = new Bench(
            folder,
            outside,
            new Random(seed),
            line => SayAsync(output, line),
            isPlanted,
            Most: 60
        );
        await bench.Say("started");
        while (true)
        {
            await Work.All[work].RoundAsync(bench);
        }
    }

    /// <summary>Does a few rounds on a disk that runs full, and says how that was told.</summary>
    public static async Task<int> FewAsync(string work, string folder, string outside, int seed)
    {
        await using var output = Console.OpenStandardOutput();
        var random = new Random(seed);
        var bench = new Bench(
            folder,
            outside,
            random,
            line => SayAsync(output, line),
            IsPlanted: false,
            Most: 2
        );
        for (var round = 0; round < 3; round++)
        {
            try
            {
                await Work.All[work].RoundAsync(bench);
            }
            catch (StoreUnusableException refused)
            {
                await bench.Say($"refused {refused.Reason.Code}.");
            }
            catch (IOException failed)
            {
                await bench.Say(
                    $"refused {(failed.Message.Contains("No space left", StringComparison.Ordinal) ? "no-space" : failed.GetType().Name)}."
                );
            }
        }

        return 0;
    }

    private static async Task SayAsync(Stream output, string line) =>
        await output.WriteAsync(System.Text.Encoding.ASCII.GetBytes(line + "\n"));
}
