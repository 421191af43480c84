using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// What the gate must know of every entry to judge the next one: digests, identities and places, kept up as
/// entries arrive by any door; never their words.
/// </summary>
internal sealed class GateIndex(ISharedJournal journal)
{
    private readonly Dictionary<EntryId, Known> _first = [];
    private readonly Dictionary<EntryId, List<Known>> _twins = [];
    private readonly HashSet<Digest> _heldBack = [];
    private readonly Dictionary<Digest, PersonId> _undecided = [];
    private readonly HashSet<EntryId> _heldBackIds = [];
    private long _place;

    /// <summary>What is in the journal.</summary>
    public RunningHoldings Open { get; } = new();

    /// <summary>What is in the journal and what was held back, decided or not.</summary>
    public RunningHoldings All { get; } = new();

    /// <summary>Takes in what has arrived since the last call, by whichever door.</summary>
    public async ValueTask CatchUpAsync(CancellationToken cancellation)
    {
        foreach (var arrival in await journal.ArrivedSinceAsync(_place, cancellation))
        {
            _place = arrival.Place;
            Open.Add(arrival.Replica, arrival.Sequence, arrival.Digest);
            Know(arrival.Id, new Known(arrival.Replica, arrival.Sequence, arrival.Digest));
        }
    }

    /// <summary>Takes in what was held back.</summary>
    public void HoldBack(HeldBack held)
    {
        _heldBack.Add(held.Digest);
        if (held.Decision is not Decision.LetIn)
        {
            _heldBackIds.Add(held.Id);
        }

        if (held.Decision is Decision.None)
        {
            _undecided[held.Digest] = held.Person;
        }

        Know(held.Id, new Known(held.Replica, held.Sequence, held.Digest));
    }

    /// <summary>Notes that the owner has decided.</summary>
    public void Decide(HeldBack held, Decision decision)
    {
        _undecided.Remove(held.Digest);
        if (decision is Decision.LetIn)
        {
            _heldBackIds.Remove(held.Id);
        }
    }

    /// <summary>How many entries of a person wait for the owner.</summary>
    public int CountHeldBack(PersonId person) => _undecided.Values.Count(one => one == person);

    /// <summary>Whether an entry was held back before, whatever was decided.</summary>
    public bool WasHeldBack(Digest digest) => _heldBack.Contains(digest);

    /// <summary>Whether an identity is that of an entry that waits or was thrown away.</summary>
    public bool IsHeldBack(EntryId id) => _heldBackIds.Contains(id);

    /// <summary>Everything that carries an identity.</summary>
    public IEnumerable<Known> Find(EntryId id)
    {
        if (_first.TryGetValue(id, out var first))
        {
            yield return first;
        }

        foreach (var twin in _twins.GetValueOrDefault(id) ?? [])
        {
            yield return twin;
        }
    }

    private void Know(EntryId id, Known known)
    {
        if (!All.Add(known.Replica, known.Sequence, known.Digest) || _first.TryAdd(id, known))
        {
            return;
        }

        if (!_twins.TryGetValue(id, out var twins))
        {
            _twins[id] = twins = [];
        }

        twins.Add(known);
    }
}

/// <summary>An entry that is here or was held back.</summary>
/// <param name="Replica">The store that wrote it.</param>
/// <param name="Sequence">Its running number there.</param>
/// <param name="Digest">Its digest.</param>
internal readonly record struct Known(ReplicaId Replica, long Sequence, Digest Digest);
