using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench;

/// <summary>
/// A store of the journal: one replica. It writes its own entries with running numbers without gaps, takes in the
/// entries of others, and gives everything back as it came. An entry whose writing was confirmed is on the disk.
/// </summary>
public interface IJournal : IAsyncDisposable
{
    /// <summary>Name of this life of this store.</summary>
    ReplicaId Replica { get; }

    /// <summary>Every entry held, in no order.</summary>
    ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default);

    /// <summary>
    /// Writes drafts as entries of this replica, all or none, in their order. Returns once they are durable.
    /// </summary>
    /// <exception cref="ArgumentException">A fact is impossible; nothing is written.</exception>
    ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    );

    /// <summary>
    /// Takes in entries from elsewhere: those already here are passed over, facts that are erased are not kept.
    /// All or none. Returns once they are durable.
    /// </summary>
    ValueTask<Intake> TakeAsync(IReadOnlyList<Entry> entries, CancellationToken cancellation = default);

    /// <summary>Checkpoints kept from earlier, newest last; may be empty at any time.</summary>
    ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(CancellationToken cancellation = default);

    /// <summary>Keeps checkpoints in place of all older ones of the same fold.</summary>
    ValueTask KeepAsync(IReadOnlyList<Checkpoint> checkpoints, CancellationToken cancellation = default);

    /// <summary>Throws all checkpoints away.</summary>
    ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default);
}

/// <summary>What became of entries from elsewhere.</summary>
/// <param name="New">How many were not here.</param>
/// <param name="Known">How many were here already.</param>
/// <param name="Conflicts">What does not agree with what is here; nothing was refused for it.</param>
public sealed record Intake(int New, int Known, IReadOnlyList<Remark> Conflicts);
