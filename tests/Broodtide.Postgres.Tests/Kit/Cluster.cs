using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Broodtide.Postgres.Tests.Kit;
using Npgsql;

[assembly: AssemblyFixture(typeof(Cluster))]

namespace Broodtide.Postgres.Tests.Kit;

/// <summary>
/// A PostgreSQL of these tests alone: made in a temporary folder, on a free port of this machine, ended and removed
/// afterwards. It keeps what it confirms, as a real one does.
/// </summary>
public sealed class Cluster : IAsyncDisposable
{
    private const string Keeper = "keeper";
    private const string Secret = "invented-for-tests";
    private static readonly Lock Starting = new();
    private readonly List<string> _folders = [];
    private string? _data;
    private int _databases;
    private int _houses;

    /// <summary>The port it listens on, once somebody asked for a database.</summary>
    public int Port { get; private set; }

    /// <summary>Why no PostgreSQL can be started here; none where it can.</summary>
    public static string? Missing =>
        Programs.Find("initdb") is null || Programs.Find("pg_ctl") is null
            ? "PostgreSQL is not installed (Debian: apt-get install postgresql)"
            : null;

    /// <summary>A house of its own for one test, with all rights: a schema in a database that others use too.</summary>
    public string NewHouse()
    {
        Start();
        var number = Interlocked.Increment(ref _houses).ToString(CultureInfo.InvariantCulture);
        return $"{ConnectionTo("postgres")};Search Path=house_{number}";
    }

    /// <summary>A database of its own for one test, with all rights.</summary>
    public string NewDatabase() => ConnectionTo(NewDatabaseName());

    /// <summary>The name of a new database.</summary>
    public string NewDatabaseName()
    {
        Start();
        var name = "house" + Interlocked.Increment(ref _databases).ToString(CultureInfo.InvariantCulture);
        Run($"CREATE DATABASE {name}");
        return name;
    }

    /// <summary>How to connect to a database.</summary>
    public string ConnectionTo(string database, string user = Keeper, string secret = Secret) =>
        new NpgsqlConnectionStringBuilder
        {
            Host = "127.0.0.1",
            Port = Port,
            Database = database,
            Username = user,
            Password = secret,
        }.ToString();

    /// <summary>Runs a statement as the keeper of the cluster.</summary>
    public void Run(string statement, string database = "postgres")
    {
        // Tests alone speak so: names are made here.
#pragma warning disable CA2100
        using var connection = new NpgsqlConnection(ConnectionTo(database) + ";Pooling=false");
        connection.Open();
        using var command = new NpgsqlCommand(statement, connection);
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    /// <summary>The files in which a database lies.</summary>
    public IEnumerable<string> FilesOf(string database)
    {
        using var connection = new NpgsqlConnection(ConnectionTo(database) + ";Pooling=false");
        connection.Open();
        using var command = new NpgsqlCommand(
            "SELECT oid::text FROM pg_database WHERE datname = current_database()",
            connection
        );
        return Directory.EnumerateFiles(Path.Combine(_data!, "base", (string)command.ExecuteScalar()!));
    }

    /// <summary>Ends it at once, as a power cut would, and starts it again.</summary>
    public void Restart(string mode = "immediate")
    {
        Start();
        Programs.Run(Programs.Find("pg_ctl")!, "-D", _data!, "-m", mode, "-w", "stop");
        StartServer(_data!, Port);
    }

    public ValueTask DisposeAsync()
    {
        if (_data is not null)
        {
            Programs.Run(Programs.Find("pg_ctl")!, "-D", _data, "-m", "immediate", "-w", "stop");
        }

        foreach (var folder in _folders)
        {
            Directory.Delete(folder, recursive: true);
        }

        return ValueTask.CompletedTask;
    }

    private void Start()
    {
        if (Missing is { } reason)
        {
            Assert.False(Environment.GetEnvironmentVariable("CI") == "true", reason);
            Assert.Skip(reason);
        }

        lock (Starting)
        {
            if (_data is not null)
            {
                return;
            }

            var folder = Directory.CreateTempSubdirectory("broodtide-postgres-").FullName;
            _folders.Add(folder);
            var secret = Path.Combine(folder, "secret");
            File.WriteAllText(secret, Secret);
            Programs.GiveAway(folder);
            var data = Path.Combine(folder, "data");
            Programs.Run(
                Programs.Find("initdb")!,
                "-D",
                data,
                "-U",
                Keeper,
                "-A",
                "scram-sha-256",
                "--pwfile",
                secret,
                "-E",
                "UTF8",
                "--locale",
                "C",
                "--data-checksums"
            );
            Port = FreePort();
            StartServer(data, Port);
            _data = data;
        }
    }

    private static void StartServer(string data, int port) =>
        Programs.Run(
            Programs.Find("pg_ctl")!,
            "-D",
            data,
            "-l",
            Path.Combine(data, "log"),
            "-o",
            string.Create(
                CultureInfo.InvariantCulture,
                $"-c listen_addresses=127.0.0.1 -c port={port} -c unix_socket_directories={data} -c max_connections=200"
            ),
            "-w",
            "start"
        );

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
