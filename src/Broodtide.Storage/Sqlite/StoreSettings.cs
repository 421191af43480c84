using Broodtide.Units;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// How every connection is set: write-ahead log, and every commit on the disk before it returns. Both are read
/// back, because SQLite answers a setting it cannot follow with another one and no error.
/// </summary>
internal static class StoreSettings
{
    private const long Full = 2;

    // Long enough for another process that writes a large import; a person waits this long at most.
    private const int BusyMilliseconds = 20_000;

    /// <summary>A connection to a file, made if it is not there; not opened yet.</summary>
    public static SqliteConnection ConnectionTo(string path) =>
        new(
            new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Mode = SqliteOpenMode.ReadWriteCreate,
                // A connection that is given back must be closed: settings belong to a connection.
                Pooling = false,
            }.ToString()
        );

    /// <exception cref="StoreUnusableException">The store cannot be made durable.</exception>
    public static void Apply(SqliteConnection connection, string path)
    {
        connection.Run($"PRAGMA busy_timeout={BusyMilliseconds}");
        var mode = connection.Ask<string>("PRAGMA journal_mode=WAL") ?? "";
        connection.Run("PRAGMA synchronous=FULL");
        // On macOS a plain fsync does not reach the disk.
        connection.Run("PRAGMA fullfsync=ON");
        connection.Run("PRAGMA checkpoint_fullfsync=ON");
        // What is erased is overwritten.
        connection.Run("PRAGMA secure_delete=ON");
        connection.Run("PRAGMA trusted_schema=OFF");
        connection.Run("PRAGMA cell_size_check=ON");
        Require(path, "journal_mode", mode, "wal");
        Require(path, "synchronous", connection.Ask<long>("PRAGMA synchronous"), Full);
        Require(path, "secure_delete", connection.Ask<long>("PRAGMA secure_delete"), 1L);
    }

    private static void Require<T>(string path, string setting, T found, T wanted)
        where T : notnull
    {
        if (!found.Equals(wanted))
        {
            throw new StoreUnusableException(
                new Remark(
                    "store-not-durable",
                    new("file", path),
                    new("setting", setting),
                    new("found", found),
                    new("wanted", wanted)
                )
            );
        }
    }
}
