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
            // A damaged row may have lost its fields, or have others in their places.
            if (
                rows.GetValue(5) is not byte[] envelope
                || rows.GetValue(6) is not (byte[] or DBNull)
                || rows.GetValue(1) is not byte[] { Length: Digest.Length } digest
                || rows.GetValue(2) is not byte[] { Length: 16 } id
                || rows.GetValue(3) is not byte[] { Length: 16 } replica
                || rows.GetValue(4) is not long sequence
            )
            {
                wrong.Add(
                    new Remark(
                        "row-damaged",
                        new("row", Row(rows)),
                        new("reason", "its fields are not of their shape")
                    )
                );
                continue;
            }

            var read = Entry.Read(new EntryBytes(envelope, rows.GetValue(6) as byte[]));
            if (!read.Succeeded)
            {
                wrong.Add(
                    new Remark("row-damaged", new("row", Row(rows)), new("reason", read.Reason.ToString()))
                );
                continue;
            }

            var entry = read.Value;
            if (
                entry.Digest != Digest.FromBytes(digest)
                || entry.Id.Value != new Guid(id, bigEndian: true)
                || entry.Envelope.Replica.Value != new Guid(replica, bigEndian: true)
                || entry.Envelope.Sequence != sequence
            )
            {
                wrong.Add(new Remark("row-mislabelled", new Argument("row", Row(rows))));
            }

            Follow(entry, chains, wrong);
        }

        return wrong;
    }

    /// <summary>
    /// Whether something found is no damage: two entries of one writer with one number, or one that does not follow on the
    /// entry before it, are what a store that was put back to an earlier day leaves. Both are kept, and said.
    /// </summary>
    public static bool IsKeptOnPurpose(Remark found) => found.Code is "number-twice" or "chain-broken";

    private static long Row(SqliteDataReader rows) => rows.GetValue(0) is long number ? number : 0;

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
