using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.People;

namespace Broodtide.Workbench.Sharing;

/// <summary>What the house knows at the moment a batch comes.</summary>
internal sealed record GateView(
    GateIndex Index,
    IReadOnlyDictionary<ReplicaId, PersonId> Bindings,
    IReadOnlySet<ReplicaId> OwnNow,
    IReadOnlySet<ReplicaId> OwnEver,
    IReadOnlyDictionary<ReplicaId, NodaTime.Instant> Revoked,
    IReadOnlyList<SigningName> Names,
    bool IsRefillOpen
);

/// <summary>What becomes of a batch that is not refused.</summary>
/// <param name="ToBind">Stores that are bound to the visitor from now on.</param>
/// <param name="ToTake">Entries for the journal, those included that it has.</param>
/// <param name="ToHoldBack">Entries for the owner to see first, with the reason.</param>
/// <param name="Brought">Those to take that the visitor relays.</param>
internal sealed record Verdict(
    IReadOnlyList<ReplicaId> ToBind,
    IReadOnlyList<Entry> ToTake,
    IReadOnlyList<(Entry Entry, string Reason)> ToHoldBack,
    IReadOnlyList<Entry> Brought
);

/// <summary>
/// Judges a batch of a visitor: the whole of it is refused for one thing that an honest store never does. An
/// unknown kind, a wrong clock, a number given twice: an honest store may do these, and they are kept.
/// </summary>
internal sealed class GateRules(GateView view, Visitor visitor, bool brings)
{
    private readonly RunningHoldings _batch = new();
    private readonly Dictionary<EntryId, Digest> _ids = [];
    private readonly Dictionary<ReplicaId, bool> _relayed = [];
    private readonly HashSet<ReplicaId> _toBind = [];
    private readonly HashSet<EntryId> _heldBackHere = [];

    /// <summary>The verdict, or why the batch is refused.</summary>
    public Parsed<Verdict> Judge(IReadOnlyList<Entry> batch)
    {
        if (visitor.Role is Role.Reader)
        {
            return Parsed<Verdict>.No("sync-reader-writes", new Argument("person", visitor.Name));
        }

        if (brings && !view.IsRefillOpen)
        {
            return Parsed<Verdict>.No("sync-refill-closed");
        }

        var entries = batch
            .DistinctBy(entry => entry.Digest)
            .OrderBy(entry => entry.Envelope.Replica.Value)
            .ThenBy(entry => entry.Envelope.Sequence)
            .ThenBy(entry => entry.Digest)
            .ToList();
        foreach (var entry in entries)
        {
            if (WrongWithReplica(entry.Envelope.Replica) is { } foreign)
            {
                return Parsed<Verdict>.No(foreign);
            }

            if (WrongWith(entry) is { } wrong)
            {
                return Parsed<Verdict>.No(wrong);
            }

            _batch.Add(entry);
        }

        return Parsed<Verdict>.Of(Sort(entries));
    }

    private Remark? WrongWithReplica(ReplicaId replica)
    {
        if (_relayed.ContainsKey(replica))
        {
            return null;
        }

        if (view.OwnNow.Contains(replica) || (!brings && view.OwnEver.Contains(replica)))
        {
            return new Remark("sync-replica-of-the-house", new Argument("replica", replica));
        }

        var isBound = view.Bindings.TryGetValue(replica, out var person);
        if (isBound && person != visitor.Person && !brings)
        {
            return new Remark("sync-replica-of-another", new Argument("replica", replica));
        }

        _relayed[replica] = brings && !(isBound && person == visitor.Person);
        if (!isBound && !brings)
        {
            _toBind.Add(replica);
        }

        return null;
    }

