using System.Diagnostics;

namespace Broodtide.Browser.Tests;

/// <summary>The command line as it is started, for answers to hold a page against.</summary>
internal static class CommandLine
{
    // From its own folder: beside these tests some of what it needs comes with their framework and is not copied.
    private static readonly string Program = Path.GetFullPath(
        Path.Combine(
            AppContext.BaseDirectory,
            "..",
            "..",
            "Broodtide.Cli",
            new DirectoryInfo(AppContext.BaseDirectory).Name,
            "broodtide.dll"
        )
    );

    /// <summary>What a call prints; it must end well.</summary>
    public static async Task<string> Run(params string[] words)
    {
        using var process =
            Process.Start(
                new ProcessStartInfo("dotnet", [Program, .. words])
                {
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The command line did not start.");
        var text = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, text);
        return text;
    }
}
