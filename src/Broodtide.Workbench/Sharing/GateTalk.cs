using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>What a phone says of itself with each request.</summary>
/// <param name="Waiting">How many entries wait in each store on it, if the request succeeds.</param>
/// <param name="Now">Its clock; none if it does not say.</param>
public sealed record PhoneReport(IReadOnlyDictionary<ReplicaId, int> Waiting, Instant? Now)
{
    /// <summary>A phone that says nothing.</summary>
    public static PhoneReport Nothing { get; } = new(new Dictionary<ReplicaId, int>(), null);
}

/// <summary>What a phone is told when it comes.</summary>
/// <param name="Holdings">What the house holds, what was held back of the visitor's own included.</param>
/// <param name="Mine">Stores bound to the visitor.</param>
/// <param name="Revoked">Those of them that are revoked: whoever writes in one begins a new one.</param>
/// <param name="Person">Who the visitor is.</param>
/// <param name="Role">What the visitor may do.</param>
/// <param name="Lacking">How many entries the phone lacks, some of which it may have.</param>
/// <param name="HeldBack">How many of the visitor's entries wait for the owner.</param>
/// <param name="RefillUntil">Until when others' entries may be brought; none if they may not.</param>
/// <param name="SecondsAhead">How far the phone's clock is ahead of the house's.</param>
public sealed record Welcome(
    Holdings Holdings,
    IReadOnlySet<ReplicaId> Mine,
    IReadOnlySet<ReplicaId> Revoked,
    PersonId Person,
    Role Role,
    long Lacking,
    int HeldBack,
    Instant? RefillUntil,
    long SecondsAhead
);

/// <summary>What became of a batch that was accepted. All of it is on the disk of the house.</summary>
/// <param name="New">Entries that went into the journal.</param>
/// <param name="Known">Entries that were here.</param>
/// <param name="HeldBack">Entries that wait for the owner.</param>
public sealed record Accepted(int New, int Known, int HeldBack);

/// <summary>A place in the order of replicas and running numbers, up to which entries were fetched.</summary>
/// <param name="Replica">The replica.</param>
/// <param name="Sequence">The running number.</param>
public readonly record struct FetchedUpTo(ReplicaId Replica, long Sequence);

/// <summary>How much goes over at once.</summary>
public static class BatchSize
{
    /// <summary>Most entries that are sent in one batch.</summary>
    public const int Entries = 500;

    /// <summary>About how many bytes are sent in one batch; a single entry may be longer.</summary>
    public const int Bytes = 2 * 1024 * 1024;

    /// <summary>Most entries that the house takes in one batch.</summary>
    public const int MostEntries = 1000;

    /// <summary>Most bytes that the house takes in one request.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>The first of these entries that go over together; at least one if there is any.</summary>
    public static IReadOnlyList<Entry> FirstOf(IReadOnlyList<Entry> entries)
    {
        var (count, bytes) = (0, 0L);
        while (count < entries.Count && count < Entries)
        {
            bytes += entries[count].Bytes.Envelope.Length + entries[count].Bytes.SaltedBody.Length;
            if (count > 0 && bytes > Bytes)
            {
                break;
            }

            count++;
        }

        return count == entries.Count ? entries : [.. entries.Take(count)];
    }
}
