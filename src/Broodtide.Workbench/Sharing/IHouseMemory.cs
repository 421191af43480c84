using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// What the house remembers about sharing, beside the journal: whose each store is, what was held back, who brought
/// what, what was refused. Each call is on the disk when it returns.
/// </summary>
public interface IHouseMemory
{
    /// <summary>Which person each store of somebody is bound to.</summary>
    IReadOnlyDictionary<ReplicaId, PersonId> Bindings();

    /// <summary>Binds stores that are bound to nobody yet.</summary>
    void Bind(IReadOnlyCollection<ReplicaId> replicas, PersonId person);

    /// <summary>Every replica that the house's own doors write as or have written as.</summary>
    IReadOnlySet<ReplicaId> OwnReplicas();

    /// <summary>Remembers what the house's own doors write as.</summary>
    void AddOwn(IReadOnlyCollection<ReplicaId> replicas);

    /// <summary>Stores whose unsent entries the owner wants to see first, and since when.</summary>
    IReadOnlyDictionary<ReplicaId, Instant> Revoked();

    /// <summary>From now on, what a store sends is held back.</summary>
    void Revoke(IReadOnlyCollection<ReplicaId> replicas, Instant at);

    /// <summary>Until when others' entries may be brought; none if that was never opened or was closed.</summary>
    Instant? RefillUntil();

    /// <summary>Opens or closes the time in which others' entries may be brought.</summary>
    void SetRefill(Instant? until);

    /// <summary>What each store last said of the entries that wait in it.</summary>
    IReadOnlyList<Reported> Reports();

    /// <summary>Keeps what stores have said, each in place of what it said before.</summary>
    void Report(IReadOnlyCollection<Reported> reports);

    /// <summary>Every entry that was ever held back, in the order of arrival; bytes of those that still wait.</summary>
    IReadOnlyList<HeldBack> HeldBack();

    /// <summary>
    /// A number that grows whenever an entry is held back or decided on, by whichever program of the house.
    /// </summary>
    long HeldBackChanges();

    /// <summary>Holds entries back; those held back before stay as they are.</summary>
    void HoldBack(IReadOnlyCollection<HeldBack> entries);

    /// <summary>The owner has decided on entries that were held back; their bytes are let go.</summary>
    void Decide(IReadOnlyCollection<Digest> entries, Decision decision);

    /// <summary>Remarks of the house on entries of the journal, in the order of making.</summary>
    IReadOnlyList<EntryMark> Marks();

    /// <summary>Keeps remarks; one of each sort for an entry, the first one stays.</summary>
    void Mark(IReadOnlyCollection<EntryMark> marks);

    /// <summary>The refusals kept, oldest first: the last <see cref="Refusal.MostKept"/>.</summary>
    IReadOnlyList<Refusal> Refusals();

    /// <summary>Keeps a refusal.</summary>
    void Log(Refusal refusal);

    /// <summary>
    /// Keeps every other program of the house waiting that wants to judge or decide too, until it is disposed of: what
    /// was seen at its beginning still holds at its end.
    /// </summary>
    IDisposable TakeTurn();
}

/// <summary>What a store said of the entries that wait in it to be sent.</summary>
/// <param name="Replica">The store.</param>
/// <param name="Person">Who said so.</param>
/// <param name="Waiting">How many entries wait there.</param>
/// <param name="At">When, by the house's clock.</param>
/// <param name="SecondsAhead">How far the device's clock was ahead of the house's, in seconds; negative if behind.</param>
public sealed record Reported(ReplicaId Replica, PersonId Person, int Waiting, Instant At, long SecondsAhead);

/// <summary>What the owner has decided on an entry that was held back.</summary>
public enum Decision
{
    /// <summary>Nothing yet: it waits.</summary>
    None,

    /// <summary>It was let into the journal.</summary>
    LetIn,

    /// <summary>It was thrown away.</summary>
    Discarded,
}

/// <summary>An entry that waits for the owner, or did.</summary>
/// <param name="Digest">Its digest.</param>
/// <param name="Id">Its identity.</param>
/// <param name="Replica">The store that wrote it.</param>
/// <param name="Sequence">Its running number there.</param>
/// <param name="Person">Who sent it.</param>
/// <param name="At">When it came.</param>
/// <param name="Reason">Why it was held back, a code.</param>
/// <param name="Bytes">The entry, while it waits.</param>
/// <param name="Decision">What was decided.</param>
public sealed record HeldBack(
    Digest Digest,
    EntryId Id,
    ReplicaId Replica,
    long Sequence,
    PersonId Person,
    Instant At,
    string Reason,
    EntryBytes Bytes,
    Decision Decision
)
{
    /// <summary>The store that sends is revoked.</summary>
    public const string OfRevoked = "revoked";

    /// <summary>A helper corrects or erases what somebody else wrote, or what is not here to be looked at.</summary>
    public const string CorrectsAnothers = "corrects-anothers";

    /// <summary>It corrects or erases an entry that is held back itself.</summary>
    public const string CorrectsHeldBack = "corrects-held-back";

    /// <summary>A helper brings a correction or an erasure that somebody else is said to have written.</summary>
    public const string BroughtCorrection = "brought-correction";
}

/// <summary>Something the house says of an entry of the journal.</summary>
/// <param name="Entry">Digest of the entry.</param>
/// <param name="Replica">The store that wrote it.</param>
/// <param name="Sort">What is said.</param>
/// <param name="Person">Who sent the entry.</param>
/// <param name="At">When it came, by the house's clock.</param>
/// <param name="Seconds">For a clock: how far it is ahead of the house's; else 0.</param>
public sealed record EntryMark(
    Digest Entry,
    ReplicaId Replica,
    MarkSort Sort,
    PersonId Person,
    Instant At,
    long Seconds
);

/// <summary>What the house may say of an entry.</summary>
public enum MarkSort
{
    /// <summary>It was not sent by its writer but brought by another; who wrote it cannot be proved.</summary>
    Brought,

    /// <summary>The clock it was written by differed from the house's by more than a day.</summary>
    ClockFarOff,
}

/// <summary>A request that was refused.</summary>
/// <param name="At">When.</param>
/// <param name="Person">Whose session it was.</param>
/// <param name="Name">What the person is called.</param>
/// <param name="Code">Why, a code.</param>
/// <param name="Details">What it was about, for a programmer's eye; at most 500 characters.</param>
public sealed record Refusal(Instant At, PersonId Person, string Name, string Code, string Details)
{
    /// <summary>How many refusals are kept; older ones make room, so that nobody can fill the disk with them.</summary>
    public const int MostKept = 1000;

    /// <summary>Most characters of details that are kept.</summary>
    public const int LongestDetails = 500;
}
