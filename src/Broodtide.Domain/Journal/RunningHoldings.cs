namespace Broodtide.Domain.Journal;

/// <summary>
/// What one side holds, kept up as entries come: so that a meeting asks the store nothing. It knows the digests
/// alone, not the entries. Equal sets give equal holdings whatever the order of arrival.
/// </summary>
public sealed class RunningHoldings
{
    private readonly Dictionary<ReplicaId, Row> _replicas = [];

    /// <summary>How many entries are held.</summary>
    public int Count { get; private set; }

    /// <summary>The replicas of which anything is held.</summary>
    public IReadOnlyCollection<ReplicaId> Replicas => _replicas.Keys;

    /// <summary>What the other side is told.</summary>
    public Holdings Current =>
        new(_replicas.ToDictionary(replica => replica.Key, replica => replica.Value.Told));

    /// <summary>Notes an entry.</summary>
    /// <returns>False if it was noted before.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The running number is under 1.</exception>
    public bool Add(ReplicaId replica, long sequence, Digest digest)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sequence, 1);
        if (!_replicas.TryGetValue(replica, out var row))
        {
            _replicas[replica] = row = new Row();
        }

        var isNew = row.Add(sequence, digest);
        Count += isNew ? 1 : 0;
        return isNew;
    }

    /// <summary>Notes an entry.</summary>
    /// <returns>False if it was noted before.</returns>
    public bool Add(Entry entry) => Add(entry.Envelope.Replica, entry.Envelope.Sequence, entry.Digest);

    /// <summary>The digests under a running number of a replica: none, one, or several that rival.</summary>
    public IEnumerable<Digest> At(ReplicaId replica, long sequence) =>
        _replicas.TryGetValue(replica, out var row) ? row.At(sequence) : [];

    /// <summary>The running numbers of a replica that are held and greater than another, in their order.</summary>
    public IEnumerable<long> NumbersAfter(ReplicaId replica, long sequence) =>
        _replicas.TryGetValue(replica, out var row) ? row.NumbersAfter(sequence) : [];

    /// <summary>Whether an entry is held.</summary>
    public bool Holds(Entry entry) =>
        _replicas.TryGetValue(entry.Envelope.Replica, out var row)
        && row.Holds(entry.Envelope.Sequence, entry.Digest);

    /// <summary>How a replica is held.</summary>
    public Held Of(ReplicaId replica) => _replicas.TryGetValue(replica, out var row) ? row.Told : default;

    /// <summary>
    /// Whether the other side certainly holds everything of a replica that is held here up to a running number.
    /// </summary>
    public bool IsKnownThere(Holdings theirs, ReplicaId replica, long sequence)
    {
        var held = theirs.Replicas.GetValueOrDefault(replica);
        return _replicas.TryGetValue(replica, out var row)
            && (
                row.Told.IsSame(held) || (held.Highest >= sequence && row.MarkUpTo(held.Highest) == held.Mark)
            );
    }

    /// <summary>
    /// What the other side lacks of what is held here: for each replica, the running number after which to send.
    /// In the order of replicas.
    /// </summary>
    public IReadOnlyList<Lacked> LackedBy(Holdings theirs)
    {
        var lacked = new List<Lacked>();
        foreach (var (replica, row) in _replicas.OrderBy(replica => replica.Key.Value))
        {
            var held = theirs.Replicas.GetValueOrDefault(replica);
            if (row.Told.IsSame(held))
            {
                continue;
            }

            // Another mark means that one side has an entry under a number the other knows otherwise: send all. Who
            // holds less than the other cannot tell; the other can, and sends what makes the difference seen.
            var isBehind = row.Told.Highest < held.Highest;
            var after = isBehind || row.MarkUpTo(held.Highest) == held.Mark ? held.Highest : 0;
            var count = row.CountAfter(after);
            if (count > 0)
            {
                lacked.Add(new Lacked(replica, after, count));
            }
        }

        return lacked;
    }

    private sealed class Row
    {
        // Entry k+1 of the run without a gap, and the marks of everything up to it.
        private readonly List<Digest> _run = [];
        private readonly List<ulong> _marks = [];
        private readonly List<long> _counts = [];
        private readonly SortedDictionary<long, List<Digest>> _beside = [];
        private ulong _mark;
        private long _count;

        public Held Told => new(_run.Count, MarkUpTo(_run.Count)) { Count = _count, Whole = _mark };

        public ulong MarkUpTo(long sequence) =>
            sequence <= 0 || _marks.Count == 0 ? 0
            : sequence >= _marks.Count ? _marks[^1]
            : _marks[(int)sequence - 1];

        public long CountAfter(long sequence) =>
            sequence <= 0 || _counts.Count == 0 ? _count
            : sequence >= _counts.Count ? _count - _counts[^1] - BesideUpTo(sequence)
            : _count - _counts[(int)sequence - 1];

        public IEnumerable<Digest> At(long sequence)
        {
            if (sequence >= 1 && sequence <= _run.Count)
            {
                yield return _run[(int)sequence - 1];
            }

            foreach (var digest in _beside.GetValueOrDefault(sequence) ?? [])
            {
                yield return digest;
            }
        }

        public IEnumerable<long> NumbersAfter(long sequence)
        {
            for (var number = Math.Max(sequence, 0) + 1; number <= _run.Count; number++)
            {
                yield return number;
            }

            foreach (var number in _beside.Keys)
            {
                if (number > sequence && number > _run.Count)
                {
                    yield return number;
                }
            }
        }

        public bool Holds(long sequence, Digest digest) =>
            (sequence >= 1 && sequence <= _run.Count && _run[(int)sequence - 1] == digest)
            || (_beside.TryGetValue(sequence, out var beside) && beside.Contains(digest));

        public bool Add(long sequence, Digest digest)
        {
            if (Holds(sequence, digest))
            {
                return false;
            }

            _count++;
            _mark ^= digest.First;
            if (sequence == _run.Count + 1)
            {
                Extend(digest);
                while (_beside.TryGetValue(_run.Count + 1, out var waiting))
                {
                    Extend(waiting[0]);
                    waiting.RemoveAt(0);
                    foreach (var rival in waiting)
                    {
                        Mix(_run.Count, rival);
                    }

                    if (waiting.Count == 0)
                    {
                        _beside.Remove(_run.Count);
                    }
                }

                return true;
            }

            if (!_beside.TryGetValue(sequence, out var beside))
            {
                _beside[sequence] = beside = [];
            }

            beside.Add(digest);
            if (sequence <= _run.Count)
            {
                Mix(sequence, digest);
            }

            return true;
        }

        private void Extend(Digest digest)
        {
            _marks.Add((_marks.Count == 0 ? 0 : _marks[^1]) ^ digest.First);
            _counts.Add((_counts.Count == 0 ? 0 : _counts[^1]) + 1);
            _run.Add(digest);
        }

        // A rival within the run changes every mark from its number on.
        private void Mix(long sequence, Digest digest)
        {
            for (var at = (int)sequence - 1; at < _marks.Count; at++)
            {
                _marks[at] ^= digest.First;
                _counts[at]++;
            }
        }

        private int BesideUpTo(long sequence) =>
            _beside
                .TakeWhile(beside => beside.Key <= sequence)
                .Where(beside => beside.Key > _run.Count)
                .Sum(b => b.Value.Count);
    }
}

/// <summary>What the other side lacks of one replica.</summary>
/// <param name="Replica">The replica.</param>
/// <param name="After">The running number after which to send.</param>
/// <param name="Count">How many entries these are.</param>
public readonly record struct Lacked(ReplicaId Replica, long After, long Count);
