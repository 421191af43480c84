using System.Diagnostics;
using System.Globalization;

namespace Broodtide.Speed;

/// <summary>
/// The start of the command line in a fresh process, against a program of the same runtime that prints one line: what the
/// runtime itself takes.
/// </summary>
internal static class StartDuel
{
    /// <summary>The argument that makes this program print one line and end.</summary>
    public const string Hello = "hello";

    public static void Run(int rounds)
    {
        Told.Title("START: the command line in a fresh process");
        var self = typeof(StartDuel).Assembly.Location;
        var tool = Path.GetFullPath(
            Path.Combine(Path.GetDirectoryName(self)!, "../../Broodtide.Cli/release/broodtide.dll")
        );
        if (!File.Exists(tool))
        {
            throw new FileNotFoundException($"{tool} is not built: eng/speed builds it.", tool);
        }

        var took = Duel.Run(
            "start",
            rounds,
            new Runner("ours, --version", () => Start(tool, "--version")),
            new Runner("one line printed by the same runtime", () => Start(self, Hello))
        );
        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  ours adds {took[0] - took[1]:F0} ms to the runtime's {took[1]:F0} ms (aim 60 ms in all)"
            )
        );
    }

    private static void Start(params string[] arguments)
    {
        using var process = Process.Start(
            new ProcessStartInfo("dotnet", arguments)
            {
                RedirectStandardOutput = true,
                UseShellExecute = false,
            }
        )!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{arguments[0]} ended with {process.ExitCode}.");
        }
    }
}
