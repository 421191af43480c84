using Broodtide.Units;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>Copies of stores: taken while others write, and looked at without being changed.</summary>
internal static class StoreCopy
{
    /// <summary>
    /// Writes what a store holds at one instant as a file of its own. Writers are not held up: SQLite reads in one
    /// transaction (VACUUM INTO).
    /// </summary>
    /// <param name="from">The store, in use or not.</param>
    /// <param name="to">Where the copy goes; nothing may be there.</param>
    /// <exception cref="StoreUnusableException">The store is damaged, or the disk is full.</exception>
    public static void Take(string from, string to)
    {
        try
        {
            using var connection = StoreSettings.ConnectionTo(from);
            connection.Open();
            connection.Run("PRAGMA busy_timeout=20000");
            connection.Run("PRAGMA trusted_schema=OFF");
            connection.Run("PRAGMA cell_size_check=ON");
            connection.Run("VACUUM INTO $to", ("$to", to));
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(failure.SqliteErrorCode == SQLitePCL.raw.SQLITE_FULL ? to : from, failure);
        }
    }

    /// <summary>Verifies a copy that nobody has open: its pages, and if it is a journal every entry and chain.</summary>
    /// <returns>What is wrong, and how many entries a journal has.</returns>
    public static (IReadOnlyList<Remark> Faults, int Entries) Check(
        string path,
        bool isJournal,
        CancellationToken cancellation
    )
    {
        try
        {
            using var connection = DistrustedFile.Open(path);
            if (isJournal)
            {
                StoreHeader.Inspect(path);
                return (
                    StoreCheck.Run(connection, cancellation),
                    (int)connection.Ask<long>("SELECT count(*) FROM entry")
                );
            }

            return (
                connection.Ask<string>("PRAGMA integrity_check") is var said and not "ok"
                    ? [new Remark("pages-damaged", new Argument("reason", said ?? ""))]
                    : [],
                0
            );
        }
        catch (SqliteException failure)
        {
            return ([StoreFailure.Of(path, failure).Reason], 0);
        }
    }
}
