using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Npgsql;

namespace Broodtide.Storage.Postgres;

/// <summary>What does not agree between entries that were just put in and what is here. Nothing is refused for it.</summary>
internal static class PostgresConflicts
{
    private const int RowsAtOnce = 2000;

    public static IEnumerable<Remark> Of(NpgsqlConnection connection, IReadOnlyList<Entry> fresh) =>
        fresh.Chunk(RowsAtOnce).SelectMany(part => OfPart(connection, part));

    private static IEnumerable<Remark> OfPart(NpgsqlConnection connection, Entry[] part)
    {
        var places = part.Select(entry => (entry.Envelope.Replica, entry.Envelope.Sequence))
            .SelectMany(place => (IEnumerable<(ReplicaId, long)>)[place, (place.Replica, place.Sequence - 1)])
            .Distinct()
            .ToList();
        var at = connection
            .List(
                row =>
                    (
                        Place: (new ReplicaId(row.Id(0)), row.GetInt64(1)),
                        Digest: PostgresEntries.DigestOf(row, 2)
                    ),
                """
                SELECT entry.replica, entry.seq, entry.digest FROM entry
                JOIN unnest(@replicas, @seqs) AS asked (replica, seq)
                  ON entry.replica = asked.replica AND entry.seq = asked.seq
                """,
                ("replicas", places.Select(place => place.Item1.Value.Bytes()).ToArray()),
                ("seqs", places.Select(place => place.Item2).ToArray())
            )
            .ToLookup(found => found.Place, found => found.Digest);
        var twins = connection
            .List(
                row => new EntryId(row.Id(0)),
                "SELECT id FROM entry WHERE id = ANY(@ids) GROUP BY id HAVING count(*) > 1",
                ("ids", part.Select(entry => entry.Id.Value.Bytes()).ToArray())
            )
            .ToHashSet();
        foreach (var entry in part)
        {
            var envelope = entry.Envelope;
            if (at[(envelope.Replica, envelope.Sequence)].Count() > 1)
            {
                yield return new Remark(
                    "number-twice",
                    new("replica", envelope.Replica),
                    new("sequence", envelope.Sequence),
                    new("entry", entry.Id)
                );
            }

            if (
                envelope.Previous is { } previous
                && at[(envelope.Replica, envelope.Sequence - 1)].ToList() is { Count: > 0 } before
                && !before.Contains(previous)
            )
            {
                yield return new Remark(
                    "chain-broken",
                    new("replica", envelope.Replica),
                    new("sequence", envelope.Sequence),
                    new("entry", entry.Id)
                );
            }

            if (twins.Contains(entry.Id))
            {
                yield return new Remark("identity-twice", new Argument("entry", entry.Id));
            }
        }
    }
}
