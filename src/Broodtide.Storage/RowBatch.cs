using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Storage;

/// <summary>Rows of a store that become entries together, while the next ones are fetched.</summary>
internal sealed class RowBatch
{
    private const int MostRows = 512;

    /// <summary>What was fetched; empty once it is decoded.</summary>
    public List<Row> Rows { get; } = new(MostRows);

    public bool IsFull => Rows.Count >= MostRows;

    private List<Entry> Entries { get; } = new(MostRows);

    private Remark? Fault { get; set; }

    private long FaultRow { get; set; }

    /// <summary>The entries of all batches, decoded on all cores, in their order.</summary>
    /// <param name="batches">Fetched one at a time, in turn, whoever asks.</param>
    /// <param name="store">How a person knows the store.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="StoreUnusableException">A row does not hold what was put in.</exception>
    public static List<Entry> Decoded(
        IEnumerable<RowBatch> batches,
        string store,
        CancellationToken cancellation
    )
    {
        var all = new List<RowBatch>();
        try
        {
            Parallel.ForEach(
                Partitioner.Create(Noted(batches, all), EnumerablePartitionerOptions.NoBuffering),
                new ParallelOptions { CancellationToken = cancellation },
                batch => batch.Decode()
            );
        }
        catch (AggregateException several)
        {
            // Only the fetching throws: what decoding finds wrong is told by the batch.
            ExceptionDispatchInfo.Throw(several.GetBaseException());
        }

        var entries = new List<Entry>(all.Count * MostRows);
        foreach (var batch in all)
        {
            entries.AddRange(
                batch.Fault is null
                    ? batch.Entries
                    : throw new StoreUnusableException(
                        new Remark(
                            "store-damaged",
                            new("file", store),
                            new("row", batch.FaultRow),
                            new("reason", batch.Fault.ToString())
                        )
                    )
            );
        }

        return entries;
    }

    private static IEnumerable<RowBatch> Noted(IEnumerable<RowBatch> batches, List<RowBatch> all)
    {
        foreach (var batch in batches)
        {
            all.Add(batch);
            yield return batch;
        }
    }

    private void Decode()
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

    /// <summary>One row.</summary>
    public readonly record struct Row(long Number, Digest Digest, EntryBytes Bytes);
}
