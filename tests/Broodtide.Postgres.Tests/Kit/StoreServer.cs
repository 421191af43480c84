using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Broodtide.Server.Tests.Kit;

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>A server as a program of its own, as built beside these tests, with its house in a database.</summary>
internal sealed class StoreServer(string database) : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private Process? _process;

    public int Port { get; } = FreePort();

    public Uri Address => new($"http://127.0.0.1:{Port.ToString(CultureInfo.InvariantCulture)}");

    /// <summary>What it said until it was at its address.</summary>
    public string Said { get; private set; } = "";

    /// <summary>Starts it, and waits until it is at its address.</summary>
    public async Task StartAsync()
    {
        _process = Begin(database, "--urls", Address.ToString(), "--data", _folder.Folder.FullName);
        Said = "";
        while (await _process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            if (line.StartsWith("Broodtide is at ", StringComparison.Ordinal))
            {
                _ = _process.StandardOutput.ReadToEndAsync(CancellationToken.None);
                _ = _process.StandardError.ReadToEndAsync(CancellationToken.None);
                return;
            }

            Said += line + "\n";
        }

        throw new InvalidOperationException(
            $"It ended: {Said} {await _process.StandardError.ReadToEndAsync()}"
        );
    }

    /// <summary>Ends it at once, in whatever it does.</summary>
    public async Task KillAsync()
    {
        // On this system the signal that nothing can catch.
        _process!.Kill();
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken);
        _process.Dispose();
        _process = null;
    }

    /// <summary>Runs the server's program with some words to its end.</summary>
    public static async Task<(int Code, string Said, string Complained)> RunAsync(
        string? database,
        params string[] words
    )
    {
        using var process = Begin(database, words);
        var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var complained = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, await said, await complained);
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
        {
            await KillAsync();
        }

        _folder.Dispose();
    }

    private static Process Begin(string? database, params string[] words)
    {
        // artifacts/bin/<project>/<configuration>/
        var own = new DirectoryInfo(AppContext.BaseDirectory);
        var program = Path.Combine(
            own.Parent!.Parent!.FullName,
            "Broodtide.Server",
            own.Name,
            "Broodtide.Server.dll"
        );
        return Process.Start(
                new ProcessStartInfo("dotnet", [program, .. words])
                {
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                    RedirectStandardError = true,
                    Environment = { ["BROODTIDE_STORE"] = database },
                }
            ) ?? throw new InvalidOperationException("The server did not start.");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
