namespace Broodtide.Domain.Journal;

/// <summary>How far one side holds one replica's entries.</summary>
/// <param name="Highest">Highest number up to which no entry is missing; 0 for none.</param>
/// <param name="Mark">The entries up to there, mixed, so that two entries with one number are noticed.</param>
public readonly record struct Held(long Highest, ulong Mark);

/// <summary>
/// What one side says to the other: for each replica the highest number without a gap. From it the other side
/// knows what to send. Nothing else is needed, so lost answers and repeats do no harm.
/// </summary>
/// <param name="Replicas">Per replica.</param>
public sealed record Holdings(IReadOnlyDictionary<ReplicaId, Held> Replicas)
{
    /// <summary>What a set of entries amounts to.</summary>
    public static Holdings Of(IEnumerable<Entry> entries)
    {
        var held = new Dictionary<ReplicaId, Held>();
        foreach (var replica in entries.GroupBy(entry => entry.Envelope.Replica))
        {
            held[replica.Key] = UpTo(replica, long.MaxValue);
        }

        return new Holdings(held);
    }

    /// <summary>What of <paramref name="mine"/> the other side lacks, by replica and running number.</summary>
    public IEnumerable<Entry> LackedOf(IEnumerable<Entry> mine)
    {
        foreach (var replica in mine.GroupBy(entry => entry.Envelope.Replica).OrderBy(r => r.Key.Value))
        {
            var theirs = Replicas.GetValueOrDefault(replica.Key);
            // Another mark means that one side has an entry under a number the other knows otherwise: send all. Who
            // holds less than the other cannot tell; the other can, and sends what makes the difference seen.
            var ours = UpTo(replica, theirs.Highest);
            var from = ours == theirs || ours.Highest < theirs.Highest ? theirs.Highest : 0;
            foreach (
                var entry in replica
                    .Where(entry => entry.Envelope.Sequence > from)
                    .OrderBy(entry => entry.Envelope.Sequence)
                    .ThenBy(entry => entry.Digest)
            )
            {
                yield return entry;
            }
        }
    }

    private static Held UpTo(IEnumerable<Entry> replica, long limit)
    {
        var highest = 0L;
        var mark = 0UL;
        foreach (var entry in replica.OrderBy(entry => entry.Envelope.Sequence))
        {
            if (entry.Envelope.Sequence > limit || entry.Envelope.Sequence > highest + 1)
            {
                break;
            }

            highest = entry.Envelope.Sequence;
            mark ^= entry.Digest.First;
        }

        return new Held(highest, mark);
    }
}
