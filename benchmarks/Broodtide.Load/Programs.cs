using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Broodtide.Load;

/// <summary>The server and the broker, as programs of their own on this machine alone.</summary>
internal sealed class Programs : IAsyncDisposable
{
    private const string Announcement = "Broodtide is at ";
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("broodtide-load-");
    private Process _broker = null!;
    private Process _server = null!;

    public string Data => Path.Combine(_folder.FullName, "data");

    public int BrokerPort { get; } = FreePort();

    public Uri Address { get; private set; } = null!;

    public string FirstCode { get; private set; } = "";

    public static async Task<Programs> StartAsync(string server)
    {
        var all = new Programs();
        Directory.CreateDirectory(all.Data);
        var file = Path.Combine(all._folder.FullName, "broker.conf");
        await File.WriteAllLinesAsync(
            file,
            [
                $"listener {all.BrokerPort.ToString(CultureInfo.InvariantCulture)} 127.0.0.1",
                "allow_anonymous true",
                "max_queued_messages 1000000",
                .. Environment.UserName == "root" ? new[] { "user root" } : [],
            ]
        );
        await File.WriteAllTextAsync(
            Path.Combine(all.Data, "sensors.json"),
            $$$"""{"mqtt":{"host":"127.0.0.1","port":{{{all.BrokerPort}}}}}"""
        );
        all._broker = Start("/usr/sbin/mosquitto", ["-c", file]);
        _ = all._broker.StandardError.ReadToEndAsync();
        all._server = Start("dotnet", [server, "--urls", "http://127.0.0.1:0", "--data", all.Data]);
        while (await all._server.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.Contains("first#", StringComparison.Ordinal))
            {
                all.FirstCode = line.Split("first#")[1].Trim();
            }

            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                all.Address = new Uri(line[Announcement.Length..]);
                _ = all._server.StandardOutput.ReadToEndAsync();
                _ = PassOnAsync(all._server.StandardError);
                return all;
            }
        }

        throw new InvalidOperationException("The server ended.");
    }

    /// <summary>Memory of the server that is its own just now, in megabytes.</summary>
    public double ResidentMegabytes()
    {
        _server.Refresh();
        return _server.WorkingSet64 / 1e6;
    }

    /// <summary>Processor time of the server up to now.</summary>
    public TimeSpan ProcessorTime()
    {
        _server.Refresh();
        return _server.TotalProcessorTime;
    }

    /// <summary>Asks the server to stop as a system does, and waits.</summary>
    public async Task<(int Code, TimeSpan Took)> StopAsync()
    {
        var clock = Stopwatch.StartNew();
        using (var kill = Process.Start("kill", ["-TERM", _server.Id.ToString(CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync();
        }

        await _server.WaitForExitAsync();
        return (_server.ExitCode, clock.Elapsed);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var process in new[] { _server, _broker })
        {
            if (process is { HasExited: false })
            {
                process.Kill();
                await process.WaitForExitAsync();
            }

            process?.Dispose();
        }

        _folder.Delete(recursive: true);
    }

    private static async Task PassOnAsync(StreamReader output)
    {
        while (await output.ReadLineAsync() is { } line)
        {
            Console.Error.WriteLine($"server: {line}");
        }
    }

    private static Process Start(string program, string[] words) =>
        Process.Start(
            new ProcessStartInfo(program, words)
            {
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            }
        )!;

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
