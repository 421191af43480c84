using Broodtide.Domain.Journal;
using Broodtide.Units;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Broodtide.Storage.Sqlite;

/// <summary>
/// Reads every entry in the order of arrival. The bytes of many entries share one block of memory, since a hundred
/// thousand small arrays cost more than the reading.
/// </summary>
internal static class EntryScan
{
    private const int BlockBytes = 1 << 20;

    /// <exception cref="StoreUnusableException">A row does not hold what was put in.</exception>
    public static List<Entry> All(SqliteConnection connection, string path, CancellationToken cancellation)
    {
        var entries = new List<Entry>((int)connection.Ask<long>("SELECT count(*) FROM entry"));
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
            int result;
            while ((result = raw.sqlite3_step(rows)) == raw.SQLITE_ROW)
            {
                cancellation.ThrowIfCancellationRequested();
                var envelope = Keep(raw.sqlite3_column_blob(rows, 1), ref block);
                var body = Keep(raw.sqlite3_column_blob(rows, 2), ref block);
                var digest = Digest.FromBytes(raw.sqlite3_column_blob(rows, 0));
                var entry = Entry.ReadTrusted(new EntryBytes(envelope, body), digest);
                entries.Add(
                    entry.Succeeded
                        ? entry.Value
                        : throw Damaged(path, raw.sqlite3_column_int64(rows, 3), entry.Reason)
                );
            }

            if (result != raw.SQLITE_DONE)
            {
                Check(result, database);
            }
        }

        return entries;
    }

    public static StoreUnusableException Damaged(string path, long row, Remark reason) =>
        new(
            new Remark("store-damaged", new("file", path), new("row", row), new("reason", reason.ToString()))
        );

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
