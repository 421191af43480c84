using System.Runtime.InteropServices.JavaScript;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Browser;

/// <summary>
/// The entries on this phone, in the browser's own database. A finished append is on the disk. The store belongs to
/// the address in the browser's bar.
/// </summary>
internal sealed class BrowserStore : IRowStore
{
    // Some thirty entries: enough for an evening at the bench.
    private const int ProbeBytes = 65_536;

    /// <summary>Another tab of this app has written; read what is new with <see cref="ReadAfter"/>.</summary>
    public event Action? OthersWrote;

    /// <summary>What stands in the way of the store is not what it was.</summary>
    public event Action? TroubleChanged;

    /// <summary>What stands in the way of the store now.</summary>
    public StoreTrouble Trouble
    {
        get;
        private set
        {
            if (field != value)
            {
                field = value;
                TroubleChanged?.Invoke();
            }
        }
    }

    /// <summary>Opens the database, making it the first time.</summary>
    public async Task Open()
    {
        Glue.WhenStore(told => Trouble = StoreTroubles.Of(told));
        await Asked(async () =>
        {
            await Glue.OpenStore();
            return true;
        });
        Glue.WhenOthersWrite(() => OthersWrote?.Invoke());
    }

    /// <summary>
    /// Appends all rows or none; a row whose digest is there already stays as it is, but for a body that was missing.
    /// Answers how many were new.
    /// </summary>
    /// <exception cref="StoreException">Nothing was written: no room, or the store is another tab's.</exception>
    public async Task<int> Append(IReadOnlyCollection<StoredRow> rows)
    {
        using var packed = Bytes.ToScript(RowPacking.Pack(rows));
        var added = await Asked(() => Glue.Append(packed));
        if (Trouble is StoreTrouble.Full)
        {
            await Probe();
        }

        return added;
    }

    /// <summary>
    /// Writes a small piece and takes it away again, so that a phone without room says so before anything is typed.
    /// Some browsers tell a made-up figure when they are asked for the room.
    /// </summary>
    public async Task Probe()
    {
        var isFull = !await Glue.Probe(ProbeBytes);
        Trouble =
            isFull ? StoreTrouble.Full
            : Trouble is StoreTrouble.Full ? StoreTrouble.None
            : Trouble;
    }

    /// <summary>Every row, in no order that means anything.</summary>
    public async Task<IReadOnlyList<StoredRow>> ReadAll() => Unpacked(await Asked(Glue.ReadAll));

    /// <summary>The rows that the server has not acknowledged.</summary>
    public async Task<IReadOnlyList<StoredRow>> ReadWaiting() => Unpacked(await Glue.ReadWaiting());

    /// <summary>How many rows the server has not acknowledged.</summary>
    public Task<int> CountWaiting() => Glue.CountWaiting();

    /// <summary>The rows of one replica with a greater running number, in its order, at most so many.</summary>
    public async Task<IReadOnlyList<StoredRow>> ReadAfter(Guid replica, long seq, int most)
    {
        using var id = Bytes.ToScript(replica.ToByteArray(bigEndian: true));
        return Unpacked(await Asked(() => Glue.ReadAfter(id, seq, most)));
    }

    /// <summary>Marks rows as held by the server too.</summary>
    public async Task Acknowledge(IReadOnlyCollection<Digest> digests)
    {
        using var packed = Bytes.ToScript(RowPacking.Digests(digests));
        await Glue.Acknowledge(packed);
    }

    /// <summary>Marks rows as not held by the server after all.</summary>
    public async Task AwaitAgain(IReadOnlyCollection<Digest> digests)
    {
        using var packed = Bytes.ToScript(RowPacking.Digests(digests));
        await Glue.AwaitAgain(packed);
    }

    /// <summary>Removes the bodies and their random bytes; the envelopes stay.</summary>
    public async Task Erase(IReadOnlyCollection<Digest> digests)
    {
        using var packed = Bytes.ToScript(RowPacking.Digests(digests));
        await Glue.Erase(packed);
    }

    /// <summary>Keeps a checkpoint that may be thrown away.</summary>
    public async Task PutCheckpoint(string name, ReadOnlyMemory<byte> bytes)
    {
        using var array = Bytes.ToScript(bytes.Span);
        await Glue.PutCheckpoint(name, array);
    }

    /// <summary>A checkpoint, or none.</summary>
    public async Task<byte[]?> GetCheckpoint(string name) =>
        await Glue.GetCheckpoint(name) is { } array ? Bytes.FromScript(array) : null;

    /// <summary>Throws all checkpoints away.</summary>
    public Task ClearCheckpoints() => Glue.ClearCheckpoints();

    /// <summary>Keeps a small fact about this store, such as its replica id.</summary>
    public async Task PutFact(string name, ReadOnlyMemory<byte> bytes)
    {
        using var array = Bytes.ToScript(bytes.Span);
        await Glue.PutFact(name, array);
    }

    /// <summary>A small fact about this store, or none.</summary>
    public async Task<byte[]?> GetFact(string name) =>
        await Glue.GetFact(name) is { } array ? Bytes.FromScript(array) : null;

    /// <summary>Asks the browser never to throw the store away; says whether it promises.</summary>
    public Task<bool> KeepForGood() => Glue.KeepForGood();

    // What the browser refuses has a name; the name becomes the trouble.
    private async Task<T> Asked<T>(Func<Task<T>> ask)
    {
        try
        {
            return await ask();
        }
        catch (JSException refused)
        {
            var trouble = StoreTroubles.Of(refused);
            // A tab that another one has made old stays old, whatever fails then.
            Trouble = Trouble is StoreTrouble.Newer ? Trouble : trouble;
            throw new StoreException(Trouble, refused);
        }
    }

    private static IReadOnlyList<StoredRow> Unpacked(JSObject rows) =>
        RowPacking.Unpack(Bytes.FromScript(rows));
}