    private Remark? WrongWith(Entry entry)
    {
        var envelope = entry.Envelope;
        var isRelayed = _relayed[envelope.Replica];
        if (!isRelayed && IsNameOfAnother(envelope.Author, visitor, view.Names))
        {
            return new Remark(
                "sync-author-of-another",
                new("entry", entry.Id),
                new("author", envelope.Author.Name)
            );
        }

        if (view.Index.All.Holds(entry))
        {
            return null;
        }

        var before = view
            .Index.All.At(envelope.Replica, envelope.Sequence - 1)
            .Concat(_batch.At(envelope.Replica, envelope.Sequence - 1))
            .ToList();
        if (before.Count > 0 && !before.Contains(envelope.Previous.GetValueOrDefault()))
        {
            return Numbered("sync-chain-broken", entry);
        }

        if (isRelayed && before.Count == 0 && envelope.Sequence > 1)
        {
            return Numbered("sync-refill-gap", entry);
        }

        return IsIdentityOfAnother(entry, isRelayed)
            ? new Remark("sync-identity-of-another", new Argument("entry", entry.Id))
            : null;
    }

    /// <summary>Whether an author's name is that of a person of the house who is not the visitor.</summary>
    public static bool IsNameOfAnother(Author author, Visitor visitor, IReadOnlyList<SigningName> names) =>
        !author.IsSoftware
        && !Same(author.Name, visitor.Name)
        && names.Any(name => name.Person != visitor.Person && Same(author.Name, name.Name))
        && !names.Any(name => name.Person == visitor.Person && Same(author.Name, name.Name));

    // A second entry under an identity could push the first aside, or have it erased under its own name.
    private bool IsIdentityOfAnother(Entry entry, bool isRelayed)
    {
        if (!_ids.TryAdd(entry.Id, entry.Digest) && _ids[entry.Id] != entry.Digest)
        {
            return true;
        }

        return view
            .Index.Find(entry.Id)
            .Any(known => known.Digest != entry.Digest && (isRelayed || !IsOwn(known.Replica)));
    }

    private Verdict Sort(IReadOnlyList<Entry> entries)
    {
        var (take, holdBack, brought) = (new List<Entry>(), new List<(Entry, string)>(), new List<Entry>());
        foreach (var entry in entries.Where(entry => !view.Index.WasHeldBack(entry.Digest)))
        {
            // What is here already is passed on: it may bring facts that were missing.
            if (!view.Index.Open.Holds(entry) && ReasonToHoldBack(entry) is { } reason)
            {
                holdBack.Add((entry, reason));
                _heldBackHere.Add(entry.Id);
                continue;
            }

            take.Add(entry);
            if (_relayed[entry.Envelope.Replica] && !view.Index.Open.Holds(entry))
            {
                brought.Add(entry);
            }
        }

        return new Verdict([.. _toBind], take, holdBack, brought);
    }

    private string? ReasonToHoldBack(Entry entry)
    {
        if (view.Revoked.ContainsKey(entry.Envelope.Replica))
        {
            return HeldBack.OfRevoked;
        }

        if (entry.Envelope.Correction is not { } correction)
        {
            return null;
        }

        return view.Index.IsHeldBack(correction.Target) || _heldBackHere.Contains(correction.Target)
                ? HeldBack.CorrectsHeldBack
            : visitor.Role is not Role.Helper ? null
            : _relayed[entry.Envelope.Replica] ? HeldBack.BroughtCorrection
            : IsOwnEntry(correction.Target) ? null
            : HeldBack.CorrectsAnothers;
    }

    private bool IsOwnEntry(EntryId target)
    {
        var known = view.Index.Find(target).Select(known => known.Replica).ToList();
        return known.Count > 0 ? known.TrueForAll(IsOwn) : _ids.ContainsKey(target);
    }

    private bool IsOwn(ReplicaId replica) =>
        _toBind.Contains(replica)
        || (view.Bindings.TryGetValue(replica, out var person) && person == visitor.Person);

    private static Remark Numbered(string code, Entry entry) =>
        new(
            code,
            new("replica", entry.Envelope.Replica),
            new("sequence", entry.Envelope.Sequence),
            new("entry", entry.Id)
        );

    private static bool Same(string left, string right) =>
        string.Equals(PersonName.KeyOf(left), PersonName.KeyOf(right), StringComparison.Ordinal);
}
