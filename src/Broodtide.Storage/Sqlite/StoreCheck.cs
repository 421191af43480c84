using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>Verifies a store byte by byte: nothing is believed.</summary>
internal static class StoreCheck
{
    public static List<Remark> Run(SqliteConnection connection, CancellationToken cancellation)
    {
        var wrong = new List<Remark>();
        if (connection.Ask<string>("PRAGMA integrity_check") is var said and not "ok")
        {
            wrong.Add(new Remark("pages-damaged", new Argument("reason", said ?? "")));
        }

        using var command = connection.Make(
            "SELECT number, digest, id, replica, seq, envelope, salted_body FROM entry ORDER BY replica, seq, digest"
        );
        using var rows = command.ExecuteReader();
        var chains = new Dictionary<ReplicaId, (long Sequence, Digest Digest)>();
        while (rows.Read())
        {
            cancellation.ThrowIfCancellationRequested();
            var bytes = new EntryBytes(
                rows.GetFieldValue<byte[]>(5),
                rows.IsDBNull(6) ? default : rows.GetFieldValue<byte[]>(6)
            );
            var read = Entry.Read(bytes);
            if (!read.Succeeded)
            {
                wrong.Add(
                    new Remark(
                        "row-damaged",
                        new("row", rows.GetInt64(0)),
                        new("reason", read.Reason.ToString())
                    )
                );
                continue;
            }

            var entry = read.Value;
            if (
                entry.Digest != Digest.FromBytes(rows.GetFieldValue<byte[]>(1))
                || entry.Id.Value != new Guid(rows.GetFieldValue<byte[]>(2), bigEndian: true)
                || entry.Envelope.Replica.Value != new Guid(rows.GetFieldValue<byte[]>(3), bigEndian: true)
                || entry.Envelope.Sequence != rows.GetInt64(4)
            )
            {
                wrong.Add(new Remark("row-mislabelled", new Argument("row", rows.GetInt64(0))));
            }

            Follow(entry, chains, wrong);
        }

        return wrong;
    }

    // A gap is no fault: entries of others may come in any order.
    private static void Follow(
        Entry entry,
        Dictionary<ReplicaId, (long Sequence, Digest Digest)> chains,
        List<Remark> wrong
    )
    {
        var replica = entry.Envelope.Replica;
        var sequence = entry.Envelope.Sequence;
        if (chains.TryGetValue(replica, out var before))
        {
            if (sequence == before.Sequence)
            {
                wrong.Add(new Remark("number-twice", new("replica", replica), new("sequence", sequence)));
                return;
            }

            if (sequence == before.Sequence + 1 && entry.Envelope.Previous != before.Digest)
            {
                wrong.Add(new Remark("chain-broken", new("replica", replica), new("sequence", sequence)));
            }
        }

        chains[replica] = (sequence, entry.Digest);
    }
}
