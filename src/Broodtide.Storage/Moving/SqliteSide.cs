using Broodtide.Storage.Blocks;
using Broodtide.Storage.Households;
using Broodtide.Storage.Sqlite;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Moving;

/// <summary>The files of a house, held so that nobody writes in them while they are carried.</summary>
internal sealed class SqliteSide : IDisposable
{
    // What a store of its own makes anew: which life it is, where it writes, what it worked out.
    private static readonly string[] OwnTables = ["life", "door", "checkpoint"];

    private readonly List<SqliteConnection> _connections = [];

    private SqliteSide(string folder) => Folder = folder;

    public string Folder { get; }

    public string Journal => System.IO.Path.Combine(Folder, "journal.db");

    /// <summary>Which tables lie in which file.</summary>
    public List<(SqliteConnection Connection, MovedTable Table)> Tables { get; } = [];

    /// <summary>Opens the files of a folder; those that are not there are made if asked, else left out.</summary>
    public static SqliteSide Open(string folder, bool isMade)
    {
        var side = new SqliteSide(folder);
        try
        {
            string[] files =
            [
                side.Journal,
                System.IO.Path.Combine(folder, "house.db"),
                ReadingsFile.BesidePath(side.Journal),
            ];
            if (isMade)
            {
                Make(files);
            }

            // The house before the journal, as a backup does.
            foreach (var file in (string[])[files[1], files[0], files[2]])
            {
                if (File.Exists(file))
                {
                    side.Hold(file);
                }
            }

            return side;
        }
        catch
        {
            side.Dispose();
            throw;
        }
    }

    /// <summary>Ends what was begun on every file; on the disk when this returns.</summary>
    public void Keep()
    {
        foreach (var connection in _connections)
        {
            connection.Run("COMMIT");
            connection.Run("PRAGMA wal_checkpoint(TRUNCATE)");
        }
    }

    public void Dispose() => _connections.ForEach(connection => connection.Dispose());

    private static void Make(string[] files)
    {
        using (var journal = StoreSettings.ConnectionTo(files[0]))
        {
            journal.Open();
            StoreSettings.Apply(journal, files[0]);
            StoreSchema.Prepare(journal, files[0]);
        }

        HouseFile.Open(files[1]).Dispose();
        ReadingsFile.Open(files[2]).DisposeAsync().AsTask().GetAwaiter().GetResult();
    }

    private void Hold(string file)
    {
        var connection = StoreSettings.ConnectionTo(file);
        _connections.Add(connection);
        connection.Open();
        StoreSettings.Apply(connection, file);
        connection.Run("BEGIN IMMEDIATE");
        foreach (
            var table in connection.List(
                row => row.GetString(0),
                "SELECT name FROM sqlite_schema WHERE type='table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid"
            )
        )
        {
            if (!OwnTables.Contains(table))
            {
                var columns = connection.List(
                    row => row.GetString(0),
                    "SELECT name FROM pragma_table_info($table) ORDER BY cid",
                    ("$table", table)
                );
                Tables.Add((connection, new MovedTable(table, columns)));
            }
        }
    }
}
