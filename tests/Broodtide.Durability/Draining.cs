using System.Diagnostics;

namespace Broodtide.Durability;

/// <summary>Two folders of one proof: the one whose disk is under test, and one beside it.</summary>
internal sealed class Folders : IDisposable
{
    private readonly string _both = Directory.CreateTempSubdirectory("broodtide-durability-").FullName;

    public Folders()
    {
        Directory.CreateDirectory(Disk);
        Directory.CreateDirectory(Outside);
    }

    public string Disk => Path.Combine(_both, "disk");

    public string Outside => Path.Combine(_both, "outside");

    public void Dispose() => Directory.Delete(_both, recursive: true);
}

/// <summary>Starts this program again and hears all it says.</summary>
internal static class Draining
{
    public static Process Start(IReadOnlyList<string> arguments, Dictionary<string, string> environment)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment =
            {
                // Short lives: what the compiler would do on the second core is never of use.
                ["DOTNET_TieredPGO"] = "0",
                ["DOTNET_TieredCompilation"] = "1",
            },
        };
        start.ArgumentList.Add(typeof(Draining).Assembly.Location);
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }

    public static async Task DrainAsync(Process writer, List<string> said)
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
