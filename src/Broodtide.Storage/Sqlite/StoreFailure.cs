using Broodtide.Units;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Broodtide.Storage.Sqlite;

/// <summary>What a failure of SQLite means to a person.</summary>
internal static class StoreFailure
{
    public static StoreUnusableException Of(string path, SqliteException failure) =>
        new(
            new Remark(
                failure.SqliteErrorCode switch
                {
                    raw.SQLITE_CORRUPT => "store-damaged",
                    raw.SQLITE_NOTADB => "store-foreign",
                    raw.SQLITE_FULL => "disk-full",
                    // SQLite has words of its own only for a write that finds no room, not for a file or a sync.
                    raw.SQLITE_IOERR or raw.SQLITE_CANTOPEN when Disk.IsFull(path) => "disk-full",
                    raw.SQLITE_BUSY or raw.SQLITE_LOCKED => "store-busy",
                    raw.SQLITE_READONLY or raw.SQLITE_PERM or raw.SQLITE_AUTH => "store-read-only",
                    raw.SQLITE_CANTOPEN => "store-cannot-be-opened",
                    _ => "store-failed",
                },
                new("file", path),
                new("reason", failure.Message)
            ),
            failure
        );
}
