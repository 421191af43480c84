using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench;

/// <summary>A journal that many meet: it can be asked for parts, so that no meeting reads the whole of it.</summary>
public interface ISharedJournal : IJournal
{
    /// <summary>
    /// What has arrived after a place in this store, by whichever door, in the order of arrival. Places mean
    /// nothing in any other store.
    /// </summary>
    /// <param name="place">0 for everything, else the place of the last arrival known.</param>
    /// <param name="cancellation">Gives up.</param>
    ValueTask<IReadOnlyList<Arrival>> ArrivedSinceAsync(long place, CancellationToken cancellation = default);

    /// <summary>Entries of one replica, by running number and digest.</summary>
    /// <param name="replica">The replica.</param>
    /// <param name="after">Entries with a greater running number.</param>
    /// <param name="most">No more than so many, but all rivals under the last number.</param>
    /// <param name="cancellation">Gives up.</param>
    ValueTask<IReadOnlyList<Entry>> ReadAfterAsync(
        ReplicaId replica,
        long after,
        int most,
        CancellationToken cancellation = default
    );

    /// <summary>Every replica that this life of the store writes as, by whichever door.</summary>
    ValueTask<IReadOnlySet<ReplicaId>> OwnReplicasAsync(CancellationToken cancellation = default);
}

/// <summary>One entry that has arrived in a store, without its words.</summary>
/// <param name="Place">Where it stands in the order of arrival, from 1.</param>
/// <param name="Digest">Its digest.</param>
/// <param name="Id">Its identity.</param>
/// <param name="Replica">The store that wrote it.</param>
/// <param name="Sequence">Its running number there.</param>
public readonly record struct Arrival(
    long Place,
    Digest Digest,
    EntryId Id,
    ReplicaId Replica,
    long Sequence
);
