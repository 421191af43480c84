using Broodtide.Domain.Journal;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Reads every entry in the order of arrival. Rows are decoded on all cores while the next ones are fetched, and
/// the bytes of many entries share one block of memory, since a hundred thousand small arrays cost more than the
/// reading.
/// </summary>
internal static class EntryScan
{
    private const int BlockBytes = 1 << 20;

    /// <exception cref="StoreUnusableException">A row does not hold what was put in.</exception>
    public static List<Entry> All(SqliteConnection connection, string path, CancellationToken cancellation)
    {
        return RowBatch.Decoded(Fetch(connection, cancellation), path, cancellation);
    }

    // Each worker fetches one batch at a time, in turn; nothing here runs twice at once.
    private static IEnumerable<RowBatch> Fetch(SqliteConnection connection, CancellationToken cancellation)
    {
        var database = connection.Handle!;
        Check(
            raw.sqlite3_prepare_v2(
                database,
                "SELECT digest, envelope, salted_body, number FROM entry ORDER BY number",
                out var rows
            ),
            database
        );
        using (rows)
        {
            var block = Memory<byte>.Empty;
            var isMore = true;
            while (isMore)
            {
                cancellation.ThrowIfCancellationRequested();
                var batch = new RowBatch();
                isMore = Fill(batch, rows, database, ref block);
                yield return batch;
            }
        }
    }

    private static bool Fill(RowBatch batch, sqlite3_stmt rows, sqlite3 database, ref Memory<byte> block)
    {
        while (!batch.IsFull)
        {
            var result = raw.sqlite3_step(rows);
            if (result != raw.SQLITE_ROW)
            {
                Check(result == raw.SQLITE_DONE ? raw.SQLITE_OK : result, database);
                return false;
            }

            batch.Rows.Add(
                new(
                    raw.sqlite3_column_int64(rows, 3),
                    RowShape.DigestOf(raw.sqlite3_column_blob(rows, 0)),
                    new EntryBytes(
                        Keep(raw.sqlite3_column_blob(rows, 1), ref block),
                        Keep(raw.sqlite3_column_blob(rows, 2), ref block)
                    )
                )
            );
        }

        return true;
    }

    private static Memory<byte> Keep(ReadOnlySpan<byte> bytes, ref Memory<byte> block)
    {
        if (block.Length < bytes.Length)
        {
            block = GC.AllocateUninitializedArray<byte>(Math.Max(BlockBytes, bytes.Length));
        }

        var kept = block[..bytes.Length];
        bytes.CopyTo(kept.Span);
        block = block[bytes.Length..];
        return kept;
    }

    private static void Check(int result, sqlite3 database)
    {
        if (result != raw.SQLITE_OK)
        {
            SqliteException.ThrowExceptionForRC(result, database);
        }
    }
}
