using System.Security.Cryptography;
using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench;

namespace Broodtide.Phone.Keeping;

/// <summary>
/// The journal on this phone: one replica in the browser's own database, shared by all tabs. An entry is shown as
/// written only when it is on the disk.
/// </summary>
internal sealed class PhoneJournal(BrowserStore store, Pen pen) : IJournal
{
    private const string ReplicaFact = "replica";
    private const string CheckpointName = "checkpoints";

    public ReplicaId Replica { get; private set; }

    /// <summary>Opens the store; the first time it gets a name.</summary>
    public async Task OpenAsync()
    {
        await store.Open();
        using var _ = await pen.Take();
        if (await store.GetFact(ReplicaFact) is { Length: 16 } known)
        {
            Replica = new ReplicaId(new Guid(known, bigEndian: true));
            return;
        }

        Replica = new ReplicaId(Guid.CreateVersion7());
        await store.PutFact(ReplicaFact, Replica.Value.ToByteArray(bigEndian: true));
    }

    public async ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
        EntriesOf(await store.ReadAll());

    /// <summary>The entries that the server has not said it holds.</summary>
    public async Task<IReadOnlyList<Entry>> ReadWaitingAsync() => EntriesOf(await store.ReadWaiting());

    public Task<int> CountWaitingAsync() => store.CountWaiting();

    public Task AcknowledgeAsync(IReadOnlyCollection<Entry> entries) =>
        store.Acknowledge([.. entries.Select(entry => entry.Digest)]);

    public async ValueTask<IReadOnlyList<Entry>> AppendAsync(
        IReadOnlyList<Draft> drafts,
        CancellationToken cancellation = default
    )
    {
        using var _ = await pen.Take(cancellation);
        // Another tab may have written since: the last of our own entries is asked for under the pen.
        var last = await LastOwnAsync();
        var sealed_ = new List<Entry>(drafts.Count);
        foreach (var draft in drafts)
        {
            last = draft.Seal(
                Replica,
                (last?.Envelope.Sequence ?? 0) + 1,
                last?.Digest,
                RandomNumberGenerator.GetBytes(EntryBytes.SaltLength)
            );
            sealed_.Add(last);
        }

        await store.Append([.. sealed_.Select(entry => RowOf(entry, false))]);
        await EraseWhatIsErasedAsync(sealed_);
        _last = last;
        return sealed_;
    }

    public async ValueTask<Intake> TakeAsync(
        IReadOnlyList<Entry> entries,
        CancellationToken cancellation = default
    )
    {
        var erased = Erasures(EntriesOf(await store.ReadAll())).Concat(Erasures(entries)).ToHashSet();
        var rows = entries
            .Select(entry => RowOf(erased.Contains(entry.Id) ? entry.Erased() : entry, true))
            .ToList();
        var added = await store.Append(rows);
        await EraseWhatIsErasedAsync(entries);
        return new Intake(added, entries.Count - added, []);
    }

    public async ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(
        CancellationToken cancellation = default
    ) => await store.GetCheckpoint(CheckpointName) is { } bytes ? CheckpointBytes.Read(bytes) : [];

    public async ValueTask KeepAsync(
        IReadOnlyList<Checkpoint> checkpoints,
        CancellationToken cancellation = default
    ) => await store.PutCheckpoint(CheckpointName, CheckpointBytes.Write(checkpoints));

    public async ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
        await store.ClearCheckpoints();

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private Entry? _last;

    private async Task<Entry?> LastOwnAsync()
    {
        var newer = EntriesOf(await store.ReadAfter(Replica.Value, _last?.Envelope.Sequence ?? 0));
        return newer.MaxBy(entry => entry.Envelope.Sequence) ?? _last;
    }

    // A wish to erase reaches the bodies that are here already.
    private async Task EraseWhatIsErasedAsync(IReadOnlyList<Entry> written)
    {
        var targets = Erasures(written).ToHashSet();
        if (targets.Count == 0)
        {
            return;
        }

        var held = EntriesOf(await store.ReadAll());
        await store.Erase([
            .. held.Where(entry => targets.Contains(entry.Id) && entry.HasBody).Select(e => e.Digest),
        ]);
    }

    private static IEnumerable<EntryId> Erasures(IEnumerable<Entry> entries) =>
        entries
            .Where(entry => entry.Envelope.Correction is { Kind: CorrectionKind.Erases })
            .Select(entry => entry.Envelope.Correction!.Value.Target);

    private static StoredRow RowOf(Entry entry, bool acknowledged) =>
        new(
            entry.Digest,
            entry.Envelope.Replica.Value,
            entry.Envelope.Sequence,
            entry.Bytes.Envelope.ToArray(),
            entry.HasBody ? entry.Bytes.SaltedBody[..EntryBytes.SaltLength].ToArray() : [],
            entry.HasBody ? entry.Bytes.SaltedBody[EntryBytes.SaltLength..].ToArray() : [],
            acknowledged
        );

    private static List<Entry> EntriesOf(IReadOnlyList<StoredRow> rows)
    {
        var entries = new List<Entry>(rows.Count);
        foreach (var row in rows)
        {
            byte[] salted = row.IsErased ? [] : [.. row.Salt, .. row.Body];
            var read = Entry.ReadTrusted(new EntryBytes(row.Envelope, salted), row.Digest);
            if (read.Succeeded)
            {
                entries.Add(read.Value);
            }
        }

        return entries;
    }
}

/// <summary>Checkpoints as one byte string: they may be thrown away, so a shape of our own will do.</summary>
internal static class CheckpointBytes
{
    public static byte[] Write(IReadOnlyList<Checkpoint> checkpoints)
    {
        using var stream = new MemoryStream();
        using (var writer = new BinaryWriter(stream, Encoding.UTF8, leaveOpen: true))
        {
            foreach (var checkpoint in checkpoints)
            {
                writer.Write(checkpoint.Fold);
                writer.Write(checkpoint.Version);
                writer.Write(checkpoint.Position);
                writer.Write(checkpoint.Mark.First);
                writer.Write(checkpoint.Mark.Second);
                writer.Write(checkpoint.State.Length);
                writer.Write(checkpoint.State.Span);
            }
        }

        return stream.ToArray();
    }

    public static IReadOnlyList<Checkpoint> Read(byte[] bytes)
    {
        var found = new List<Checkpoint>();
        try
        {
            using var reader = new BinaryReader(new MemoryStream(bytes), Encoding.UTF8);
            while (reader.BaseStream.Position < bytes.Length)
            {
                var (fold, version, position) = (reader.ReadString(), reader.ReadInt32(), reader.ReadInt32());
                var mark = new PrefixMark(reader.ReadUInt64(), reader.ReadUInt64());
                found.Add(
                    new Checkpoint(fold, version, position, mark, reader.ReadBytes(reader.ReadInt32()))
                );
            }
        }
        catch (Exception e) when (e is EndOfStreamException or ArgumentException)
        {
            // Half a checkpoint is none.
        }

        return found;
    }
}
