using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>The entries' bytes in the database. Whoever changes them holds the lock of every change.</summary>
internal static class PostgresEntries
{
    private const int RowsAtOnce = 2000;

    /// <summary>Where a replica's chain ends here: its highest running number and that entry's digest.</summary>
    public static (long Sequence, Digest? Digest) End(NpgsqlConnection connection, ReplicaId replica) =>
        connection.List<(long, Digest?)>(
            row => (row.GetInt64(0), DigestOf(row, 1)),
            "SELECT seq, digest FROM entry WHERE replica = @replica ORDER BY seq DESC, digest LIMIT 1",
            ("replica", replica.Value.Bytes())
        )
            is [var end]
            ? end
            : (0, null);

    /// <summary>What was put in after a place, in its order.</summary>
    public static List<Arrival> ArrivedSince(NpgsqlConnection connection, long number) =>
        connection.List(
            row => new Arrival(
                row.GetInt64(0),
                DigestOf(row, 1),
                new EntryId(row.Id(2)),
                new ReplicaId(row.Id(3)),
                row.GetInt64(4)
            ),
            "SELECT number, digest, id, replica, seq FROM entry WHERE number > @number ORDER BY number",
            ("number", number)
        );

    /// <summary>
    /// Entries of a replica after a running number, at most so many but for rivals under the last one; a reason if a
    /// row does not hold what was put in.
    /// </summary>
    public static Parsed<IReadOnlyList<Entry>> After(
        NpgsqlConnection connection,
        ReplicaId replica,
        long sequence,
        int most
    )
    {
        using var command = connection.Make(
            """
            SELECT digest, envelope, salted_body FROM entry
            WHERE replica = @replica AND seq > @seq AND seq <= coalesce(
                (SELECT seq FROM entry WHERE replica = @replica AND seq > @seq
                 ORDER BY seq, digest OFFSET @most LIMIT 1), 9223372036854775807)
            ORDER BY seq, digest
            """,
            ("replica", replica.Value.Bytes()),
            ("seq", sequence),
            ("most", Math.Max(most - 1, 0))
        );
        using var rows = command.ExecuteReader();
        var found = new List<Entry>();
        while (rows.Read())
        {
            var read = Entry.ReadTrusted(BytesOf(rows, 1), DigestOf(rows, 0));
            if (!read.Succeeded)
            {
                return Parsed<IReadOnlyList<Entry>>.No(read.Reason);
            }

            found.Add(read.Value);
        }

        return Parsed<IReadOnlyList<Entry>>.Of(found);
    }

    /// <summary>
    /// Puts entries in that are not here, in their order; facts that are erased are left out, and facts that were
    /// missing are filled in.
    /// </summary>
    /// <returns>Those that were new.</returns>
    public static List<Entry> Put(NpgsqlConnection connection, IReadOnlyList<Entry> entries)
    {
        var fresh = new List<Entry>();
        foreach (var part in entries.Chunk(RowsAtOnce))
        {
            var known = Known(connection, part);
            // One of them may come twice, first without its facts.
            var first = part.Where(entry => known.Add(entry.Digest)).ToList();
            Insert(connection, first);
            Complete(connection, part);
            fresh.AddRange(first);
        }

        return fresh;
    }

    /// <summary>Removes the facts of every entry of some identities, now and whenever one comes.</summary>
    public static void Erase(NpgsqlConnection connection, IReadOnlyCollection<EntryId> targets)
    {
        if (targets.Count == 0)
        {
            return;
        }

        var ids = targets.Distinct().Select(target => target.Value.Bytes()).ToArray();
        connection.Run("INSERT INTO erased (id) SELECT unnest(@ids) ON CONFLICT DO NOTHING", ("ids", ids));
        connection.Run(
            "UPDATE entry SET salted_body = NULL WHERE id = ANY(@ids) AND salted_body IS NOT NULL",
            ("ids", ids)
        );
    }

    public static EntryBytes BytesOf(NpgsqlDataReader row, int column) =>
        new(
            row.GetFieldValue<byte[]>(column),
            row.IsDBNull(column + 1) ? default : row.GetFieldValue<byte[]>(column + 1)
        );

    public static Digest DigestOf(NpgsqlDataReader row, int column) =>
        Digest.FromBytes(row.GetFieldValue<byte[]>(column));

    private static HashSet<Digest> Known(NpgsqlConnection connection, IReadOnlyList<Entry> entries) =>
        [
            .. connection.List(
                row => DigestOf(row, 0),
                "SELECT digest FROM entry WHERE digest = ANY(@digests)",
                ("digests", entries.Select(entry => entry.Digest.ToBytes()).ToArray())
            ),
        ];

    private static void Insert(NpgsqlConnection connection, List<Entry> fresh)
    {
        if (fresh.Count == 0)
        {
            return;
        }

        // Counted in the row that every change locks: a place is never seen before one that stands ahead of it.
        var last = connection.Ask<long>(
            "UPDATE life SET last = last + @count WHERE one = 1 RETURNING last",
            ("count", (long)fresh.Count)
        );
        connection.Run(
            """
            INSERT INTO entry (number, digest, id, replica, seq, envelope, salted_body)
            SELECT @before + place, digest, id, replica, seq, envelope,
                   CASE WHEN EXISTS (SELECT 1 FROM erased WHERE erased.id = fresh.id) THEN NULL ELSE body END
            FROM unnest(@digests, @ids, @replicas, @seqs, @envelopes, @bodies)
                 WITH ORDINALITY AS fresh (digest, id, replica, seq, envelope, body, place)
            """,
            ("before", last - fresh.Count),
            ("digests", fresh.Select(entry => entry.Digest.ToBytes()).ToArray()),
            ("ids", fresh.Select(entry => entry.Id.Value.Bytes()).ToArray()),
            ("replicas", fresh.Select(entry => entry.Envelope.Replica.Value.Bytes()).ToArray()),
            ("seqs", fresh.Select(entry => entry.Envelope.Sequence).ToArray()),
            ("envelopes", fresh.Select(entry => entry.Bytes.Envelope.ToArray()).ToArray()),
            ("bodies", fresh.Select(BodyOf).ToArray())
        );
    }

    private static void Complete(NpgsqlConnection connection, IReadOnlyList<Entry> entries)
    {
        var whole = entries.Where(entry => entry.HasBody).ToList();
        if (whole.Count == 0)
        {
            return;
        }

        // Few of them are here without facts; their bytes go over for those alone.
        var lacking = connection
            .List(
                row => DigestOf(row, 0),
                """
                SELECT digest FROM entry
                WHERE digest = ANY(@digests) AND salted_body IS NULL
                  AND NOT EXISTS (SELECT 1 FROM erased WHERE erased.id = entry.id)
                """,
                ("digests", whole.Select(entry => entry.Digest.ToBytes()).ToArray())
            )
            .ToHashSet();
        foreach (var entry in whole.Where(entry => lacking.Contains(entry.Digest)))
        {
            connection.Run(
                "UPDATE entry SET salted_body = @body WHERE digest = @digest",
                ("body", entry.Bytes.SaltedBody.ToArray()),
                ("digest", entry.Digest.ToBytes())
            );
        }
    }

    private static byte[]? BodyOf(Entry entry) => entry.HasBody ? entry.Bytes.SaltedBody.ToArray() : null;
}
