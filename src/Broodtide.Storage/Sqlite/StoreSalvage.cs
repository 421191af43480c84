using Broodtide.Domain.Journal;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Reads every entry that is whole out of a store that is not. Rows are asked for one after another; where a page cannot be
/// read its rows are passed over, and what is read is verified by its own hashes.
/// </summary>
public static class StoreSalvage
{
    // No entry of the table takes fewer bytes: its envelope alone is longer.
    private const int LeastBytesOfEntry = 100;

    /// <summary>The entries that are whole. The file is not changed.</summary>
    /// <param name="path">The store.</param>
    /// <param name="cancellation">Gives up between rows.</param>
    /// <exception cref="StoreUnusableException">Not even the beginning of the file can be read.</exception>
    public static IReadOnlyList<Entry> Read(string path, CancellationToken cancellation = default)
    {
        var whole = new Dictionary<Digest, Entry>();
        try
        {
            using var connection = DistrustedFile.Open(path);
            // A file that lost its end is read as far as it goes.
            connection.Run("PRAGMA writable_schema=ON");
            var last = Last(connection, path);
            for (var number = 0L; number < last; )
            {
                cancellation.ThrowIfCancellationRequested();
                number = ReadAfter(connection, number, whole, last);
            }
        }
        catch (SqliteException failure)
        {
            throw StoreFailure.Of(path, failure);
        }

        return [.. whole.Values];
    }

    private static long Last(SqliteConnection connection, string path)
    {
        try
        {
            return connection.Ask<long>("SELECT max(number) FROM entry");
        }
        catch (SqliteException failure) when (failure.SqliteErrorCode == SQLitePCL.raw.SQLITE_CORRUPT)
        {
            return new FileInfo(path).Length / LeastBytesOfEntry;
        }
    }

    private static long ReadAfter(
        SqliteConnection connection,
        long after,
        Dictionary<Digest, Entry> whole,
        long last
    )
    {
        var number = after;
        try
        {
            using var command = connection.Make(
                "SELECT number, envelope, salted_body, digest FROM entry WHERE number > $after ORDER BY number",
                ("$after", after)
            );
            using var rows = command.ExecuteReader();
            while (rows.Read())
            {
                // A damaged number leads nowhere.
                if (rows.GetInt64(0) <= number)
                {
                    break;
                }

                number = rows.GetInt64(0);
                var read = Entry.Read(
                    new EntryBytes(
                        rows[1] as byte[] ?? [],
                        rows[2] is byte[] body ? body : default(ReadOnlyMemory<byte>)
                    )
                );
                // An envelope that was changed and still is one is told by the hash that stands beside it.
                if (
                    read.Succeeded
                    && rows[3] is byte[] { Length: Digest.Length } digest
                    && read.Value.Digest == Digest.FromBytes(digest)
                )
                {
                    whole[read.Value.Digest] = read.Value;
                }
            }

            return last;
        }
        catch (SqliteException failure) when (failure.SqliteErrorCode == SQLitePCL.raw.SQLITE_CORRUPT)
        {
            // The next row cannot be reached; the one after it perhaps.
            return number + 1;
        }
    }
}
