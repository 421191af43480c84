using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using Broodtide.Domain.Journal;
using Broodtide.Units;
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
    private const int BatchRows = 512;
    private const int BlockBytes = 1 << 20;

    /// <exception cref="StoreUnusableException">A row does not hold what was put in.</exception>
    public static List<Entry> All(SqliteConnection connection, string path, CancellationToken cancellation)
    {
        var batches = new List<Batch>();
        try
        {
            Parallel.ForEach(
                Partitioner.Create(
                    Fetch(connection, batches, cancellation),
                    EnumerablePartitionerOptions.NoBuffering
                ),
                new ParallelOptions { CancellationToken = cancellation },
                batch => batch.Decode()
            );
        }
        catch (AggregateException several)
        {
            // Only the fetching throws: what decoding finds wrong is told by the batch.
            ExceptionDispatchInfo.Throw(several.GetBaseException());
        }

        var entries = new List<Entry>(batches.Count * BatchRows);
        foreach (var batch in batches)
        {
            entries.AddRange(
                batch.Fault is null
                    ? batch.Entries
                    : throw new StoreUnusableException(
                        new Remark(
                            "store-damaged",
                            new("file", path),
                            new("row", batch.FaultRow),
                            new("reason", batch.Fault.ToString())
                        )
                    )
            );
        }

        return entries;
    }

    // Each worker fetches one batch at a time, in turn; nothing here runs twice at once.
    private static IEnumerable<Batch> Fetch(
        SqliteConnection connection,
        List<Batch> batches,
        CancellationToken cancellation
    )
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
                var batch = new Batch();
                isMore = Fill(batch, rows, database, ref block);
                batches.Add(batch);
                yield return batch;
            }
        }
    }

    private static bool Fill(Batch batch, sqlite3_stmt rows, sqlite3 database, ref Memory<byte> block)
    {
        while (batch.Rows.Count < BatchRows)
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
                    Digest.FromBytes(raw.sqlite3_column_blob(rows, 0)),
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

    private readonly record struct Row(long Number, Digest Digest, EntryBytes Bytes);

    private sealed class Batch
    {
        public List<Row> Rows { get; } = new(BatchRows);

        public List<Entry> Entries { get; } = new(BatchRows);

        public Remark? Fault { get; private set; }

        public long FaultRow { get; private set; }

        public void Decode()
        {
            foreach (var row in Rows)
            {
                var read = Entry.ReadTrusted(row.Bytes, row.Digest);
                if (!read.Succeeded)
                {
                    (Fault, FaultRow) = (read.Reason, row.Number);
                    return;
                }

                // Every view asks for the facts; here they are decoded on all cores.
                _ = read.Value.Fact;
                Entries.Add(read.Value);
            }

            Rows.Clear();
        }
    }
}
