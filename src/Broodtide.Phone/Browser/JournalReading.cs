using System.Buffers.Binary;
using System.Runtime.InteropServices.JavaScript;
using Broodtide.Domain.Journal;

namespace Broodtide.Phone.Browser;

/// <summary>Reads the journal of this phone a few entries at a time, so that the page stays usable meanwhile.</summary>
internal static partial class JournalReading
{
    private const string Module = "opening";
    private const int RowsAtOnce = 400;
    private const int EntriesAtOnce = 40;

    private static Task<JSObject>? _loaded;

    /// <summary>Every entry, in no order that means anything.</summary>
    public static async Task<List<Entry>> ReadAsync(Slicer slicer)
    {
        await LoadAsync();
        var entries = new List<Entry>();
        var after = Array.Empty<byte>();
        while (true)
        {
            using var last = Bytes.ToScript(after);
            var packed = Bytes.FromScript(await ReadSome(last, RowsAtOnce));
            var rows = 0;
            for (var at = 0; at < packed.Length; rows++)
            {
                after = packed[at..(at + Digest.Length)];
                at = Read(packed, at, entries);
                if (rows % EntriesAtOnce == 0)
                {
                    await slicer.Breathe();
                }
            }

            if (rows < RowsAtOnce)
            {
                return entries;
            }
        }
    }

    /// <summary>Waits until what was drawn is on the screen.</summary>
    public static async Task PaintedAsync()
    {
        await LoadAsync();
        await Painted();
    }

    // The entries lie in the array they came in: nothing is copied.
    private static int Read(byte[] packed, int at, List<Entry> entries)
    {
        var digest = Digest.FromBytes(packed.AsSpan(at, Digest.Length));
        at += Digest.Length;
        var envelope = BinaryPrimitives.ReadInt32LittleEndian(packed.AsSpan(at));
        var salted = BinaryPrimitives.ReadInt32LittleEndian(packed.AsSpan(at + 4));
        at += 8;
        var read = Entry.ReadTrusted(
            new EntryBytes(
                packed.AsMemory(at, envelope),
                salted > EntryBytes.SaltLength ? packed.AsMemory(at + envelope, salted) : default
            ),
            digest
        );
        if (read.Succeeded)
        {
            entries.Add(read.Value);
        }

        return at + envelope + salted;
    }

    private static Task LoadAsync() => _loaded ??= JSHost.ImportAsync(Module, "../js/opening.js");

    [JSImport("readSome", Module)]
    private static partial Task<JSObject> ReadSome(JSObject after, int most);

    [JSImport("painted", Module)]
    private static partial Task Painted();
}
