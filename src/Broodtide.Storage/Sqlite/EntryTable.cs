using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;
using Microsoft.Data.Sqlite;

namespace Broodtide.Storage.Sqlite;

/// <summary>The entries' bytes in the store. The caller holds the transaction.</summary>
internal sealed class EntryTable(SqliteConnection connection) : IDisposable
{
    private readonly SqliteCommand _insert = connection.Make(
        """
        INSERT INTO entry (digest, id, replica, seq, envelope, salted_body)
        VALUES ($digest, $id, $replica, $seq, $envelope,
                CASE WHEN EXISTS (SELECT 1 FROM erased WHERE id = $id) THEN NULL ELSE $body END)
        ON CONFLICT (digest) DO NOTHING
        """,
        ("$digest", null),
        ("$id", null),
        ("$replica", null),
        ("$seq", null),
        ("$envelope", null),
        ("$body", null)
    );

    private readonly SqliteCommand _atNumber = connection.Make(
        "SELECT digest FROM entry WHERE replica = $replica AND seq = $seq",
        ("$replica", null),
        ("$seq", null)
    );

    private readonly SqliteCommand _sameId = connection.Make(
        "SELECT count(*) FROM entry WHERE id = $id",
        ("$id", null)
    );

    /// <summary>Number of the last row; never falls while the file lives on.</summary>
    public long Last => connection.Ask<long>("SELECT coalesce(max(number), 0) FROM entry");

    /// <summary>What was put in after a row, in its order.</summary>
    public List<Arrival> ArrivedSince(long number)
    {
        using var command = connection.Make(
            "SELECT number, digest, id, replica, seq FROM entry WHERE number > $number ORDER BY number",
            ("$number", number)
        );
        using var rows = command.ExecuteReader();
        var found = new List<Arrival>();
        while (rows.Read())
        {
            found.Add(
                new(
                    rows.GetInt64(0),
                    rows.DigestAt(1),
                    new EntryId(rows.IdAt(2)),
                    new ReplicaId(rows.IdAt(3)),
                    rows.GetInt64(4)
                )
            );
        }

        return found;
    }

    /// <summary>
    /// Entries of a replica after a running number, at most so many but for rivals under the last one; a
    /// reason if a row does not hold what was put in.
    /// </summary>
    public Parsed<IReadOnlyList<Entry>> After(ReplicaId replica, long sequence, int most)
    {
        using var command = connection.Make(
            """
            SELECT digest, envelope, salted_body, seq FROM entry
            WHERE replica = $replica AND seq > $seq ORDER BY seq, digest
            """,
            ("$replica", Bytes(replica.Value)),
            ("$seq", sequence)
        );
        using var rows = command.ExecuteReader();
        var found = new List<Entry>();
        while (rows.Read())
        {
            if (found.Count >= most && rows.GetInt64(3) != found[^1].Envelope.Sequence)
            {
                break;
            }

            var read = Entry.ReadTrusted(
                new EntryBytes(rows.Blob(1), rows.IsDBNull(2) ? default : rows.Blob(2)),
                rows.DigestAt(0)
            );
            if (!read.Succeeded)
            {
                return Parsed<IReadOnlyList<Entry>>.No(read.Reason);
            }

            found.Add(read.Value);
        }

        return Parsed<IReadOnlyList<Entry>>.Of(found);
    }

    /// <summary>Puts an entry in unless it is here; its facts only if they are not erased.</summary>
    /// <returns>Whether it was new.</returns>
    public bool Insert(Entry entry)
    {
        // In the order of the statement: to find them by name is a search each.
        var values = _insert.Parameters;
        values[0].Value = entry.Digest.ToBytes();
        values[1].Value = Bytes(entry.Id.Value);
        values[2].Value = Bytes(entry.Envelope.Replica.Value);
        values[3].Value = entry.Envelope.Sequence;
        values[4].Value = entry.Bytes.Envelope.ToArray();
        values[5].Value = entry.HasBody ? entry.Bytes.SaltedBody.ToArray() : DBNull.Value;
        return _insert.ExecuteNonQuery() == 1;
    }

    /// <summary>Facts that came later than their envelope are kept, unless they are erased.</summary>
    public void Complete(Entry entry)
    {
        if (entry.HasBody)
        {
            connection.Run(
                """
                UPDATE entry SET salted_body = $body
                WHERE digest = $digest AND salted_body IS NULL
                  AND NOT EXISTS (SELECT 1 FROM erased WHERE erased.id = entry.id)
                """,
                ("$digest", entry.Digest.ToBytes()),
                ("$body", entry.Bytes.SaltedBody.ToArray())
            );
        }
    }

    /// <summary>Removes the facts of every entry of an identity, now and whenever one comes.</summary>
    public void Erase(EntryId target)
    {
        var id = Bytes(target.Value);
        connection.Run("INSERT INTO erased (id) VALUES ($id) ON CONFLICT DO NOTHING", ("$id", id));
        connection.Run(
            "UPDATE entry SET salted_body = NULL WHERE id = $id AND salted_body IS NOT NULL",
            ("$id", id)
        );
    }

    /// <summary>What does not agree between an entry that was just put in and what is here.</summary>
    public IEnumerable<Remark> Conflicts(Entry entry)
    {
        var envelope = entry.Envelope;
        if (At(envelope.Replica, envelope.Sequence).Count > 1)
        {
            yield return new Remark(
                "number-twice",
                new("replica", envelope.Replica),
                new("sequence", envelope.Sequence),
                new("entry", entry.Id)
            );
        }

        var before = envelope.Previous is null ? [] : At(envelope.Replica, envelope.Sequence - 1);
        if (before.Count > 0 && !before.Contains(envelope.Previous!.Value))
        {
            yield return new Remark(
                "chain-broken",
                new("replica", envelope.Replica),
                new("sequence", envelope.Sequence),
                new("entry", entry.Id)
            );
        }

        _sameId.Parameters["$id"].Value = Bytes(entry.Id.Value);
        if (_sameId.ExecuteScalar() is > 1L)
        {
            yield return new Remark("identity-twice", new Argument("entry", entry.Id));
        }
    }

    public void Dispose()
    {
        _insert.Dispose();
        _atNumber.Dispose();
        _sameId.Dispose();
    }

    public static byte[] Bytes(Guid id) => id.ToByteArray(bigEndian: true);

    private List<Digest> At(ReplicaId replica, long sequence)
    {
        _atNumber.Parameters["$replica"].Value = Bytes(replica.Value);
        _atNumber.Parameters["$seq"].Value = sequence;
        using var rows = _atNumber.ExecuteReader();
        var found = new List<Digest>(1);
        while (rows.Read())
        {
            found.Add(rows.DigestAt(0));
        }

        return found;
    }
}
