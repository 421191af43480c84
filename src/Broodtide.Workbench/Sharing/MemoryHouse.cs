using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>What a house remembers as long as the program runs: for a demo, and for trying things out.</summary>
public sealed class MemoryHouse : IHouseMemory
{
    private readonly Dictionary<ReplicaId, PersonId> _bindings = [];
    private readonly HashSet<ReplicaId> _own = [];
    private readonly Dictionary<ReplicaId, Instant> _revoked = [];
    private readonly Dictionary<ReplicaId, Reported> _reports = [];
    private readonly List<HeldBack> _heldBack = [];
    private readonly List<EntryMark> _marks = [];
    private readonly List<Refusal> _refusals = [];
    private Instant? _refillUntil;

    /// <summary>The same memories in a house of its own, as a copy of a file has them.</summary>
    public MemoryHouse Copy()
    {
        var copy = new MemoryHouse();
        foreach (var (replica, person) in _bindings)
        {
            copy._bindings.Add(replica, person);
        }

        foreach (var (replica, at) in _revoked)
        {
            copy._revoked.Add(replica, at);
        }

        copy._own.UnionWith(_own);
        copy._heldBack.AddRange(_heldBack);
        copy._marks.AddRange(_marks);
        copy._refusals.AddRange(_refusals);
        copy._refillUntil = _refillUntil;
        copy.Report(_reports.Values);
        return copy;
    }

    /// <inheritdoc/>
    public long HeldBackChanges() =>
        _heldBack.Count + _heldBack.LongCount(held => held.Decision is not Decision.None);

    /// <inheritdoc/>
    public IDisposable TakeTurn() => new NoTurn();

    /// <inheritdoc/>
    public IReadOnlyDictionary<ReplicaId, PersonId> Bindings() =>
        new Dictionary<ReplicaId, PersonId>(_bindings);

    /// <inheritdoc/>
    public void Bind(IReadOnlyCollection<ReplicaId> replicas, PersonId person)
    {
        foreach (var replica in replicas)
        {
            _bindings.TryAdd(replica, person);
        }
    }

    /// <inheritdoc/>
    public IReadOnlySet<ReplicaId> OwnReplicas() => _own.ToHashSet();

    /// <inheritdoc/>
    public void AddOwn(IReadOnlyCollection<ReplicaId> replicas) => _own.UnionWith(replicas);

    /// <inheritdoc/>
    public IReadOnlyDictionary<ReplicaId, Instant> Revoked() => new Dictionary<ReplicaId, Instant>(_revoked);

    /// <inheritdoc/>
    public void Revoke(IReadOnlyCollection<ReplicaId> replicas, Instant at)
    {
        foreach (var replica in replicas)
        {
            _revoked.TryAdd(replica, at);
        }
    }

    /// <inheritdoc/>
    public Instant? RefillUntil() => _refillUntil;

    /// <inheritdoc/>
    public void SetRefill(Instant? until) => _refillUntil = until;

    /// <inheritdoc/>
    public IReadOnlyList<Reported> Reports() => [.. _reports.Values];

    /// <inheritdoc/>
    public void Report(IReadOnlyCollection<Reported> reports)
    {
        foreach (var report in reports)
        {
            _reports[report.Replica] = report;
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<HeldBack> HeldBack() => [.. _heldBack];

    /// <inheritdoc/>
    public void HoldBack(IReadOnlyCollection<HeldBack> entries)
    {
        var known = _heldBack.Select(held => held.Digest).ToHashSet();
        _heldBack.AddRange(entries.Where(entry => known.Add(entry.Digest)));
    }

    /// <inheritdoc/>
    public void Decide(IReadOnlyCollection<Digest> entries, Decision decision)
    {
        for (var at = 0; at < _heldBack.Count; at++)
        {
            if (entries.Contains(_heldBack[at].Digest))
            {
                _heldBack[at] = _heldBack[at] with { Decision = decision, Bytes = default };
            }
        }
    }

    /// <inheritdoc/>
    public IReadOnlyList<EntryMark> Marks() => [.. _marks];

    /// <inheritdoc/>
    public void Mark(IReadOnlyCollection<EntryMark> marks)
    {
        var known = _marks.Select(mark => (mark.Entry, mark.Sort)).ToHashSet();
        _marks.AddRange(marks.Where(mark => known.Add((mark.Entry, mark.Sort))));
    }

    /// <inheritdoc/>
    public IReadOnlyList<Refusal> Refusals() => [.. _refusals];

    /// <inheritdoc/>
    public void Log(Refusal refusal)
    {
        _refusals.Add(refusal);
        if (_refusals.Count > Refusal.MostKept)
        {
            _refusals.RemoveAt(0);
        }
    }

    // One program alone has it.
    private sealed class NoTurn : IDisposable
    {
        public void Dispose() { }
    }
}
