using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace Broodtide.Browser.Tests.Sync;

/// <summary>
/// The published server on one port and one folder, ended as by a power cut and started again as often as one likes.
/// Its journal begins with a single note, so that nothing is computed but what sync costs.
/// </summary>
internal sealed class KillableServer : IAsyncDisposable
{
    private readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("broodtide-sync-");
    private readonly int _port = FreePort();
    private Process? _process;

    public string Address => $"http://127.0.0.1:{_port}";

    public bool IsRunning => _process is not null;

    private string Journal => Path.Combine(_data.CreateSubdirectory("demo").FullName, "invented.db");

    /// <summary>Puts entries into the journal while the server is down.</summary>
    public async Task WriteAsync(int count)
    {
        await using var journal = await SqliteJournal.OpenAsync(Journal, "cli");
        await journal.AppendAsync([.. Enumerable.Range(1, count).Select(number => Note($"note {number}"))]);
    }

    /// <summary>A server that lost everything: another journal, another memory.</summary>
    public async Task LoseAllAsync()
    {
        await KillAsync();
        _data.Delete(recursive: true);
        await WriteAsync(1);
    }

    public async Task StartAsync()
    {
        if (_process is not null)
        {
            return;
        }

        var site = await PublishedSite.GetFolder();
        var process =
            Process.Start(
                new ProcessStartInfo(
                    "dotnet",
                    [
                        Path.Combine(site, "Broodtide.Server.dll"),
                        "--urls",
                        Address,
                        "--data",
                        _data.FullName,
                        "--demo",
                    ]
                )
                {
                    UseShellExecute = false,
                    RedirectStandardOutput = true,
                }
            ) ?? throw new InvalidOperationException("The server did not start.");
        _process = process;
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith("Broodtide is at ", StringComparison.Ordinal))
            {
                return;
            }
        }

        throw new InvalidOperationException("The server ended.");
    }

    /// <summary>As by a power cut.</summary>
    public async Task KillAsync()
    {
        if (_process is { } process)
        {
            _process = null;
            process.Kill();
            await process.WaitForExitAsync();
            process.Dispose();
        }
    }

    /// <summary>The digests of all entries on the server's disk.</summary>
    public IReadOnlyList<string> Digests()
    {
        using var connection = new SqliteConnection($"Data Source={Journal};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT lower(hex(digest)) FROM entry";
        using var rows = command.ExecuteReader();
        var found = new List<string>();
        while (rows.Read())
        {
            found.Add(rows.GetString(0));
        }

        return found;
    }

    public async ValueTask DisposeAsync()
    {
        await KillAsync();
        _data.Delete(recursive: true);
    }

    public static Draft Note(string text)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        return new Draft(
            new EntryId(Guid.CreateVersion7()),
            new Author("Ada"),
            now,
            "Europe/Berlin",
            Happened.At(now),
            new NoteWritten(text)
        );
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
