using Broodtide.Workbench.Sharing;

namespace Broodtide.Fuzzing;

/// <summary>What phone and house say to each other, in both directions.</summary>
internal static class SyncReader
{
    private static readonly Action<ReadOnlyMemory<byte>>[] Messages =
    [
        bytes => SharingText.ReadMeeting(bytes),
        bytes => SharingText.ReadLacking(bytes),
        bytes => SharingText.ReadGiving(bytes),
        bytes => SharingText.ReadEntries(bytes),
        bytes => SharingText.ReadWelcome(bytes),
        bytes => SharingText.ReadAccepted(bytes),
        bytes => SharingText.ReadRefusal(bytes),
        bytes => OwnersText.ReadEntries(bytes),
        bytes => OwnersText.ReadStores(bytes),
        bytes => OwnersText.ReadRefill(bytes),
        bytes => EntryBatch.ReadInPiecesAsync(bytes).GetAwaiter().GetResult(),
    ];

    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, Messages.Length);
        Messages[choice](rest);
    }
}
