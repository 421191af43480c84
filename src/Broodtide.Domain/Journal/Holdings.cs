namespace Broodtide.Domain.Journal;

/// <summary>How far one side holds one replica's entries.</summary>
/// <param name="Highest">Highest number up to which no entry is missing; 0 for none.</param>
/// <param name="Mark">The entries up to there, mixed, so that two entries with one number are noticed.</param>
public readonly record struct Held(long Highest, ulong Mark)
{
    /// <summary>How many entries are held in all, those after a gap included; 0 where that was not said.</summary>
    public long Count { get; init; }

    /// <summary>All entries held, mixed, those after a gap included.</summary>
    public ulong Whole { get; init; }

    /// <summary>Whether the other side holds the same, gaps and all, as far as both have said.</summary>
    public bool IsSame(Held other) =>
        Count > 0 && other.Count > 0 ? Count == other.Count && Whole == other.Whole : this == other;
}

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
        var running = new RunningHoldings();
        foreach (var entry in entries)
        {
            running.Add(entry);
        }

        return running.Current;
    }

    /// <summary>What of <paramref name="mine"/> the other side lacks, by replica and running number.</summary>
    public IEnumerable<Entry> LackedOf(IEnumerable<Entry> mine)
    {
        var replicas = mine.GroupBy(entry => entry.Envelope.Replica)
            .ToDictionary(replica => replica.Key, replica => replica.ToList());
        var running = new RunningHoldings();
        foreach (var entry in replicas.Values.SelectMany(replica => replica))
        {
            running.Add(entry);
        }

        return running
            .LackedBy(this)
            .SelectMany(lacked =>
                replicas[lacked.Replica]
                    .Where(entry => entry.Envelope.Sequence > lacked.After)
                    .OrderBy(entry => entry.Envelope.Sequence)
                    .ThenBy(entry => entry.Digest)
            );
    }
}
