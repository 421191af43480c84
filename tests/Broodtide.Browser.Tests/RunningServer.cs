using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using Broodtide.Workbench.People;

namespace Broodtide.Browser.Tests;

/// <summary>The published server, running on a free port with a folder of its own.</summary>
internal sealed class RunningServer : IAsyncDisposable
{
    public const string OwnersName = "Keeper";
    public const string Passphrase = "nine wet hands at night";
    private const string Announcement = "Broodtide is at ";
    private const string FirstStart = "/first#";

    // Who is signed in at an address, for browsers that are opened there.
    private static readonly ConcurrentDictionary<string, CookieCollection> Owners = [];

    private readonly Process _process;
    private readonly DirectoryInfo _data;

    private RunningServer(Process process, DirectoryInfo data, string address, string? code)
    {
        _process = process;
        _data = data;
        Address = address;
        Code = code;
    }

    /// <summary>As the server prints it.</summary>
    public string Address { get; }

    /// <summary>The code of the first start, while nobody owned the house.</summary>
    public string? Code { get; }

    /// <summary>
    /// A house with an owner, made as everybody makes one; a browser that is opened there is the owner's. A demo has
    /// nobody to sign in.
    /// </summary>
    public static Task<RunningServer> Start(params string[] options) =>
        StartOn(Directory.CreateTempSubdirectory("broodtide-test-"), options);

    /// <summary>The same on a folder that holds something already; it goes with the server.</summary>
    public static async Task<RunningServer> StartOn(DirectoryInfo data, params string[] options)
    {
        var server = await StartUnownedOn(data, options);
        if (server.Code is { } code)
        {
            Owners[server.Address] = await server.MakeOwner(code);
        }

        return server;
    }

    /// <summary>The same house is reached at another address too: a browser opened there is the owner's.</summary>
    public void IsAlsoAt(string address) => Owners[address] = Owners[Address];

    /// <summary>The cookies of the owner at an address, if browsers opened there are the owner's.</summary>
    public static IEnumerable<Cookie> OwnersCookies(string address) =>
        Owners.GetValueOrDefault(new Uri(address).GetLeftPart(UriPartial.Authority)) ?? [];

    /// <summary>As it starts by itself; nobody is signed in.</summary>
    public static Task<RunningServer> StartUnowned(params string[] options) =>
        StartUnownedOn(Directory.CreateTempSubdirectory("broodtide-test-"), options);

    private static async Task<RunningServer> StartUnownedOn(DirectoryInfo data, string[] options)
    {
        var site = await PublishedSite.GetFolder();
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
        string? code = null;
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.IndexOf(FirstStart, StringComparison.Ordinal) is var at and >= 0)
            {
                code = line[(at + FirstStart.Length)..];
            }

            if (line.StartsWith(Announcement, StringComparison.Ordinal))
            {
                return new(process, data, line[Announcement.Length..], code);
            }
        }

        await process.WaitForExitAsync();
        throw new InvalidOperationException($"The server ended with {process.ExitCode}.");
    }

    /// <summary>Where it keeps its journal.</summary>
    public string DataFolder => _data.FullName;

    private async Task<CookieCollection> MakeOwner(string code)
    {
        var cookies = new CookieContainer();
        using var http = new HttpClient(new HttpClientHandler { CookieContainer = cookies })
        {
            BaseAddress = new Uri(Address),
        };
        var word = await http.GetFromJsonAsync(
            new Uri(PeopleAddresses.Token, UriKind.Relative),
            PeopleJson.Default.TokenSeen
        );
        http.DefaultRequestHeaders.Add(PeopleAddresses.TokenHeader, word!.Token);
        using var body = JsonContent.Create(
            new FirstAsked(code, OwnersName, Passphrase),
            PeopleJson.Default.FirstAsked
        );
        await body.LoadIntoBufferAsync();
        using var made = await http.PostAsync(new Uri(PeopleAddresses.First, UriKind.Relative), body);
        made.EnsureSuccessStatusCode();
        return cookies.GetCookies(http.BaseAddress);
    }

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
