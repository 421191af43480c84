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
    /// Whether one of them must have been changed. Then nothing is believed that nobody vouches for: the last of each chain, and
    /// the one after a denied one where it is the last. Lines in another order are no change: what ties in is believed.
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
        if (!isOneChanged)
        {
            return [.. entries.Where(entry => !denied.Contains(entry))];
        }

        if (denied.Count > 0)
        {
            // One that denies and has nobody after it may itself be what was changed: in the hash that it gives.
            return
            [
                .. entries.Where(entry =>
                    !denied.Contains(entry) && (IsVouchedFor(entry) || !Before(entry).Any(denied.Contains))
                ),
            ];
        }

        // In another order one may have been given another writer or number: it then ties in nowhere.
        return IsInOrder(entries)
            ? [.. entries.Where(IsVouchedFor)]
            : [.. entries.Where(entry => IsVouchedFor(entry) || TiesIn(entry))];

        IEnumerable<Entry> After(Entry entry) =>
            byNumber[(entry.Envelope.Replica, entry.Envelope.Sequence + 1)];

        IEnumerable<Entry> Before(Entry entry) =>
            byNumber[(entry.Envelope.Replica, entry.Envelope.Sequence - 1)];

        bool IsVouchedFor(Entry entry) => After(entry).Any(after => after.Envelope.Previous == entry.Digest);

        bool TiesIn(Entry entry) => Before(entry).Any(before => before.Digest == entry.Envelope.Previous);
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
