namespace Broodtide.Domain.Journal;

/// <summary>
/// Which entries of a damaged file the others vouch for. An envelope holds the hash of its body and of the envelope before it, but
/// nothing in the file holds its own: a changed envelope that is still one is told only by the entry after it, and at the end
/// of a chain by nobody.
/// </summary>
internal static class Vouched
{
    /// <summary>Leaves out what the entry after it does not name.</summary>
    /// <param name="entries">What could be read.</param>
    /// <param name="isOneChanged">
    /// Whether one of them must have been changed. Where no entry denies the one before it then, and they stand in their order, it
    /// is the last of some chain, and none of these can be believed.
    /// </param>
    public static IReadOnlyList<Entry> Of(IReadOnlyList<Entry> entries, bool isOneChanged)
    {
        var byNumber = entries.ToLookup(entry => (entry.Envelope.Replica, entry.Envelope.Sequence));
        var denied = entries
            .Where(entry =>
                byNumber[(entry.Envelope.Replica, entry.Envelope.Sequence)].Skip(1).Any() is false
            )
            .Where(entry =>
                byNumber[(entry.Envelope.Replica, entry.Envelope.Sequence + 1)].ToList()
                    is { Count: > 0 } next
                && next.TrueForAll(after => after.Envelope.Previous != entry.Digest)
            )
            .ToHashSet();
        return denied.Count > 0 || !isOneChanged || !IsInOrder(entries)
            ? [.. entries.Where(entry => !denied.Contains(entry))]
            :
            [
                .. entries.Where(entry =>
                    byNumber[(entry.Envelope.Replica, entry.Envelope.Sequence + 1)].Any()
                ),
            ];
    }

    private static bool IsInOrder(IReadOnlyList<Entry> entries) =>
        entries
            .Zip(entries.Skip(1))
            .All(pair =>
                (pair.First.Envelope.Replica.Value, pair.First.Envelope.Sequence).CompareTo(
                    (pair.Second.Envelope.Replica.Value, pair.Second.Envelope.Sequence)
                ) <= 0
            );
}
