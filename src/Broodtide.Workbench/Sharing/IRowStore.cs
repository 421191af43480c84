using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// Where a phone keeps its entries: rows that are on the disk when a call returns. The browser's database on a
/// phone, a table in memory in tests.
/// </summary>
public interface IRowStore
{
    /// <summary>Opens it, making it the first time.</summary>
    Task Open();

    /// <summary>
    /// Appends all rows or none. A row whose digest is there stays as it is, but for a body that was missing.
    /// Answers how many were new.
    /// </summary>
    Task<int> Append(IReadOnlyCollection<StoredRow> rows);

    /// <summary>Every row, in no order that means anything.</summary>
    Task<IReadOnlyList<StoredRow>> ReadAll();

    /// <summary>The rows that the house has not acknowledged.</summary>
    Task<IReadOnlyList<StoredRow>> ReadWaiting();

    /// <summary>How many rows the house has not acknowledged.</summary>
    Task<int> CountWaiting();

    /// <summary>Rows of one replica with a greater running number, in its order, at most so many.</summary>
    Task<IReadOnlyList<StoredRow>> ReadAfter(Guid replica, long seq, int most);

    /// <summary>Marks rows as held by the house too.</summary>
    Task Acknowledge(IReadOnlyCollection<Digest> digests);

    /// <summary>Marks rows as not held by the house after all.</summary>
    Task AwaitAgain(IReadOnlyCollection<Digest> digests);

    /// <summary>Removes bodies and their random bytes; the envelopes stay.</summary>
    Task Erase(IReadOnlyCollection<Digest> digests);

    /// <summary>Keeps a small fact about this store, such as its replica.</summary>
    Task PutFact(string name, ReadOnlyMemory<byte> bytes);

    /// <summary>A small fact about this store, or none.</summary>
    Task<byte[]?> GetFact(string name);

    /// <summary>Keeps a checkpoint that may be thrown away.</summary>
    Task PutCheckpoint(string name, ReadOnlyMemory<byte> bytes);

    /// <summary>A checkpoint, or none.</summary>
    Task<byte[]?> GetCheckpoint(string name);

    /// <summary>Throws all checkpoints away.</summary>
    Task ClearCheckpoints();
}

/// <summary>Who holds it may number the next entry; one for all pages of the app.</summary>
public interface IPen
{
    /// <summary>Waits until nobody else holds it. Disposing puts it down.</summary>
    Task<IDisposable> Take(CancellationToken cancel = default);
}

/// <summary>One entry as a phone keeps it: its two byte strings apart from the sixteen random bytes.</summary>
/// <param name="Digest">SHA-256 of the envelope: what tells two entries apart.</param>
/// <param name="Replica">The store that wrote it.</param>
/// <param name="Seq">Its running number there, from 1.</param>
/// <param name="Envelope">The envelope's bytes as they came.</param>
/// <param name="Salt">Sixteen random bytes; empty once erased.</param>
/// <param name="Body">The body's bytes as they came; empty once erased.</param>
/// <param name="Acknowledged">Whether the house has said that it holds the entry.</param>
public sealed record StoredRow(
    Digest Digest,
    Guid Replica,
    long Seq,
    byte[] Envelope,
    byte[] Salt,
    byte[] Body,
    bool Acknowledged
)
{
    /// <summary>Whether the body was removed at a person's wish.</summary>
    public bool IsErased => Body.Length == 0;

    /// <summary>The row of an entry.</summary>
    public static StoredRow Of(Entry entry, bool acknowledged)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return new(
            entry.Digest,
            entry.Envelope.Replica.Value,
            entry.Envelope.Sequence,
            entry.Bytes.Envelope.ToArray(),
            entry.HasBody ? entry.Bytes.SaltedBody[..EntryBytes.SaltLength].ToArray() : [],
            entry.HasBody ? entry.Bytes.SaltedBody[EntryBytes.SaltLength..].ToArray() : [],
            acknowledged
        );
    }

    /// <summary>The entry of a row; none if its bytes are no entry.</summary>
    public Entry? ToEntry()
    {
        byte[] salted = IsErased ? [] : [.. Salt, .. Body];
        var read = Entry.ReadTrusted(new EntryBytes(Envelope, salted), Digest);
        return read.Succeeded ? read.Value : null;
    }
}
