using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>The tables: the bytes of entries are the truth, everything else can be worked out or thrown away.</summary>
internal static class StoreSchema
{
    private const string Tables = """
        CREATE TABLE entry (
            number      INTEGER PRIMARY KEY,
            digest      BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
            id          BLOB NOT NULL CHECK (length(id) = 16),
            replica     BLOB NOT NULL CHECK (length(replica) = 16),
            seq         INTEGER NOT NULL CHECK (seq >= 1),
            envelope    BLOB NOT NULL,
            salted_body BLOB NULL
        ) STRICT;
        CREATE INDEX entry_by_id ON entry (id);
        CREATE INDEX entry_by_seq ON entry (replica, seq);
        CREATE TABLE erased (id BLOB PRIMARY KEY CHECK (length(id) = 16)) STRICT, WITHOUT ROWID;
        CREATE TABLE life (one INTEGER PRIMARY KEY CHECK (one = 1), id BLOB NOT NULL CHECK (length(id) = 16)) STRICT;
        CREATE TABLE door (name TEXT PRIMARY KEY, replica BLOB NOT NULL CHECK (length(replica) = 16)) STRICT;
        CREATE TABLE checkpoint (
            fold        TEXT NOT NULL,
            version     INTEGER NOT NULL,
            position    INTEGER NOT NULL,
            mark_first  INTEGER NOT NULL,
            mark_second INTEGER NOT NULL,
            state       BLOB NOT NULL,
            PRIMARY KEY (fold, version, position)
        ) STRICT;
        """;

    /// <summary>Makes the tables in a file that has none; otherwise sees that the file is ours.</summary>
    /// <exception cref="StoreUnusableException">The file is foreign or newer.</exception>
    public static void Prepare(SqliteConnection connection, string path)
    {
        var made = connection.Within(() =>
        {
            if (connection.Ask<long>("PRAGMA application_id") == StoreHeader.Application)
            {
                StoreHeader.Require(path, (int)connection.Ask<long>("PRAGMA user_version"));
                return false;
            }

            if (connection.Ask<long>("SELECT count(*) FROM sqlite_schema") != 0)
            {
                throw StoreHeader.Foreign(path);
            }

            connection.Run($"PRAGMA application_id={StoreHeader.Application}");
            connection.Run($"PRAGMA user_version={StoreHeader.Version}");
            connection.Run(Tables);
            return true;
        });
        if (made)
        {
            // From here on the file itself says what it is.
            connection.Run("PRAGMA wal_checkpoint(TRUNCATE)");
        }
    }
}
