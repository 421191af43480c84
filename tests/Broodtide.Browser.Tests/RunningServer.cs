using System.Diagnostics;

namespace Broodtide.Browser.Tests;

/// <summary>The published server, running on a free port with a folder of its own.</summary>
internal sealed class RunningServer : IAsyncDisposable
{
    private const string Announcement = "Broodtide is at ";
    private readonly Process _process;
    private readonly DirectoryInfo _data;

    private RunningServer(Process process, DirectoryInfo data, string address)
    {
        _process = process;
        _data = data;
        Address = address;
    }

    /// <summary>As the server prints it.</summary>
    public string Address { get; }

    public static async Task<RunningServer> Start(params string[] options)
    {
        var site = await PublishedSite.GetFolder();
        var data = Directory.CreateTempSubdirectory("broodtide-test-");
        var process =
            Process.Start(
                new ProcessStartInfo(
                    "dotnet",
                    [
                        Path.Combine(site, "Broodtide.Server.dll"),
                        "--urls",
                        "http://127.0.0.1:0",
                        "--data",
                        data.FullName,
                        .. options,
                    ]
                )
                {
                    WorkingDirectory = data.FullName,
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The server did not start.");
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                return new(process, data, line[Announcement.Length..]);
            }
        }

        await process.WaitForExitAsync();
        throw new InvalidOperationException($"The server ended with {process.ExitCode}.");
    }

    /// <summary>Where it keeps its journal.</summary>
    public string DataFolder => _data.FullName;

    /// <summary>As by a power cut.</summary>
    public async Task Stop()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        await _process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await Stop();
        _process.Dispose();
        _data.Delete(recursive: true);
    }
}
