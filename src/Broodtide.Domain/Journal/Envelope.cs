using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>Who wrote an entry: a person, or the software for what it writes itself.</summary>
/// <param name="Name">The person's name in this house, or the software's name.</param>
/// <param name="Version">The software's version; none for a person.</param>
public sealed record Author(string Name, string? Version = null)
{
    /// <summary>Whether the software wrote this, not a person.</summary>
    public bool IsSoftware => Version is not null;
}

/// <summary>How an entry corrects another.</summary>
public enum CorrectionKind
{
    /// <summary>The same fact told better.</summary>
    Replaces,

    /// <summary>It did not happen; or, aimed at a correction, the correction is taken back.</summary>
    Retracts,

    /// <summary>The facts are removed everywhere; that they were removed stays.</summary>
    Erases,
}

/// <summary>What an entry does to another.</summary>
/// <param name="Kind">Replace, retract or erase.</param>
/// <param name="Target">The entry it is aimed at.</param>
public readonly record struct Correction(CorrectionKind Kind, EntryId Target);

/// <summary>
/// The outer half of an entry: everything but the facts. Its canonical bytes are what the hash chain runs over,
/// so it survives when the facts are erased.
/// </summary>
public sealed record Envelope
{
    /// <summary>Identity, made where the entry was made; never used for order.</summary>
    public required EntryId Id { get; init; }

    /// <summary>The store that wrote it.</summary>
    public required ReplicaId Replica { get; init; }

    /// <summary>Running number within the replica, from 1 without gaps.</summary>
    public required long Sequence { get; init; }

    /// <summary>Who wrote it.</summary>
    public required Author Author { get; init; }

    /// <summary>The device's clock when it was written down.</summary>
    public required Instant Written { get; init; }

    /// <summary>IANA name of the time zone the writer was in.</summary>
    public required string Zone { get; init; }

    /// <summary>When it happened, as far as known.</summary>
    public required Happened Happened { get; init; }

    /// <summary>Subject and past participle, such as "reading taken".</summary>
    public required string Kind { get; init; }

    /// <summary>Version of the kind's shape, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>What it corrects, if it is a correction.</summary>
    public Correction? Correction { get; init; }

    /// <summary>SHA-256 of the previous envelope of the same replica; none for the first.</summary>
    public Digest? Previous { get; init; }

    /// <summary>SHA-256 of the 16 random bytes followed by the body bytes.</summary>
    public required Digest Body { get; init; }
}
