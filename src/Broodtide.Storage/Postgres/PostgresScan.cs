using Broodtide.Domain.Journal;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>Reads every entry in the order of arrival.</summary>
internal static class PostgresScan
{
    /// <exception cref="StoreUnusableException">A row does not hold what was put in.</exception>
    public static List<Entry> All(NpgsqlConnection connection, string name, CancellationToken cancellation) =>
        RowBatch.Decoded(Fetch(connection, cancellation), name, cancellation);

    private static IEnumerable<RowBatch> Fetch(NpgsqlConnection connection, CancellationToken cancellation)
    {
        using var command = connection.Make(
            "SELECT digest, envelope, salted_body, number FROM entry ORDER BY number"
        );
        using var rows = command.ExecuteReader();
        var batch = new RowBatch();
        while (rows.Read())
        {
            batch.Rows.Add(
                new(rows.GetInt64(3), PostgresEntries.DigestOf(rows, 0), PostgresEntries.BytesOf(rows, 1))
            );
            if (batch.IsFull)
            {
                cancellation.ThrowIfCancellationRequested();
                yield return batch;
                batch = new RowBatch();
            }
        }

        yield return batch;
    }
}
