using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;
using Microsoft.Playwright;
using NodaTime;

namespace Broodtide.Browser.Tests;

/// <summary>
/// The published server opened to the network under a name of the house, and a Chromium of its own that finds the
/// name on this machine. Whether it trusts the house's authority is decided as on a desk: in the list of authorities
/// of its user.
/// </summary>
internal sealed class OpenHouse : IAsyncDisposable
{
    public const string Name = "broodtide-test.home.arpa";
    public const string OtherName = "other-test.home.arpa";
    public const string Elsewhere = "elsewhere.example";

    private const string Announcement = "Broodtide is at ";
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("broodtide-test-");
    private readonly List<IAsyncDisposable> _open = [];
    private Process? _server;

    public int Port { get; } = FreePort();

    public int TrustPort { get; } = FreePort();

    public string Origin => string.Create(CultureInfo.InvariantCulture, $"https://{Name}:{Port}");

    public string TrustPage => string.Create(CultureInfo.InvariantCulture, $"http://{Name}:{TrustPort}/");

    public string Data => Path.Combine(_folder.FullName, "data");

    public string Authority => Path.Combine(_folder.FullName, "authority.pem");

    /// <summary>A house with an owner, its authority made, its server not started.</summary>
    public static async Task<OpenHouse> Prepare()
    {
        var house = new OpenHouse();
        Directory.CreateDirectory(house.Data);
        using (var file = HouseFile.Open(Path.Combine(house.Data, "house.db")))
        {
            new HousePeople(file).AddFirstOwner(
                new Person(
                    new PersonId(Guid.CreateVersion7()),
                    "Ana",
                    Role.Owner,
                    "a hash",
                    SystemClock.Instance.GetCurrentInstant(),
                    null
                )
            );
        }

        await house.Command("certificate", "new-authority", $"{Name},{OtherName}");
        await house.Command("certificate", "export", house.Authority);
        return house;
    }

    /// <summary>A command of the published server, done to its end.</summary>
    public async Task Command(params string[] words)
    {
        using var process = Start(await Server(), words);
        var complained = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, complained);
    }

    public async Task StartServer()
    {
        _server = Start(
            await Server(),
            [
                "--open",
                string.Create(CultureInfo.InvariantCulture, $"{Name}:{Port},{OtherName}"),
                "--trust-port",
                TrustPort.ToString(CultureInfo.InvariantCulture),
            ]
        );
        while (await _server.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                Assert.Equal(Origin, line[Announcement.Length..]);
                return;
            }
        }

        Assert.Fail(await _server.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>As by a power cut.</summary>
    public async Task StopServer()
    {
        if (_server is { HasExited: false } server)
        {
            server.Kill();
            await server.WaitForExitAsync();
        }
    }

    /// <summary>A phone of its own; skipped by name where a program for it is missing.</summary>
    public async Task<IBrowserContext> Phone(bool trusts, bool bypassPolicy = false)
    {
        var home = _folder.CreateSubdirectory(trusts ? "home-trusting" : "home");
        var store = "sql:" + home.CreateSubdirectory(".pki/nssdb").FullName;
        await Certutil("-N", "-d", store, "--empty-password");
        if (trusts)
        {
            await Certutil("-A", "-d", store, "-t", "C,,", "-n", "house", "-i", Authority);
        }

        if (!File.Exists(Browsing.Executable))
        {
            SkipOrFail($"There is no Chromium at {Browsing.Executable}.");
        }

        var playwright = await Playwright.CreateAsync();
        Assertions.SetDefaultExpectTimeout(20_000);
        string[] names = [Name, OtherName, Elsewhere];
        var environment = Environment
            .GetEnvironmentVariables()
            .Cast<System.Collections.DictionaryEntry>()
            .ToDictionary(pair => (string)pair.Key, pair => (string)pair.Value!, StringComparer.Ordinal);
        environment["HOME"] = home.FullName;
        var browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Browsing.Executable,
                Env = environment,
                Args =
                [
                    .. Browsing.Switches,
                    "--host-resolver-rules="
                        + string.Join(',', names.Select(name => $"MAP {name} 127.0.0.1")),
                ],
            }
        );
        _open.Add(browser);
        return await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = Browsing.PhoneWidth, Height = Browsing.PhoneHeight },
                HasTouch = true,
                IsMobile = true,
                TimezoneId = "Europe/Berlin",
                Locale = "en-GB",
                BypassCSP = bypassPolicy,
            }
        );
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var open in _open)
        {
            await open.DisposeAsync();
        }

        await StopServer();
        _server?.Dispose();
        _folder.Delete(recursive: true);
    }

    private Process Start(string program, IReadOnlyList<string> words) =>
        Process.Start(
            new ProcessStartInfo("dotnet", [program, .. words, "--data", Data])
            {
                WorkingDirectory = _folder.FullName,
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            }
        ) ?? throw new InvalidOperationException("The server did not start.");

    private static async Task<string> Server() =>
        Path.Combine(await PublishedSite.GetFolder(), "Broodtide.Server.dll");

    private static async Task Certutil(params string[] words)
    {
        const string Program = "/usr/bin/certutil";
        if (!File.Exists(Program))
        {
            SkipOrFail(
                $"There is no {Program} (package libnss3-tools), by which a Chromium is told of an authority."
            );
        }

        using var process =
            Process.Start(new ProcessStartInfo(Program, words) { UseShellExecute = false })
            ?? throw new InvalidOperationException("certutil did not start.");
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, process.ExitCode);
    }

    private static void SkipOrFail(string reason)
    {
        if (Environment.GetEnvironmentVariable("CI") == "true")
        {
            Assert.Fail(reason);
        }

        Assert.Skip(reason);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
