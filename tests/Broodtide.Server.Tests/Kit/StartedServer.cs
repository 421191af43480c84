using System.Diagnostics;
using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using Broodtide.Server.Certificates;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Tests.Kit;

/// <summary>The server as a program of its own, as built beside these tests.</summary>
internal sealed class StartedServer : IAsyncDisposable
{
    private const string Announcement = "Broodtide is at ";
    private readonly Process _process;
    private readonly StringBuilder _printed = new();

    private StartedServer(Process process, string address, string said)
    {
        _process = process;
        Address = address;
        Said = said;
    }

    /// <summary>As it prints it.</summary>
    public string Address { get; }

    /// <summary>What it said before that.</summary>
    public string Said { get; }

    /// <summary>What it has printed since.</summary>
    public string Printed
    {
        get
        {
            lock (_printed)
            {
                return _printed.ToString();
            }
        }
    }

    private async Task HearAsync(StreamReader output)
    {
        while (await output.ReadLineAsync(CancellationToken.None) is { } line)
        {
            lock (_printed)
            {
                _printed.AppendLine(line);
            }
        }
    }

    /// <summary>A port that nobody listens on just now.</summary>
    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>Gives the house an owner with a passphrase, as its first start does.</summary>
    public static void AddOwner(TemporaryFolder folder, string passphraseHash = "a hash")
    {
        using var house = HouseFile.Open(folder.File("house.db"));
        Assert.True(
            new HousePeople(house).AddFirstOwner(
                new Person(
                    new PersonId(Guid.CreateVersion7()),
                    "Ana",
                    Role.Owner,
                    passphraseHash,
                    Instant.FromUtc(2026, 11, 25, 12, 0),
                    null
                )
            )
        );
    }

    /// <summary>Runs it to its end.</summary>
    public static async Task<(int Code, string Said, string Complained)> Run(
        TemporaryFolder folder,
        params string[] words
    )
    {
        using var process = Start(folder, words);
        var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var complained = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, await said, await complained);
    }

    /// <summary>Runs it until it is thrown away.</summary>
    public static async Task<StartedServer> Open(TemporaryFolder folder, params string[] words)
    {
        var process = Start(folder, words);
        var said = "";
        while (await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                var server = new StartedServer(process, line[Announcement.Length..], said);
                _ = server.HearAsync(process.StandardOutput);
                _ = server.HearAsync(process.StandardError);
                return server;
            }

            said += line + "\n";
        }

        var complained = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        throw new InvalidOperationException($"The server ended.\n{said}\n{complained}");
    }

    /// <summary>A client that finds every name on this machine and trusts the house's authority alone.</summary>
    /// <param name="folder">The house.</param>
    /// <param name="anyName">Whether it takes a certificate of another name than the one asked for.</param>
    public static HttpClient Phone(TemporaryFolder folder, bool anyName = false)
    {
        var authority = new CertificateFolder(folder.Folder).Authority();
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            ConnectCallback = async (connection, cancel) =>
            {
                var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                await socket.ConnectAsync(IPAddress.Loopback, connection.DnsEndPoint.Port, cancel);
                return new NetworkStream(socket, ownsSocket: true);
            },
            SslOptions = new SslClientAuthenticationOptions
            {
                RemoteCertificateValidationCallback = (_, _, _, trouble) =>
                    trouble is SslPolicyErrors.None
                    || (anyName && trouble is SslPolicyErrors.RemoteCertificateNameMismatch),
                CertificateChainPolicy = new X509ChainPolicy
                {
                    TrustMode = X509ChainTrustMode.CustomRootTrust,
                    RevocationMode = X509RevocationMode.NoCheck,
                },
            },
        };
        if (authority is not null)
        {
            handler.SslOptions.CertificateChainPolicy.CustomTrustStore.Add(authority);
        }

        return new HttpClient(handler);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        await _process.WaitForExitAsync();
        _process.Dispose();
    }

    /// <summary>Starts it through a line of a shell, which gets the folder and then the program with its words.</summary>
    public static Process StartAs(TemporaryFolder folder, string shell, string line, params string[] words) =>
        Start(folder, shell, ["-c", line, "sh", folder.Folder.FullName, "dotnet", Program, .. words]);

    private static Process Start(TemporaryFolder folder, string[] words) =>
        Start(folder, "dotnet", [Program, .. words]);

    private static Process Start(TemporaryFolder folder, string program, string[] words) =>
        Process.Start(
            new ProcessStartInfo(program, [.. words, "--data", folder.Folder.FullName])
            {
                WorkingDirectory = folder.Folder.FullName,
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            }
        ) ?? throw new InvalidOperationException("The server did not start.");

    private static string Program
    {
        get
        {
            // artifacts/bin/<project>/<configuration>/
            var own = new DirectoryInfo(AppContext.BaseDirectory);
            return Path.Combine(
                own.Parent!.Parent!.FullName,
                "Broodtide.Server",
                own.Name,
                "Broodtide.Server.dll"
            );
        }
    }
}
