using System.Diagnostics;
using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

/// <summary>The program as it is started by a person: a process of its own.</summary>
public sealed class ProcessTests
{
    private static async Task<Outcome> StartAsync(string folder, params string[] args)
    {
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "broodtide"))
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
        foreach (var word in args)
        {
            start.ArgumentList.Add(word);
        }

        start.Environment["BROODTIDE_JOURNAL"] = Path.Combine(folder, "journal.broodtide");
        start.Environment["DOTNET_ROOT"] =
            Path.GetDirectoryName(Environment.ProcessPath) is { } beside
            && File.Exists(Path.Combine(beside, "dotnet"))
                ? beside
                : Environment.GetEnvironmentVariable("DOTNET_ROOT");
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return new(process.ExitCode, await output, await error);
    }

    [Fact]
    public async Task The_program_runs_as_a_process_with_its_exit_codes()
    {
        var folder = Directory.CreateTempSubdirectory("broodtide-process-").FullName;
        try
        {
            var done = await StartAsync(folder, "write", "vessel", "Jar A", "larval-vessel", "--who", "Ada");
            Assert.Equal((0, ""), (done.Code, done.Error));
            Assert.Equal(1, (await StartAsync(folder, "write", "temperature", "Jar A", "76")).Code);
            var nonsense = await StartAsync(folder, "write", "temperature", "Jar B", "24");
            Assert.Equal(2, nonsense.Code);
            Assert.Contains("Known: \"Jar A\"", nonsense.Error, StringComparison.Ordinal);
            var journal = await StartAsync(folder, "journal", "--json");
            Assert.Equal("Ada", journal.Json.GetProperty("entries")[0].GetProperty("author").GetString());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
